"""Shops' folders as bad as they may be: many causes on the same defects, many checks, outcomes and fixes for each."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

BASIS = "common practice"
LETTERS = "abcdefghijklmnopqrstuvwxyz"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizes:
    """``causes`` all bring on each of ``defects``; every one of ``checks`` shows all of them in each of its loud
    ``outcomes``, and every one of ``fixes`` cures all. ``names``: of each defect."""

    causes: int
    defects: int
    checks: int = 1
    outcomes: int = 2
    fixes: int = 1
    names: int = 6

    def __str__(self) -> str:
        return (
            f"{self.causes} causes on {self.defects} defects, {self.checks} checks of {self.outcomes} outcomes, "
            f"{self.fixes} fixes"
        )


FOLDERS = (
    Sizes(causes=117, defects=17),
    Sizes(causes=40, defects=50),
    Sizes(causes=10, defects=200),
    Sizes(causes=1_000, defects=2),
    Sizes(causes=300, defects=6, checks=6, outcomes=6, fixes=40),
    Sizes(causes=100, defects=2, checks=100, outcomes=5, fixes=150),
    Sizes(causes=20, defects=5, names=400),
)  # 2,000 rules each, and no more


def asked(sizes: Sizes) -> str:
    """The ids of all defects, as many as are read of one text."""
    return " ".join(map(defect, range(sizes.defects)))[:1990]


def word(number: int) -> str:
    """A word of its own for each number."""
    return "q" + "".join(LETTERS[number // 26**place % 26] for place in range(4))


def defect(number: int) -> str:
    return f"sight-{word(number)}"


def write(folder: Path, sizes: Sizes) -> Path:
    """The shop's folder, written."""
    (folder / "rules").mkdir(parents=True)
    (folder / "kb").mkdir()
    (folder / "shop.yaml").write_text("{}\n", encoding="utf-8")
    for number in range(sizes.defects):
        _put(folder / "rules" / f"{defect(number)}.yaml", _rules(sizes, number))
    parts = {"causes": _causes, "checks": _checks, "fixes": _fixes}
    for name, lines in parts.items():
        _put(folder / "kb" / f"{name}.yaml", [f"{name}:", *lines(sizes)])
    return folder


def _put(path: Path, lines: Iterable[str]) -> None:
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")


def _cause(number: int) -> str:
    return f"why-{word(number)}"


def _rules(sizes: Sizes, number: int) -> Iterator[str]:
    names = ", ".join(f"{word(number)} {word(10_000 + place)}" for place in range(sizes.names))
    yield from (f"defect: {defect(number)}", f"title: Sight {word(number)}", f"looks: As {word(number)} looks.")
    yield from (f"said: [{names}]", "otherwise: rarely", "status: settled", "date: 2026-11-24", "rules:")
    for cause in range(sizes.causes):
        yield f"  - {{cause: {_cause(cause)}, brings: even, why: So it is., basis: {BASIS}}}"


def _causes(sizes: Sizes) -> Iterator[str]:
    for number in range(sizes.causes):
        yield f"  {_cause(number)}:"
        yield f"    {{title: Why {word(number)}, family: after, turns-up: sometimes, about: So., basis: {BASIS}}}"


def _checks(sizes: Sizes) -> Iterator[str]:
    loud = sizes.outcomes - 1
    for number in range(sizes.checks):
        yield f"  look-{word(number)}:"
        yield f"    title: Look {word(number)}"
        yield from ("    kind: look", f"    asks: What of {word(number)}?", "    how: [Look.]", "    needs: []")
        yield from ("    minutes: 1", "    spends: {}", "    cautions: []", f"    basis: {BASIS}", "    outcomes:")
        yield f"      none: {{looks: Nothing of {word(number)}, said: [none of {word(number)}]}}"
        for outcome in range(loud):
            said = f"{word(number)} {word(20_000 + outcome)}"
            shown = (f"{_cause(c)}: {(1 + (c + outcome + number) % 7) / 8 / loud:.4f}" for c in range(sizes.causes))
            yield f"      seen-{word(outcome)}:"
            yield f"        {{looks: See {said}, said: [{said}], otherwise: {0.3 / loud:.4f},"
            yield f"         shows: {{{', '.join(shown)}}}}}"


def _fixes(sizes: Sizes) -> Iterator[str]:
    for number in range(sizes.fixes):
        yield f"  mend-{word(number)}:"
        cured = ", ".join(f"{_cause(c)}: {(1 + (c + number) % 7) / 8:.3f}" for c in range(sizes.causes))
        yield f"    {{title: Mend {word(number)}, steps: [Mend it.], minutes: {1 + number % 30}, spends: {{}},"
        yield f"     cures: {{{cured}}}, cautions: [], basis: {BASIS}}}"
