"""Checks of items and presses: do their settings, families and bodies make sense, and is each named once?"""

from collections.abc import Iterator

from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.crosscheck.within import spots
from diagnose.knowledge.forms import Part
from diagnose.knowledge.layer import Layer
from diagnose.knowledge.model import SHIPPED
from diagnose.knowledge.preparing import PARTS

THICKNESS = "item.thickness"


def reversed_windows(layer: Layer) -> Iterator[Found]:
    """A window goes from least to most."""
    for spot in spots(layer, _is_window):
        if spot.held and spot.held[0] > spot.held[1]:
            least, most = spot.held
            place = layer.value_within(spot.place, *spot.path)
            yield Found(place, f"a window from {least:g} to {most:g}", "the smaller number first")


def _is_window(part: Part) -> bool:
    return bool(part.type == tuple[float, float])


def items_without_handling(layer: Layer) -> Iterator[Found]:
    """Where there are lines on handling at all, each item that is pressed gets one for every part of the work."""
    for item in layer.items.values() if layer.handling else ():
        if item.settings is None:
            continue
        told = {line.part for line in layer.handling.values() if line.condition.may_hold(item.facts)}
        missing = [part for part in PARTS if part not in told and part not in item.settings.handling]
        if missing:
            wrong = f'nothing says how "{item.id}" is handled: {", ".join(missing)}'
            yield Found(item.place, wrong, hint="write a line under `handling` whose `if` fits it")


def families_that_differ(layer: Layer) -> Iterator[Found]:
    """An item's own family and the one among its facts are the same."""
    for item in layer.items.values():
        if (family := item.facts.get("item.family", item.family)) != item.family:
            place = layer.value_within(item.place, "facts", "item.family")
            yield Found(place, f'the family is "{item.family}" and the fact "{family}"', "one and the same")


def nothing_to_be_instead(layer: Layer) -> Iterator[Found]:
    """What a fact may be instead stands beside what it usually is, and is something else."""
    for item in layer.items.values():
        for fact, instead in item.may_be.items():
            where = layer.key_within(item.place, "may-be", fact)
            values = [each.value for each in instead]
            if fact not in item.facts:
                yield Found(where, f'"{fact}" has no usual value', f"one under facts of {item.id}")
            elif len({item.facts[fact], *values}) <= len(values):
                yield Found(where, f"a value of {fact} stands there twice", "each value once, and not the usual one")


def usual_facts_that_are_none(layer: Layer) -> Iterator[Found]:
    """What is usual is at least as frequent as each of the others."""
    for item in layer.items.values():
        for fact, instead in item.may_be.items():
            chances = [each.turns_up.value for each in instead]
            if (usual := 1.0 - sum(chances)) < max(chances, default=0.0):
                where = layer.key_within(item.place, "may-be", fact)
                wrong = f"that leaves {max(0.0, usual):.0%} of the jobs to what is usual for {fact}"
                yield Found(where, wrong, "no other value as often as the usual one")


def items_without_a_body(layer: Layer) -> Iterator[Found]:
    """Where families are told of, every item that is pressed is of one, or says how it is built up itself. A shop's own
    items need not: what cannot be reckoned says so when it is asked for."""
    for item in layer.items.values() if layer.bodies else ():
        if item.settings is None or item.origin != SHIPPED:
            continue
        family = layer.bodies.get(item.family)
        layers = (item.body.layers if item.body else ()) or (family.plan.layers if family else ())
        if not layers:
            wrong = f'nothing says what items of the family "{item.family}" are made of'
            yield Found(layer.key_within(item.place, "family"), wrong, "body: with layers, or the family among bodies")
        elif any(each.thickness is None for each in layers) and THICKNESS not in item.facts:
            wrong = "nothing says how thick the item is"
            yield Found(layer.key_within(item.place, "facts"), wrong, f"a fact {THICKNESS}, in millimetres")


def presses_named_twice(layer: Layer) -> Iterator[Found]:
    """Two presses with one id could not be told apart."""
    seen: set[str] = set()
    for press, place in layer.presses:
        if press.id in seen:
            yield Found(layer.value_within(place, "id"), f'a second press is called "{press.id}"', "an id of its own")
        seen.add(press.id)


def causes_known_twice(layer: Layer) -> Iterator[Found]:
    """Of two chances for one cause on one press it would not be clear which counts."""
    for press, place in layer.presses:
        for index, each in enumerate(press.known):
            if any(other.cause == each.cause for other in press.known[:index]):
                where = layer.value_within(place, "known", index, "cause")
                yield Found(where, f'"{each.cause}" is known twice of the press "{press.id}"', hint="join the two")
