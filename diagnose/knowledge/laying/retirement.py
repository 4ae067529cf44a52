"""Takes out of use what a shop retires, and with it everything that hangs on it."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace
from typing import Any, TypeAlias

from diagnose.knowledge.forms import Part, leading
from diagnose.knowledge.layer import Layer, Retired
from diagnose.knowledge.model import KINDS, Check, WorkedCase
from diagnose.knowledge.near import nearest
from diagnose.problems import Collector

Gone: TypeAlias = Mapping[str, Collection[str]]  # ids by kind


def retire(layer: Layer, retired: Iterable[Retired], found: Collector) -> None:
    """Remove the retired entries from the layer, then the rules, chances and worked cases that name them.

    A check that is left without anything to show, a fix with nothing to cure, a care note without items or a
    measure that speaks of nothing goes too. An id or rule that is not there is a problem.
    """
    ruled = {(defect.id, rule.cause) for defect in layer.defects.values() for rule in defect.rules}
    before = {kind: set(layer.of(kind)) for kind in ("checks", "fixes")}
    gone = [entry for entry in retired if _is_there(layer, entry, ruled, found)]
    _retire_rules(layer, {(entry.defect, entry.id) for entry in gone if entry.kind == "rules"})
    for entry in gone:
        if entry.kind != "rules":
            layer.of(entry.kind).pop(entry.id, None)  # two files may retire the same
    if gone:
        _let_go(layer, {kind: {entry.id for entry in gone if entry.kind == kind} for kind in ("causes", "items")})
        _let_go(layer, {kind: ids - set(layer.of(kind)) for kind, ids in before.items()})


def less(entries: Mapping[str, Any], gone: Gone) -> dict[str, Any]:
    """Entries of a kind without what is gone; one of which nothing is left that it was there for is gone too."""
    left = {key: _less(entry, gone) for key, entry in entries.items()}
    return {key: entry for key, entry in left.items() if entry is not None}


def _let_go(layer: Layer, gone: Gone) -> None:
    for kind in KINDS:
        layer.keep(kind, less(layer.of(kind), gone))


def _less(whole: Any, gone: Gone) -> Any:
    """An entry, or a part of one, without what is gone; None where it falls with it. A rule falls with its cause, a
    worked case with anything that it names."""
    changed: dict[str, Any] = {}
    for part in leading(type(whole), _refers):
        held = getattr(whole, part.name)
        left = _left(part, held, gone)
        if part.refers and held and not left and not part.optional:
            return None
        if left != held:
            changed[part.name] = left
    if changed and (isinstance(whole, WorkedCase) or (isinstance(whole, Check) and _shows_nothing(**changed))):
        return None
    return replace(whole, **changed) if changed else whole


def _refers(part: Part) -> bool:
    return bool(part.refers)


def _left(part: Part, held: Any, gone: Gone) -> Any:
    out = gone.get(part.refers, ())
    if isinstance(held, Mapping):
        return {key: each for key, each in held.items() if key not in out}
    if isinstance(held, str):
        return "" if held in out else held
    if part.parts and isinstance(held, tuple):
        return tuple(each for each in (_less(each, gone) for each in held) if each is not None)
    return tuple(each for each in held if each not in out) if isinstance(held, tuple) else held


def _shows_nothing(outcomes: Iterable[Any] = (), **_: Any) -> bool:
    return not any(outcome.shows for outcome in outcomes)


def _is_there(layer: Layer, entry: Retired, ruled: set[tuple[str, str]], found: Collector) -> bool:
    if entry.kind == "rules":
        if (entry.defect, entry.id) in ruled:
            return True
        causes = [cause for defect, cause in ruled if defect == entry.defect] if not found.full else []
        subject, hint = f'rule from "{entry.id}" to "{entry.defect}"', nearest(entry.id, causes)
    else:
        if entry.id in (known := layer.of(entry.kind)) or entry.id in layer.unread[entry.kind]:
            return entry.id in known
        subject, hint = f'"{entry.id}" among the {entry.kind}', nearest(entry.id, known)
    found.add(entry.place, "unknown-retired", f"no {subject} to retire", hint=hint)
    return False


def _retire_rules(layer: Layer, gone: set[tuple[str, str]]) -> None:
    for name in {defect for defect, _ in gone}:
        defect = layer.defects[name]
        rules = tuple(rule for rule in defect.rules if (name, rule.cause) not in gone)
        layer.of("defects")[name] = replace(defect, rules=rules)
