"""What a piece was set to when it came out well, as far as a dialogue that ended well tells."""

from collections.abc import Mapping

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Cured
from diagnose.foresight.last_good import ALIKE, ANOTHER, APART, CHECK, GOODS, LESS, MORE
from diagnose.foresight.setting_right import set_right
from diagnose.knowledge.model import Fix

OWN: Mapping[str, str] = {  # the figure that is set anew where a fix goes by a measure
    "platen-gap": "set",
    "set-gap": "set",
    "dwell-gap": "dwell",
    "clock-gap": "dwell",
    "layers-dose": "sheets",
}
WINDOWED: Mapping[str, str] = {"set-gap": "set", "dwell-gap": "dwell"}


def came_out(end: Consultation) -> tuple[dict[str, float], dict[str, str]]:
    """Figures by name and goods in words, as the good piece had them. A figure or goods that a fix may have changed
    since they were told are left out, unless the fix says what it set; so is a figure outside the item's window."""
    fixes = _fixes(end)
    outside = _outside(end)
    changed = {cause for fix, _ in fixes for cause in fix.cures}
    figures = {
        name: value
        for name, (value, told) in end.session.figures_now.items()
        if name in APART and name not in outside
        if not _meant(name) & {cause for fix, at in fixes if at >= told for cause in fix.cures}
    }
    used = {
        kind: words
        for kind, (words, _) in end.session.used_now.items()
        if kind in GOODS and words != ANOTHER and not _new(kind, end) & changed
    }
    return {**figures, **_set_right(end)}, used


def _fixes(end: Consultation) -> list[tuple[Fix, int]]:
    """The fixes that were tried, and the one that cured, each with the number of those before it."""
    over = end.session.over
    names = [one.fix for one in end.evidence.tried] + ([over.fix] if isinstance(over, Cured) else [])
    return [(end.knowledge.fixes[name], at) for at, name in enumerate(names) if name in end.knowledge.fixes]


def _meant(name: str) -> set[str]:
    return {*LESS[name], *MORE[name], *ALIKE.get(name, ())}


def _outside(end: Consultation) -> set[str]:
    """The figures that lie outside the window of the item."""
    return {WINDOWED[each.id] for each in end.readings if each.id in WINDOWED and each.taken.value}


def _new(kind: str, end: Consultation) -> set[str]:
    """The causes that speak of such goods being new."""
    check = end.knowledge.checks.get(CHECK)
    return {cause for each in (check.outcomes if check else ()) if each.id == GOODS[kind] for cause in each.shows}


def _set_right(end: Consultation) -> dict[str, float]:
    """The figure that the fix which cured has set."""
    over = end.session.over
    fix = end.knowledge.fixes.get(over.fix) if isinstance(over, Cured) else None
    if fix is None or fix.by_figure not in OWN:
        return {}
    right = set_right(fix, end.readings, end.evidence.tried, end.item, end.knowledge)
    return {OWN[fix.by_figure]: round(right.to, 1)} if right else {}
