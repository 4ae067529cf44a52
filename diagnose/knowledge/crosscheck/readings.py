"""Checks of what measured figures say: is it a distribution, and does it tell anything apart?"""

from collections.abc import Iterator
from math import fsum

from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.layer import Layer

ROUNDING = 1e-6


def shares_off_one(layer: Layer) -> Iterator[Found]:
    """The humps of one curve hold all such jobs between them."""
    for measure in layer.readings.values():
        for cause, speaks in measure.speaks.items():
            for key, humps in (("there", speaks.there), ("otherwise", speaks.otherwise)):
                total = fsum(hump.share for hump in humps)
                if abs(total - 1.0) > ROUNDING:
                    place = layer.value_within(measure.place, "speaks", cause, key)
                    yield Found(place, f"shares that sum to {total:.3g}", "shares that sum to 1")


def readings_that_tell_nothing(layer: Layer) -> Iterator[Found]:
    """A figure that looks the same with and without a cause does not speak of it."""
    for measure in layer.readings.values():
        for cause, speaks in measure.speaks.items():
            if sorted(map(str, speaks.there)) == sorted(map(str, speaks.otherwise)):
                place = layer.key_within(measure.place, "speaks", cause)
                wrong = f'"{measure.id}" looks the same with "{cause}" and without it'
                yield Found(place, wrong, hint="leave it out, or say what differs")
