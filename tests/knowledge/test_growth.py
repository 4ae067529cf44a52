"""No step of loading and checking grows with the square of what a folder holds, and what it may hold has an end."""

import re
import time
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any, Literal, TypeAlias

import pytest

from diagnose.cli import exits
from diagnose.knowledge import limits
from diagnose.knowledge.folders import Folder, SourceFile, read_folders, shipped_folder
from diagnose.knowledge.laying import leaving_out
from diagnose.knowledge.laying.compiling import compile_stock
from diagnose.knowledge.loading import load, load_shop, look_over
from diagnose.knowledge.model import KINDS
from diagnose.problems import MOST_HINTS, MOST_KEPT, MOST_SHOWN, Collector, Place, PressloreError
from tests.cli.playing import play

TINY = Path(__file__).parent / "valid" / "smallest"
KB, RULES = TINY / "kb" / "all.yaml", TINY / "rules" / "faint-colour.yaml"
Files = dict[str, str]
Kind: TypeAlias = Literal["kb", "rule", "ways"]
TIMES = 4  # as much; a step that grows with the square takes 16 times as long
STEEPEST = 9.0


def lines(many: int, line: str) -> str:
    return "".join(line.replace("%", str(number)) for number in range(many))


def added(rules: str, cases: str = "") -> Files:
    head = "adds-to: faint-colour\nstatus: settled\ndate: 2026-11-24\n"
    return {"rules/more.yaml": f"{head}rules:\n{rules}" + (f"cases:\n{cases}" if cases else "")}


RULE = "  - {cause: %s, brings: .6, if: {item.polyester: %s}, why: '-', basis: common practice}\n"
CAUSE = "  cause-%: {title: A, family: heat, turns-up: .1, about: '-', basis: common practice}\n"
FIX = "  fix-%: {title: A, steps: [a], minutes: 1, cures: {cause-%: .5}, basis: common practice}\n"
CHECK = (
    "  check-%: {title: A, kind: look, asks: a, how: [a], needs: [], minutes: 1, basis: common practice, outcomes: "
    "{no: {looks: a, said: [a]}, yes: {looks: b, said: [b], otherwise: .1, shows: {cause-%: .5}}}}\n"
)
CASE = "  - {story: '-', saw: [faint-colour], first: dwell-short, answers: {probe-the-platen: agrees}}\n"


def overlapping(many: int) -> Files:
    return added(lines(many, RULE % ("dwell-short", '"50..80"')))


def apart(many: int) -> Files:
    return added(lines(many, RULE % ("dwell-short", "%")))


def causes(many: int) -> Files:
    rules = lines(many, "  - {cause: cause-%, brings: .6, why: '-', basis: common practice}\n")
    kb = f"causes:\n{lines(many, CAUSE)}fixes:\n{lines(many, FIX)}checks:\n{lines(many, CHECK)}"
    return {"kb/more.yaml": kb, **added(rules)}


def unknown(many: int) -> Files:
    astray = added(lines(many, RULE % ("case-%", '"50..80"')))["rules/more.yaml"]
    return {**causes(many), "rules/astray.yaml": astray}


def twice(many: int) -> Files:
    return {"kb/more.yaml": "causes:\n" + lines(many, CAUSE.replace("-%", ""))}


def defined_twice(many: int) -> Files:
    return {"kb/a.yaml": "causes:\n" + lines(many, CAUSE), "kb/b.yaml": "causes:\n" + lines(many, CAUSE)}


def control(many: int) -> Files:
    return {"kb/more.yaml": "causes: # " + "\x01" * many, "kb/tabs.yaml": "causes: # " + "a\t" * many}


def control_in_lines(many: int) -> Files:
    return {"kb/more.yaml": "#\x01\n" * many, "kb/tabs.yaml": "#\t\n" * many}


def names(many: int) -> Files:
    return {
        "rules/more.yaml": "adds-to: faint-colour\nstatus: settled\ndate: 2026-11-24\nrules: []\nsaid:\n"
        + lines(many, "  - pale %\n")
    }


def ways(many: int) -> Files:
    return {"kb/ways/defects/faint-colour.txt": lines(many, "like weak tea %\n")}


def ways_of_nothing(many: int) -> Files:
    return {f"kb/ways/causes/dwell-shrt-{n}.txt": "no time\n" for n in range(many)}


def ways_of_two(many: int) -> Files:
    return {f"kb/ways/{name}.txt": lines(many, "like weak tea %\n") for name in ("defects/faint-colour", "idle")}


def long_text(many: int) -> Files:
    return {"kb/more.yaml": "causes:\n" + lines(1, CAUSE.replace("'-'", "'" + "dye " * many + "'"))}


def conditions(many: int) -> Files:
    values = ", ".join(f"{n}.5" for n in range(many))
    rule = RULE % ("dwell-short", f"[{values}]")
    return added(rule + rule.replace(".5", ".6"))


def cases(many: int) -> Files:
    known = causes(many)
    more = added(RULE % ("dwell-short", "7"), lines(many, CASE))["rules/more.yaml"]
    return {**known, "rules/cases.yaml": more, "kb/retired.yaml": "retire: {fixes: [set-heat-by-probe]}\n"}


def nested(many: int) -> Files:
    return {"kb/more.yaml": "causes: " + "[" * many, "kb/maps.yaml": "{a: " * many, "kb/keys.yaml": "? " * many}


def anchors(many: int) -> Files:
    return {"kb/more.yaml": "causes:\n" + lines(many, "  a-%: &a% b\n")}


def mixed(many: int) -> Files:
    entries = ", ".join(f"{n}, a{n}" for n in range(many))
    return added(RULE % ("dwell-short", f"[{entries}]"))


def underscores(many: int) -> Files:
    return {"kb/more.yaml": "causes:\n" + lines(1, CAUSE.replace("turns-up: .1", "turns-up: 1" + "_" * many + "x"))}


def learned(many: int) -> Files:
    kb = "learned:\n  basis: this shop's cases\n  brings:\n    faint-colour:\n" + lines(many, "      cause-%: .4\n")
    return {**causes(many), "kb/learned.yaml": kb, "kb/wrong.yaml": kb.replace("cause-", "case-")}


def learned_apart(many: int) -> Files:
    kb = "learned:\n  basis: this shop's cases\n  brings:\n    faint-colour:\n      dwell-short:\n"
    return {**apart(many), "kb/learned.yaml": kb + lines(many, "        - {if: {item.polyester: %}, brings: .5}\n")}


def retired(many: int) -> Files:
    text = "retire:\n  causes:\n" + lines(many, "    - case-%\n") + "  rules:\n"
    return {**causes(many), "kb/retired.yaml": text + lines(many, "    - {defect: faint-colour, cause: case-%}\n")}


def in_many_files(many: int) -> Files:
    files = {f"rules/{n}.yaml": added(RULE % ("dwell-short", n))["rules/more.yaml"] for n in range(many)}
    more = {f"kb/{n}.yaml": "adds-to: {fixes: {press-longer: {platen-runs-cool: .1}}}\n" for n in range(many)}
    return files | more


def added_to_nothing(many: int) -> Files:
    entry = "adds-to:\n  fixes:\n" + lines(many, "    press-long-%: {dwell-short: .5}\n")
    rules = {
        f"rules/{n}.yaml": added(RULE % ("dwell-short", n))["rules/more.yaml"].replace("faint", f"faint-{n}")
        for n in range(many // 10)
    }
    return {"kb/more.yaml": entry + lines(1, "    press-longer:\n") + lines(many, "      case-%: .5\n"), **rules}


def layers(many: int) -> Files:
    item = (
        "  item-%: {title: A, family: cloth, facts: {item.family: cloth}, said: [a], blank-price: 1, test-minutes: 1, "
        "basis: common practice, body: {layers: [{material: stuff-%}]}}\n"
    )
    material = "  made-%: {title: A, conductivity: %, density: %, heat-capacity: %}\n".replace(
        ": %", ": {value: 100, basis: common practice}"
    )
    return {"kb/more.yaml": "items:\n" + lines(many, item) + "materials:\n" + lines(many, material)}


def unknown_keys(many: int) -> Files:
    return {"kb/more.yaml": lines(many, "cause-%: 1\n")}


GROWING: dict[Callable[[int], Files], int] = {
    overlapping: 900, apart: 900, causes: 240, unknown: 180, twice: 2000, defined_twice: 600, control: 20000,
    control_in_lines: 20000, names: 5000, ways: 5000, ways_of_nothing: 400, ways_of_two: 5000, long_text: 100000,
    conditions: 4000, cases: 140, nested: 5000,
    anchors: 2000, mixed: 2000, underscores: 5000, learned: 240, learned_apart: 500, retired: 240, in_many_files: 60,
    added_to_nothing: 1000, layers: 300, unknown_keys: 4000,
}  # fmt: skip


def kind_of(name: str) -> Kind:
    return "ways" if name.endswith(".txt") else "kb" if name.startswith("kb") else "rule"


def taken(files: Files) -> tuple[float, Collector]:
    """The processor time that looking the files over takes, and what was found."""
    kinds: tuple[tuple[Path, Kind], ...] = ((KB, "kb"), (RULES, "rule"))
    shipped = Folder("shipped", tuple(SourceFile(p.name, p.name, kind, p.read_bytes()) for p, kind in kinds))
    made = [SourceFile(name, name, kind_of(name), text.encode()) for name, text in files.items()]
    found = Collector()
    began = time.process_time()
    compile_stock((shipped, Folder("this shop", tuple(made))), found)
    return time.process_time() - began, found


@pytest.mark.parametrize("growing", GROWING, ids=lambda growing: growing.__name__)
def test_four_times_as_much_takes_about_four_times_as_long(growing: Callable[[int], Files]) -> None:
    few = many = float("inf")
    for _ in range(4):  # a machine with other work is slow by fits: what grows too fast does so each time
        few = min(few, taken(growing(GROWING[growing]))[0])
        many = min(many, taken(growing(GROWING[growing] * TIMES))[0])
        if many < STEEPEST * max(few, 0.02):
            break
    assert many < STEEPEST * max(few, 0.02), f"{few:.3f} s, then {many:.3f} s"


# --- what is found has an end, and so has what is read ---


def test_a_rule_that_overlaps_many_is_told_of_once() -> None:
    _, found = taken(overlapping(3_000))
    assert len(found.problems) + found.more == 2_999 + 1  # one, beside the first, for each; and that there are so many
    assert len(found.problems) == MOST_KEPT


def test_a_hundred_problems_are_shown_and_the_rest_counted(tmp_path: Path) -> None:
    write(tmp_path, overlapping(300))
    code, out, err = play(["rules", "check", str(tmp_path)])
    assert code == exits.PROBLEMS
    *problems, more = out.splitlines()
    assert len(problems) == MOST_SHOWN
    counted = int(err.split()[0].replace(",", ""))
    assert more == f"and {counted - MOST_SHOWN:,} more; mend these first."
    assert counted >= 300


def test_an_error_shows_a_hundred_and_counts_the_rest() -> None:
    found = Collector()
    for number in range(MOST_KEPT + 50):
        found.add(Place("some.yaml", number + 1, 1), "wrong", "wrong")
    with pytest.raises(PressloreError) as raised:
        found.raise_if_any()
    assert str(raised.value).splitlines()[MOST_SHOWN:] == ["and 950 more; mend these first."]


def test_hints_that_take_work_are_sought_for_the_first_few_only() -> None:
    found, sought = Collector(), Counter[str]()

    def hint() -> str:
        sought["hints"] += 1
        return "did you mean this?"

    for number in range(500):
        found.add(Place("some.yaml", number + 1, 1), "wrong", "wrong", hint=hint)
    assert sought["hints"] == MOST_HINTS


def write(folder: Path, files: Files) -> None:
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")


def too_many_files() -> Files:
    return {f"kb/{number}.yaml": "# nothing" for number in range(limits.MOST_FILES + 1)}


def too_many_bytes() -> Files:
    return {f"kb/{number}.yaml": "# " + "x" * 1_500_000 for number in range(limits.MOST_BYTES // 1_500_000 + 1)}


def too_long_a_file() -> Files:
    return {"kb/more.yaml": "# " + "x" * limits.MOST_FILE_BYTES}


def too_many_values() -> Files:
    members = ", ".join(f"pale {n}" for n in range(400))
    text = "words:\n" + lines(50, f"  pale-%-n: {{note: a, members: [{members}]}}\n")
    return {
        f"kb/{number}.yaml": text.replace("-n:", f"-{number}:") for number in range(limits.MOST_VALUES // 20_000 + 1)
    }


def too_many_in_one_file() -> Files:
    return {"kb/more.yaml": "[" + "a, " * limits.MOST_VALUES + "a]"}


def too_many_entries() -> Files:
    return causes(limits.MOST_ENTRIES // 4 + 1)


def too_many_cases() -> Files:
    return added(RULE % ("dwell-short", "7"), lines(limits.MOST_CASES + 1, CASE))


def too_many_defects() -> Files:
    text = RULES.read_text(encoding="utf-8").split("cases:")[0]
    return {
        f"rules/pale-{n}.yaml": text.replace("defect: faint-colour", f"defect: pale-{n}")
        for n in range(limits.MOST_DEFECTS + 1)
    }


def too_much_said() -> Files:
    said = lines(limits.MOST_SAID // 12 + 1, "  - n% " + "pale " * 11 + "\n")
    return {"rules/more.yaml": f"adds-to: faint-colour\nstatus: settled\ndate: 2026-11-24\nrules: []\nsaid:\n{said}"}


def too_many_ways() -> Files:
    return {"kb/ways/defects/faint-colour.txt": lines(limits.MOST_WAYS // 4 + 1, "% a b c\n")}


def too_many_files_of_ways() -> Files:
    return {f"kb/ways/defects/{number}.txt": "# nothing" for number in range(limits.MOST_WAYS_FILES + 1)}


def too_much_to_look_through() -> Files:
    words = [[f"w{n}z{m}q*" for m in range(60)] for n in range(100)]
    cautions = "".join(
        f"  own-{n}: {{title: T, text: Take care., called-for-by: [{', '.join(each)}], basis: common practice}}\n"
        for n, each in enumerate(words)
    )
    steps = f"[{', '.join(['lay it down ' * 24] * 10)}]"
    fixes = "".join(
        f"  own-{n}: {{title: F{n}, steps: {steps}, minutes: 1, cures: {{platen-runs-cool: likely}}, "
        "basis: common practice}\n"
        for n in range(limits.MOST_LOOKING // (6_000 * 2_800) + 2)
    )
    return {"kb/cautions.yaml": f"cautions:\n{cautions}", "kb/fixes.yaml": f"fixes:\n{fixes}"}


PAST = {
    too_many_files: "too-many-files",
    too_many_bytes: "folder-size",
    too_long_a_file: "file-size",
    too_many_values: "too-many-values",
    too_many_in_one_file: "too-many-values",
    too_many_entries: "too-many-entries",
    too_many_cases: "too-many-entries",
    too_many_defects: "too-many-entries",
    too_much_said: "too-many-entries",
    too_many_ways: "too-many-entries",
    too_many_files_of_ways: "too-many-files",
    too_much_to_look_through: "too-much-to-look-through",
}


@pytest.mark.parametrize("past", PAST, ids=lambda past: past.__name__)
def test_past_a_limit_it_says_so_and_what_ships_serves(past: Callable[[], Files], tmp_path: Path) -> None:
    write(tmp_path / "shop", past())
    stock, found = (seen := look_over(TINY, tmp_path / "shop")).stock, seen.found
    assert stock is None or found
    problem = next(problem for problem in found if problem.code == PAST[past])
    assert re.search(r"[\d,]{3,}", str(problem))
    assert [each.code for each in found if each.code not in PAST.values()] == []
    left = load_shop(tmp_path / "shop", TINY, tmp_path / "cache")
    assert left.left_out
    assert left.knowledge.defects["faint-colour"] == load(TINY, cache_dir=None).defects["faint-colour"]


def test_files_that_hang_on_each_other_in_a_long_chain_are_not_gone_through_one_by_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each file needs the next one, and the last is broken: each round would leave out a single file."""
    chain = {
        f"kb/{n:03}.yaml": f"glossary: {{term-{n}: {{term: A, means: b, see: [term-{n + 1}], basis: common practice}}}}"
        for n in range(60)
    }
    write(tmp_path / "shop", chain)
    rounds = Counter[str]()
    compiled = compile_stock

    def counting(*args: Any) -> Any:
        rounds["compiled"] += 1
        return compiled(*args)

    monkeypatch.setattr(leaving_out, "compile_stock", counting)
    left = load_shop(tmp_path / "shop", TINY, tmp_path / "cache")
    assert len(left.left_out) == 60
    assert rounds["compiled"] <= leaving_out.MOST_ROUNDS + 2


def test_the_limits_are_said() -> None:
    text = (Path(__file__).parents[2] / "docs" / "command" / "4-own-shop.md").read_text(encoding="utf-8")
    told = text.split("\n## ")[0]
    for most in (limits.MOST_FILES, limits.MOST_ENTRIES, limits.MOST_VALUES, limits.MOST_DEFECTS, limits.MOST_CASES):
        assert f"{most:,}" in told
    for most in (limits.MOST_SAID, limits.MOST_WAYS, limits.MOST_WAYS_FILES):
        assert f"{most:,}" in told
    assert f"{limits.MOST_BYTES // 1_000_000} MB" in told
    assert f"{limits.MOST_FILE_BYTES // 1_000_000} MB" in told


def test_what_ships_is_well_within_the_limits() -> None:
    (folder,) = read_folders((shipped_folder(),), Collector(), all_ways=True)
    ways = [file for file in folder.files if file.kind == "ways"]
    assert len(folder.files) - len(ways) < limits.MOST_FILES / 2
    assert len(ways) < limits.MOST_WAYS_FILES / 2
    assert sum(len(file.data.split()) for file in ways) < limits.MOST_WAYS / 2
    assert sum(len(file.data) for file in folder.files) < limits.MOST_BYTES / 2
    knowledge = load(shipped_folder())
    assert len(knowledge.defects) < limits.MOST_DEFECTS / 2
    assert sum(len(defect.cases) for defect in knowledge.defects.values()) < limits.MOST_CASES / 2
    assert sum(len(getattr(knowledge, kind)) for kind in KINDS) < limits.MOST_ENTRIES / 2
