"""Takes out of use what a shop retires, and with it everything that hangs on it."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace

from diagnose.knowledge.layer import Layer, Retired
from diagnose.knowledge.measures import Measure
from diagnose.knowledge.model import CareNote, Check, Defect, Fix, WorkedCase
from diagnose.knowledge.near import did_you_mean
from diagnose.knowledge.preparing import Statement
from diagnose.problems import Collector


def retire(layer: Layer, retired: Iterable[Retired], found: Collector) -> None:
    """Remove the retired entries from the layer, then the rules, chances and worked cases that name them.

    A check that is left without anything to show, a fix with nothing to cure, a care note without items or a
    measure that speaks of nothing goes too. An id or rule that is not there is a problem.
    """
    gone = [entry for entry in retired if _is_there(layer, entry, found)]
    for entry in gone:
        if entry.kind == "rules":
            _retire_rule(layer, entry)
        else:
            getattr(layer, entry.kind).pop(entry.id, None)  # two files may retire the same
    if gone:
        causes = {entry.id for entry in gone if entry.kind == "causes"}
        layer.care = less_items(layer.care, {entry.id for entry in gone if entry.kind == "items"})
        checks = {key: _check(check, causes) for key, check in layer.checks.items()}
        fixes = {key: _fix(fix, causes) for key, fix in layer.fixes.items()}
        layer.checks = {key: check for key, check in checks.items() if check}
        layer.fixes = {key: fix for key, fix in fixes.items() if fix}
        ready = {key: _statement(statement, causes) for key, statement in layer.ready.items()}
        layer.ready = {key: statement for key, statement in ready.items() if statement}
        readings = {key: _measure(measure, causes, layer) for key, measure in layer.readings.items()}
        layer.readings = {key: measure for key, measure in readings.items() if measure}
        layer.defects = {key: _defect(defect, causes, layer) for key, defect in layer.defects.items()}


def less_items(notes: Mapping[str, CareNote], items: Collection[str]) -> dict[str, CareNote]:
    """The care notes without some items; a note that speaks of none is gone."""
    kept = {key: tuple(item for item in note.items if item not in items) for key, note in notes.items()}
    return {key: replace(note, items=kept[key]) for key, note in notes.items() if kept[key]}


def _is_there(layer: Layer, entry: Retired, found: Collector) -> bool:
    if entry.kind == "rules":
        defect = layer.defects.get(entry.defect)
        known = {rule.cause for rule in defect.rules} if defect else set()
        subject = f'rule from "{entry.id}" to "{entry.defect}"'
    else:
        known, subject = set(getattr(layer, entry.kind)), f'"{entry.id}" among the {entry.kind}'
    if entry.id in known:
        return True
    if entry.kind == "rules" or entry.id not in layer.unread[entry.kind]:
        found.add(entry.place, "unknown-retired", f"no {subject} to retire", hint=did_you_mean(entry.id, known))
    return False


def _retire_rule(layer: Layer, entry: Retired) -> None:
    if defect := layer.defects.get(entry.defect):
        rules = tuple(rule for rule in defect.rules if rule.cause != entry.id)
        layer.defects[entry.defect] = replace(defect, rules=rules)


def _check(check: Check, causes: set[str]) -> Check | None:
    if not any(causes & set(outcome.shows) for outcome in check.outcomes):
        return check
    outcomes = tuple(
        replace(outcome, shows={cause: chance for cause, chance in outcome.shows.items() if cause not in causes})
        for outcome in check.outcomes
    )
    return replace(check, outcomes=outcomes) if any(outcome.shows for outcome in outcomes) else None


def _fix(fix: Fix, causes: set[str]) -> Fix | None:
    cures = {cause: chance for cause, chance in fix.cures.items() if cause not in causes}
    return replace(fix, cures=cures) if cures else None


def _statement(statement: Statement, causes: set[str]) -> Statement | None:
    not_so = {cause: chance for cause, chance in statement.not_so.items() if cause not in causes}
    return replace(statement, not_so=not_so) if not_so else None


def _measure(measure: Measure, causes: set[str], layer: Layer) -> Measure | None:
    """The measure without what is gone; one that speaks of no cause any more is gone too."""
    speaks = {cause: said for cause, said in measure.speaks.items() if cause not in causes}
    settles = tuple(check for check in measure.settles if check in layer.ids("checks"))
    return replace(measure, speaks=speaks, settles=settles) if speaks else None


def _defect(defect: Defect, causes: set[str], layer: Layer) -> Defect:
    rules = tuple(rule for rule in defect.rules if rule.cause not in causes)
    cases = tuple(case for case in defect.cases if _still_stands(case, causes, layer))
    return replace(defect, rules=rules, cases=cases)


def _still_stands(case: WorkedCase, causes: set[str], layer: Layer) -> bool:
    if causes & {*case.first, *case.never}:
        return False
    checks, fixes, items = layer.ids("checks"), layer.ids("fixes"), layer.ids("items")
    return checks >= set(case.answers) and fixes >= set(case.tried) and (not case.item or case.item in items)
