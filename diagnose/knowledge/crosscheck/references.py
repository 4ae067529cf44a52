"""Ids that lead nowhere."""

from collections.abc import Iterable, Iterator
from functools import partial

from diagnose.knowledge.crosscheck.broken import ids_in_broken
from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.layer import Layer, called
from diagnose.knowledge.measures import Measure
from diagnose.knowledge.model import Check, Fix, Item, WorkedCase
from diagnose.knowledge.near import did_you_mean, nearest
from diagnose.knowledge.preparing import Statement
from diagnose.problems import Place

Step = str | int


def unknown_causes(layer: Layer) -> Iterator[Found]:
    """In rules, in what outcomes show, in what fixes cure, in worked cases, in what is known of presses, in what
    should be so before a press."""
    for defect in layer.defects.values():
        for rule in defect.rules:
            yield from _unknown(layer, "causes", rule.place, [(rule.cause, ("cause",))])
    for check in layer.checks.values():
        for outcome in check.outcomes:
            shows = [(cause, ("outcomes", outcome.id, "shows", cause)) for cause in outcome.shows]
            yield from _unknown(layer, "causes", check.place, shows)
    for fix in layer.fixes.values():
        yield from _unknown(layer, "causes", fix.place, [(cause, ("cures", cause)) for cause in fix.cures])
    for statement in layer.ready.values():
        not_so = [(cause, ("not-so", cause)) for cause in statement.not_so]
        yield from _unknown(layer, "causes", statement.place, not_so)
    for case in _cases(layer):
        for key, causes in (("first", case.first), ("never", case.never)):
            yield from _unknown(layer, "causes", case.place, _listed(key, causes))
    for measure in layer.readings.values():
        spoken = [(cause, ("speaks", cause)) for cause in measure.speaks]
        yield from _unknown(layer, "causes", measure.place, spoken)
    yield from _unknown_in_broken(layer, "causes")
    for press, place in layer.presses:
        known = [(each.cause, ("known", index, "cause")) for index, each in enumerate(press.known)]
        yield from _unknown(layer, "causes", place, known)


def unknown_defects(layer: Layer) -> Iterator[Found]:
    """In look-alikes, worked cases and care notes, and where sentences are heard of one."""
    for named, place in layer.heard_at:
        yield from _unknown(layer, "defects", place, [(named, (named,))])
    for defect in layer.defects.values():
        for index, other in enumerate(defect.look_alikes):
            yield from _unknown(layer, "defects", defect.place, [(other.defect, ("look-alikes", index, "defect"))])
    for case in _cases(layer):
        for key, defects in (("saw", case.saw), ("not-seen", case.not_seen)):
            yield from _unknown(layer, "defects", case.place, _listed(key, defects))
    for note in layer.care.values():
        yield from _unknown(layer, "defects", note.place, _listed("defects", note.defects))
    yield from _unknown_in_broken(layer, "defects")


def unknown_checks(layer: Layer) -> Iterator[Found]:
    """In the answers of worked cases, and among what measured figures settle."""
    for measure in layer.readings.values():
        yield from _unknown(layer, "checks", measure.place, _listed("settles", measure.settles))
    for case in _cases(layer):
        yield from _unknown(layer, "checks", case.place, [(check, ("answers", check)) for check in case.answers])
    yield from _unknown_in_broken(layer, "checks")


def unknown_outcomes(layer: Layer) -> Iterator[Found]:
    """In the answers of worked cases."""
    for case in _cases(layer):
        for check, outcome in case.answers.items():
            known = [each.id for each in layer.checks[check].outcomes] if check in layer.checks else [outcome]
            if outcome not in known:
                place = layer.value_within(case.place, "answers", check)
                wrong = f'"{check}" has no outcome "{outcome}"'
                yield Found(place, wrong, f"one of {', '.join(known)}", nearest(outcome, known))


def unknown_fixes(layer: Layer) -> Iterator[Found]:
    """Among what worked cases tried."""
    for case in _cases(layer):
        yield from _unknown(layer, "fixes", case.place, _listed("tried", case.tried))
    yield from _unknown_in_broken(layer, "fixes")


def unknown_items(layer: Layer) -> Iterator[Found]:
    """In worked cases and in care notes."""
    for case in _cases(layer):
        if case.item:
            yield from _unknown(layer, "items", case.place, [(case.item, ("item",))])
    for note in layer.care.values():
        yield from _unknown(layer, "items", note.place, _listed("items", note.items))
    yield from _unknown_in_broken(layer, "items")


def unknown_cautions(layer: Layer) -> Iterator[Found]:
    """In checks, fixes, items, statements and readings."""
    entries: list[Check | Fix | Item | Statement | Measure] = [
        *layer.checks.values(),
        *layer.fixes.values(),
        *layer.items.values(),
        *layer.ready.values(),
        *layer.readings.values(),
    ]
    for entry in entries:
        listed = _listed("cautions", entry.cautions)
        yield from _unknown(layer, "cautions", entry.place, listed)
    yield from _unknown_in_broken(layer, "cautions")


def unknown_terms(layer: Layer) -> Iterator[Found]:
    """In what words of the trade tell the reader to see."""
    for term in layer.glossary.values():
        yield from _unknown(layer, "glossary", term.place, _listed("see", term.see))
    yield from _unknown_in_broken(layer, "glossary")


def _unknown(layer: Layer, kind: str, place: Place, ids: Iterable[tuple[str, tuple[Step, ...]]]) -> Iterator[Found]:
    known, unread = getattr(layer, kind), layer.unread[kind]
    for each, path in ids:
        if each not in known and each not in unread:
            at = layer.key_within if path[-1] == each else layer.value_within
            yield _astray(layer, kind, each, at(place, *path))


def _unknown_in_broken(layer: Layer, kind: str) -> Iterator[Found]:
    known = layer.ids(kind)
    for each, place in ids_in_broken(layer, kind):
        if each not in known:
            yield _astray(layer, kind, each, place)


def _astray(layer: Layer, kind: str, named: str, place: Place) -> Found:
    hint = partial(_near, layer, kind, named)
    return Found(place, f'"{named}" is not among the {called(kind)}', hint=hint)


def _near(layer: Layer, kind: str, named: str) -> str:
    return did_you_mean(named, layer.ids(kind))


def _listed(key: str, ids: tuple[str, ...]) -> list[tuple[str, tuple[Step, ...]]]:
    return [(each, (key, index)) for index, each in enumerate(ids)]


def _cases(layer: Layer) -> Iterator[WorkedCase]:
    return (case for defect in layer.defects.values() for case in defect.cases)
