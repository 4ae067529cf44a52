"""Checks of items: do their settings and families make sense?"""

from collections.abc import Iterator

from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.layer import Layer
from diagnose.knowledge.model import Settings
from diagnose.knowledge.preparing import PARTS


def reversed_windows(layer: Layer) -> Iterator[Found]:
    """A window goes from least to most."""
    for item in layer.items.values():
        windows = _windows(item.settings) if item.settings else {}
        for key, (least, most) in windows.items():
            if least > most:
                place = layer.value_within(item.place, "settings", key)
                yield Found(place, f"a window from {least:g} to {most:g}", "the smaller number first")
    for line in layer.handling.values():
        if line.seconds and line.seconds[0] > line.seconds[1]:
            place = layer.value_within(line.place, "seconds")
            least, most = line.seconds
            yield Found(place, f"a window from {least:g} to {most:g}", "the smaller number first")


def _windows(settings: Settings) -> dict[str, tuple[float, float]]:
    windows = {"temperature": settings.temperature, "dwell": settings.dwell}
    return windows | ({"pre-press": settings.pre_press} if settings.pre_press else {})


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
