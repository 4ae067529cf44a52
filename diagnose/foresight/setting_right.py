"""What to set by what was measured, so that a fix need not send anybody to read it again."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import exp

from diagnose.foresight.measures import TakenMeasure, beyond
from diagnose.foresight.pressing import usual_settings
from diagnose.foresight.readings import Reading
from diagnose.knowledge.model import Fix, Item, Knowledge, Settings
from diagnose.reasoning.evidence import Tried

OFF: Mapping[str, float] = {"platen-gap": 0.5, "set-gap": 0.5}  # K: a gap of less is right
LEAST_OFF = 0.02  # the same of every other measure, of its logarithm
MOST_OFFSET = 25.0  # K: a display that is further out is not set right at the display, but seen to


@dataclass(frozen=True, slots=True)
class SetRight:
    """A measure that was taken, and ``to``: what should be set in its place, in the unit of its own figure."""

    taken: TakenMeasure
    to: float


def set_right(
    fix: Fix, found: Sequence[Reading], tried: Sequence[Tried], item: Item | None, knowledge: Knowledge
) -> SetRight | None:
    """What a fix should set by the figures; None where it goes by none, where its measure was not taken or is as it
    should be, or where a fix tried since may have changed it."""
    reading = next((each for each in found if each.id == fix.by_figure), None)
    if reading is None or abs(reading.taken.value) < OFF.get(reading.id, LEAST_OFF):
        return None
    since = [knowledge.fixes[one.fix] for one in tried[reading.taken.period :] if one.fix in knowledge.fixes]
    if any(cause in reading.measure.speaks for one in since for cause in one.cures):
        return None
    to = TO[reading.id](reading.taken, item)
    return None if to is None else SetRight(reading.taken, to)


def _display(taken: TakenMeasure, item: Item | None) -> float | None:
    """The display's figure at which the platen stands where it should: at what is set, or in the middle of the item's
    window where that lies outside it."""
    if abs(taken.value) > MOST_OFFSET:
        return None
    heat = taken.figures["set"]
    if item and item.settings and beyond(heat, item.settings.temperature):
        heat = _middle(item.settings.temperature)
    return heat - taken.value


def _of(window: Callable[[Settings], tuple[float, float]]) -> Callable[[TakenMeasure, Item | None], float | None]:
    """The middle of a window of the item."""
    return lambda taken, item: _middle(window(item.settings)) if item and item.settings else None


def _middle(window: tuple[float, float]) -> float:
    return sum(window) / 2


def _clock(taken: TakenMeasure, item: Item | None) -> float | None:
    """The seconds to set so that the watch counts what is set now."""
    dwell = taken.figures["dwell"]
    return 2.0 * dwell - dwell * exp(taken.value)


def _sheets(taken: TakenMeasure, item: Item | None) -> float | None:
    return float(usual_settings(item).cover_sheets) if item else None


TO: Mapping[str, Callable[[TakenMeasure, Item | None], float | None]] = {
    "platen-gap": _display,
    "set-gap": _of(lambda settings: settings.temperature),
    "dwell-gap": _of(lambda settings: settings.dwell),
    "clock-gap": _clock,
    "layers-dose": _sheets,
}
