"""Checks of items: do their settings and families make sense?"""

from collections.abc import Iterator

from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.layer import Layer


def reversed_windows(layer: Layer) -> Iterator[Found]:
    """A window goes from least to most."""
    for item in layer.items.values():
        windows = {"temperature": item.settings.temperature, "dwell": item.settings.dwell} if item.settings else {}
        for key, (least, most) in windows.items():
            if least > most:
                place = layer.value_within(item.place, "settings", key)
                yield Found(place, f"a window from {least:g} to {most:g}", "the smaller number first")


def families_that_differ(layer: Layer) -> Iterator[Found]:
    """An item's own family and the one among its facts are the same."""
    for item in layer.items.values():
        if (family := item.facts.get("item.family", item.family)) != item.family:
            place = layer.value_within(item.place, "facts", "item.family")
            yield Found(place, f'the family is "{item.family}" and the fact "{family}"', "one and the same")
