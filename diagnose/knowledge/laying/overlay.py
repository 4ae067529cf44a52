"""Lays a shop's folder over the knowledge below it: adds, overrides by id, retires by id."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import chain
from typing import Any

from diagnose.knowledge.layer import Addition, Extension, Layer, Scale
from diagnose.knowledge.laying.retirement import less, retire
from diagnose.knowledge.learned import astray, laid, numbers_before, written
from diagnose.knowledge.model import KINDS, CareNote, Caution, Chance, Check, Defect, Rule
from diagnose.knowledge.near import nearest
from diagnose.knowledge.numbers import Learned
from diagnose.problems import Collector

ROUNDING = 1e-9


def lay(scale: Scale, layers: Iterable[Layer], found: Collector) -> Layer:
    """One layer from several, the later over the earlier. The given layers are not changed."""
    whole = Layer(scale=scale)
    for layer in layers:
        retire(whole, layer.retired, found)
        _lay_over(whole, layer)
        _add_to_defects(whole, layer.additions, found)
        for extension in layer.extensions:
            _extend(whole, extension, found)
        for learned in layer.learned:
            _lay_learned(whole, learned, found)
    return whole


def _lay_learned(whole: Layer, learned: Learned, found: Collector) -> None:
    """Single numbers over what is there. One that belongs to nothing is a problem, unless its entry is unread."""
    if not any(whole.unread.values()):
        for place, what in astray(whole, learned):
            hint = "`presslore learn --apply` writes the numbers anew, without those that lead nowhere"
            found.add(place, "unknown-learned", f"no {what} to learn about", hint=hint)
    whole.unlearned.append(numbers_before(whole, learned))
    for kind, entries in laid(whole, learned).items():
        whole.keep(kind, entries)


def _lay_over(whole: Layer, layer: Layer) -> None:
    whole.shops.extend(layer.shops)
    whole.presses.extend(layer.presses)
    whole.nodes.update(layer.nodes)
    whole.broken.extend(layer.broken)
    for kind in KINDS:
        own = layer.of(kind)
        whole.of(kind).update(_read_as_before(whole.cautions, own) if kind == "cautions" else own)
        whole.unread[kind] |= layer.unread[kind]
    whole.keep("care", _less_claimed(whole.care, layer.care))


def _read_as_before(before: Mapping[str, Caution], own: Mapping[str, Caution]) -> dict[str, Caution]:
    """A folder's cautions: one that says in other words what was there before is still read at every press."""
    kept = {key: before[key].at_a_press if key in before else "" for key in own}
    return {key: replace(one, at_a_press=one.at_a_press or kept[key]) for key, one in own.items()}


def _less_claimed(notes: Mapping[str, CareNote], claiming: Mapping[str, CareNote]) -> dict[str, CareNote]:
    """The care notes, where an item named by a later folder's note leaves the earlier ones; none stays without."""
    claimed = {item for note in claiming.values() for item in note.items}
    left = less({key: note for key, note in notes.items() if key not in claiming}, {"items": claimed}) | dict(claiming)
    return {key: left[key] for key in notes if key in left}


def _add_to_defects(whole: Layer, additions: Iterable[Addition], found: Collector) -> None:
    known: dict[str, list[Addition]] = defaultdict(list)
    for addition in additions:
        if addition.defect in whole.defects:
            known[addition.defect].append(addition)
        elif addition.defect not in whole.unread["defects"]:
            hint = nearest(addition.defect, whole.defects)
            found.add(addition.place, "unknown-defect", f'no defect "{addition.defect}" to add to', hint=hint)
    for defect, added in known.items():
        whole.of("defects")[defect] = _extended(whole.defects[defect], added)


def _extended(defect: Defect, additions: Sequence[Addition]) -> Defect:
    """The defect with a shop's rules; one for the same cause and condition takes the place of any in earlier files."""
    files = [defect.rules, *(addition.rules for addition in additions)]
    last = {_subject(rule): number for number, rules in enumerate(files) for rule in rules}
    return replace(
        defect,
        said=tuple(dict.fromkeys((*defect.said, *_each(additions, "said")))),
        look_alikes=(*defect.look_alikes, *_each(additions, "look_alikes")),
        rules=tuple(rule for number, rules in enumerate(files) for rule in rules if last[_subject(rule)] == number),
        cases=(*defect.cases, *_each(additions, "cases")),
    )


def _each(additions: Sequence[Addition], part: str) -> Iterator[Any]:
    return chain.from_iterable(getattr(addition, part) for addition in additions)


def _subject(rule: Rule) -> tuple[str, frozenset[tuple[str, str]]]:
    return rule.cause, written(rule.condition)


def _extend(whole: Layer, extension: Extension, found: Collector) -> None:
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
    elif check := _shown_too(whole.checks[extension.id], extension, found):
        known[check.id] = check


def _shown_too(check: Check, extension: Extension, found: Collector) -> Check | None:
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
