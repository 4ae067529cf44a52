"""Adds a shop's chances to known fixes and checks, which else stay as they are."""

from collections.abc import Collection
from dataclasses import replace

from diagnose.knowledge.layer import Extension, Layer
from diagnose.knowledge.model import Chance, Check
from diagnose.knowledge.near import nearest
from diagnose.problems import Collector

ROUNDING = 1e-9


def extend(whole: Layer, extension: Extension, found: Collector) -> None:
    """Put the chances of one extension into the layer. What names something unknown, or would have a check show a
    cause more often than always, is a problem and left out."""
    known = whole.of(extension.kind)
    if extension.id not in known:
        if extension.id not in whole.unread[extension.kind]:
            _unknown(extension, found, extension.id, known, extension.kind)
        return
    causes, unread = whole.causes, whole.unread["causes"]
    strange = [cause for cause in extension.chances if cause not in causes and cause not in unread]
    for cause in strange:
        _unknown(extension, found, cause, causes, "causes")
    if strange:
        return
    if extension.kind == "fixes":
        fix = whole.fixes[extension.id]
        known[fix.id] = replace(fix, cures={**fix.cures, **extension.chances})
    elif check := _extended(whole.checks[extension.id], extension, found):
        known[check.id] = check


def _extended(check: Check, extension: Extension, found: Collector) -> Check | None:
    quiet, *loud = (outcome.id for outcome in check.outcomes)
    if extension.outcome == quiet:
        wrong, expected = f'the first outcome of "{check.id}" shows nothing', f"one of {', '.join(loud)}"
        found.add(extension.place, "loud-quiet-outcome", wrong, expected=expected)
        return None
    if extension.outcome not in loud:
        _unknown(extension, found, extension.outcome, loud, f'outcomes of "{check.id}"')
        return None
    outcomes = tuple(
        replace(outcome, shows={**outcome.shows, **extension.chances}) if outcome.id == extension.outcome else outcome
        for outcome in check.outcomes
    )
    extended = replace(check, outcomes=outcomes)
    for cause in extension.chances:
        total = sum(outcome.shows.get(cause, Chance(0.0)).value for outcome in outcomes)
        if total > 1 + ROUNDING:
            wrong = f'"{cause}" shows with a sum of {total:.3g} over the outcomes of "{check.id}"'
            found.add(extension.place, "chances-above-one", wrong, expected="at most 1")
            return None
    return extended


def _unknown(extension: Extension, found: Collector, named: str, known: Collection[str], kind: str) -> None:
    code = {"fixes": "unknown-fix", "checks": "unknown-check", "causes": "unknown-cause"}.get(kind, "unknown-outcome")
    found.add(extension.place, code, f'"{named}" is not among the {kind}', hint=nearest(named, known))
