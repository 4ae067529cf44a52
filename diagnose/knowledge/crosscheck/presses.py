"""Checks of the presses in a shop.yaml."""

from collections.abc import Iterator

from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.layer import Layer


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
