"""What measured figures say, in sentences: in the shop's unit first, with the other beside."""

from collections.abc import Callable, Mapping
from math import exp
from typing import TypeAlias

from diagnose.foresight.degrees import degrees, step
from diagnose.foresight.likelihood import MOST
from diagnose.foresight.measures import TakenMeasure
from diagnose.foresight.readings import Reading
from diagnose.press.pressing import Result

Words: TypeAlias = Callable[[TakenMeasure, str], str]
NEAR = 1.25  # a ratio up to this says little
LEVEL = 0.5  # K; a smaller gap is none


def told(reading: Reading, unit: str) -> str:
    """The figure and what it comes to: ``The probe read 188 °C (371 °F) where 196 °C (385 °F) was set: 8 °C (14 °F)
    short``. ``unit`` is ``C`` or ``F``."""
    return WORDS[reading.id](reading.taken, unit)


def reckoned(result: Result, unit: str) -> str:
    """What the press gave by all the figures together."""
    least, most = (f"{share * 100:.0f}" for share in result.share_band)
    return (
        f"Reckoned from the figures: the dye came to {degrees(result.peak, unit)} and got {result.over * 100:.0f} % of "
        f"the dose it wants, for about {result.share * 100:.0f} % of full colour ({least} to {most} %)"
    )


def weighed(reading: Reading, cause: str) -> str:
    """How such a figure speaks of one cause: ``such a gap shows 9 times as often with this cause as without it``."""
    ratio = reading.ratios[cause]
    what = "gap" if reading.id.endswith("-gap") else "figure"
    if 1 / NEAR < ratio < NEAR:
        return f"such a {what} is about as common without this cause"
    if ratio >= 1:
        return f"such a {what} shows {times(ratio)} as often with this cause as without it"
    return f"such a {what} shows {times(1 / ratio)} as often without this cause"


def times(ratio: float) -> str:
    """``9 times``, ``1.6 times``, ``200 times or more``."""
    if ratio >= MOST * (1 - 1e-9):
        return f"{MOST:.0f} times or more"
    return f"{ratio:.0f} times" if ratio >= 3 else f"{ratio:.1f} times"


def _short(kelvin: float, unit: str) -> str:
    if abs(kelvin) < LEVEL:
        return "just the same"
    return f"{step(kelvin, unit)} {'short' if kelvin < 0 else 'over'}"


def _platen_gap(taken: TakenMeasure, unit: str) -> str:
    probe, shown = degrees(taken.figures["probe"], unit), degrees(taken.figures["set"], unit)
    return f"The probe read {probe} where {shown} was set: {_short(taken.value, unit)}"


def _set_gap(taken: TakenMeasure, unit: str) -> str:
    shown = degrees(taken.figures["set"], unit)
    if abs(taken.value) < LEVEL:
        return f"Set to {shown}: within the window of this item"
    side = "under" if taken.value < 0 else "over"
    return f"Set to {shown}: {step(taken.value, unit)} {side} the window of this item"


def _dwell_gap(taken: TakenMeasure, unit: str) -> str:
    seconds = taken.figures["dwell"]
    if taken.value == 0.0:
        return f"Set to {seconds:.0f} s: within the window of this item"
    nearest = seconds / exp(taken.value)
    side = f"{abs(seconds - nearest):.0f} s {'under' if taken.value < 0 else 'over'}"
    return f"Set to {seconds:.0f} s: {side} the window of this item"


def _clock_gap(taken: TakenMeasure, unit: str) -> str:
    return f"The watch counted {taken.figures['watch']:.0f} s where {taken.figures['dwell']:.0f} s was set"


def _sheets(taken: TakenMeasure) -> str:
    count = round(taken.figures["sheets"])
    return f"{count or 'No'} sheet{'' if count == 1 else 's'} over the transfer"


def _layers_dose(taken: TakenMeasure, unit: str) -> str:
    return f"{_sheets(taken)}: about {exp(taken.value) * 100:.0f} % of the usual dose"


def _thickness_dose(taken: TakenMeasure, unit: str) -> str:
    millimetres = taken.figures["thickness"] * 1000
    return f"{millimetres:.1f} mm thick: about {exp(taken.value) * 100:.0f} % of the dose of the usual one"


def _stack_gap(taken: TakenMeasure, unit: str) -> str:
    reckoned = taken.figures["strip"] - taken.value
    strip = degrees(taken.figures["strip"], unit)
    return f"The strip read {strip} where about {degrees(reckoned, unit)} is reckoned: {_short(taken.value, unit)}"


def _than(what: str, more: str, less: str, axis: str, than: str) -> Words:
    def words(taken: TakenMeasure, unit: str) -> str:
        side = more if taken.value >= 0 else less
        return f"{what} is {abs(taken.value):.1f} {axis} {side} than {than}"

    return words


WORDS: Mapping[str, Words] = {
    "platen-gap": _platen_gap,
    "set-gap": _set_gap,
    "dwell-gap": _dwell_gap,
    "clock-gap": _clock_gap,
    "layers": lambda taken, unit: _sheets(taken),
    "layers-dose": _layers_dose,
    "thickness-dose": _thickness_dose,
    "stack-gap": _stack_gap,
    "lightness": _than("The print", "lighter", "darker", "L*", "the proof"),
    "chroma": _than("The print", "livelier", "duller", "C*", "the proof"),
    "hue": lambda taken, unit: f"The hue is {taken.value:.1f} H* off the proof's",
    "yellowness": _than("The bare ground", "yellower", "bluer", "b*", "an unpressed piece's"),
}


AXES: Mapping[str, str] = {"lightness": "L*", "chroma": "C*", "hue": "H*", "yellowness": "b*"}


def amount(measure: str, value: float, unit: str) -> str:
    """A value of a measure by itself: ``8 °C (14 °F) short``, ``64 % of what is meant``, ``6.0 L*``."""
    if measure in AXES:
        return f"{value:.1f} {AXES[measure]}"
    if measure in ("platen-gap", "set-gap", "stack-gap"):
        return _short(value, unit)
    if measure == "layers":
        return f"{value:.0f} sheet{'' if round(value) == 1 else 's'}"
    return f"{exp(value) * 100:.0f} % of what is meant"
