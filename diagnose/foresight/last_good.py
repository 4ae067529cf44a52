"""What came out well before, held against what is so now: what differs speaks for causes of its kind, what is alike
against them.

A figure speaks of the causes of being set, timed or laid otherwise. Goods speak of the causes that the check
``what-changed`` knows for new ones of their kind, as surely as it has them. Either way no difference counts for more
than ``DIFFERS`` to one, and nothing alike for more than one to ``DIFFERS``: one good piece is one good piece, and much
else may have changed unseen. That bound is judgement, not measured.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import inf, log

from diagnose.foresight.likelihood import DECIMALS
from diagnose.knowledge.model import Knowledge

DIFFERS = 3.0
CHECK = "what-changed"
ANOTHER = "another"  # goods of which it is known only that they are not the same
GOODS: Mapping[str, str] = {  # what is used up, each with the outcome of the check that says it is new
    "paper": "new-paper",
    "ink": "new-ink",
    "blanks": "new-blanks",
    "sundries": "new-sundries",
}
LESS: Mapping[str, tuple[str, ...]] = {  # what a figure below the last good one makes likelier
    "set": ("set-temp-low",),
    "dwell": ("dwell-short",),
    "sheets": ("no-cover-sheet",),
}
MORE: Mapping[str, tuple[str, ...]] = {
    "set": ("set-temp-high",),
    "dwell": ("dwell-long",),
    "sheets": ("stack-too-thick",),
}
ALIKE: Mapping[str, tuple[str, ...]] = {"set": ("degrees-mixed-up",)}  # what only a figure alike speaks of
APART: Mapping[str, float] = {"set": 2.0, "dwell": 0.08, "sheets": 0.5}  # K, natural logarithm, sheets: less is alike


@dataclass(frozen=True, slots=True)
class Then:
    """One thing as it was at the last good piece and as it is now: a figure, or goods in words. ``way``: ``less``,
    ``more``, ``other`` or ``alike``; ``ratios``: by cause, how many times as often it is so where the cause is there;
    ``period``: the number of fixes tried before it was told."""

    kind: str
    was: float | str
    now: float | str
    way: str
    ratios: Mapping[str, float]
    period: int = 0


def figures_then(
    good: Mapping[str, float], now: Mapping[str, tuple[float, int]], knowledge: Knowledge
) -> Iterator[Then]:
    """Each figure of the last good piece that was told of this one too. ``now``: with the period it was told in."""
    for kind, apart in APART.items():
        if kind in good and kind in now:
            then, (value, period) = good[kind], now[kind]
            off = _off(kind, then, value)
            way = "alike" if abs(off) < apart else "less" if off < 0.0 else "more"
            ratios = {cause: ratio for cause, ratio in _of_figure(kind, way).items() if cause in knowledge.causes}
            yield Then(kind, then, value, way, ratios, period)


def _off(kind: str, then: float, now: float) -> float:
    """By how much a figure lies over the last good one; times by the logarithm of their ratio."""
    if kind != "dwell":
        return now - then
    return log(now / then) if now > 0.0 and then > 0.0 else inf


def _of_figure(kind: str, way: str) -> dict[str, float]:
    if way == "alike":
        causes = (*LESS[kind], *MORE[kind], *ALIKE.get(kind, ()))
        return dict.fromkeys(causes, round(1.0 / DIFFERS, DECIMALS))
    return dict.fromkeys((LESS if way == "less" else MORE)[kind], DIFFERS)


def goods_then(good: Mapping[str, str], now: Mapping[str, tuple[str, int]], knowledge: Knowledge) -> Iterator[Then]:
    """The goods of the last good piece that were told of this one too, by their words."""
    for kind, outcome in GOODS.items():
        if kind in good and kind in now:
            then, (words, period) = good[kind], now[kind]
            way = "alike" if _plain(then) == _plain(words) else "other"
            yield Then(kind, then, words, way, _of_goods(outcome, way, knowledge), period)


def _plain(words: str) -> str:
    return " ".join(words.lower().split())


def _of_goods(outcome: str, way: str, knowledge: Knowledge) -> dict[str, float]:
    """The ratios of the check's outcome that such goods are new, or of its not being so, within the bound."""
    found = knowledge.checks.get(CHECK)
    new = next((each for each in found.outcomes if each.id == outcome), None) if found else None
    if new is None:
        return {}
    leak = new.otherwise.value
    shown = {cause: chance.value for cause, chance in new.shows.items() if cause in knowledge.causes}
    if way == "alike":
        return {cause: _bounded(1.0 - chance) for cause, chance in shown.items()}
    return {
        cause: _bounded((chance + (1.0 - chance) * leak) / leak if leak else inf) for cause, chance in shown.items()
    }


def _bounded(ratio: float) -> float:
    return round(max(1.0 / DIFFERS, min(DIFFERS, ratio)), DECIMALS)
