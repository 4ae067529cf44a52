"""Takes out of use what a shop retires, and with it everything that hangs on it."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace

from diagnose.knowledge.layer import Layer, Retired
from diagnose.knowledge.measures import Measure
from diagnose.knowledge.model import CareNote, Check, Defect, Fix, WorkedCase
from diagnose.knowledge.near import nearest
from diagnose.knowledge.preparing import Statement
from diagnose.problems import Collector

Ids = Mapping[str, set[str]]  # by kind


def retire(layer: Layer, retired: Iterable[Retired], found: Collector) -> None:
    """Remove the retired entries from the layer, then the rules, chances and worked cases that name them.

    A check that is left without anything to show, a fix with nothing to cure, a care note without items or a
    measure that speaks of nothing goes too. An id or rule that is not there is a problem.
    """
    ruled = {(defect.id, rule.cause) for defect in layer.defects.values() for rule in defect.rules}
    gone = [entry for entry in retired if _is_there(layer, entry, ruled, found)]
    _retire_rules(layer, {(entry.defect, entry.id) for entry in gone if entry.kind == "rules"})
    for entry in gone:
        if entry.kind != "rules":
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
        left = {kind: layer.ids(kind) for kind in ("checks", "fixes", "items")}
        readings = {key: _measure(measure, causes, left) for key, measure in layer.readings.items()}
        layer.readings = {key: measure for key, measure in readings.items() if measure}
        layer.defects = {key: _defect(defect, causes, left) for key, defect in layer.defects.items()}


def less_items(notes: Mapping[str, CareNote], items: Collection[str]) -> dict[str, CareNote]:
    """The care notes without some items; a note that speaks of none is gone."""
    kept = {key: tuple(item for item in note.items if item not in items) for key, note in notes.items()}
    return {key: replace(note, items=kept[key]) for key, note in notes.items() if kept[key]}


def _is_there(layer: Layer, entry: Retired, ruled: set[tuple[str, str]], found: Collector) -> bool:
    if entry.kind == "rules":
        if (entry.defect, entry.id) in ruled:
            return True
        causes = [cause for defect, cause in ruled if defect == entry.defect] if not found.full else []
        subject, hint = f'rule from "{entry.id}" to "{entry.defect}"', nearest(entry.id, causes)
    else:
        if entry.id in (known := getattr(layer, entry.kind)) or entry.id in layer.unread[entry.kind]:
            return entry.id in known
        subject, hint = f'"{entry.id}" among the {entry.kind}', nearest(entry.id, known)
    found.add(entry.place, "unknown-retired", f"no {subject} to retire", hint=hint)
    return False


def _retire_rules(layer: Layer, gone: set[tuple[str, str]]) -> None:
    for name in {defect for defect, _ in gone}:
        defect = layer.defects[name]
        rules = tuple(rule for rule in defect.rules if (name, rule.cause) not in gone)
        layer.defects[name] = replace(defect, rules=rules)


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


def _measure(measure: Measure, causes: set[str], left: Ids) -> Measure | None:
    """The measure without what is gone; one that speaks of no cause any more is gone too."""
    speaks = {cause: said for cause, said in measure.speaks.items() if cause not in causes}
    settles = tuple(check for check in measure.settles if check in left["checks"])
    return replace(measure, speaks=speaks, settles=settles) if speaks else None


def _defect(defect: Defect, causes: set[str], left: Ids) -> Defect:
    rules = tuple(rule for rule in defect.rules if rule.cause not in causes)
    cases = tuple(case for case in defect.cases if _still_stands(case, causes, left))
    return replace(defect, rules=rules, cases=cases)


def _still_stands(case: WorkedCase, causes: set[str], left: Ids) -> bool:
    if causes & {*case.first, *case.never}:
        return False
    known = left["checks"] >= set(case.answers) and left["fixes"] >= set(case.tried)
    return known and (not case.item or case.item in left["items"])
