"""What measured figures say, in sentences: in the shop's unit first, with the other beside."""

from collections.abc import Callable, Mapping
from math import exp
from typing import TypeAlias

from diagnose.foresight.likelihood import MOST
from diagnose.foresight.measures import TakenMeasure
from diagnose.foresight.readings import IdleFigure, Reading, dosed
from diagnose.foresight.setting_right import SetRight
from diagnose.knowledge.model import Settings
from diagnose.press.pressing import Result
from diagnose.speech.amounts import degrees, degrees_between, step
from diagnose.speech.saying import say

Words: TypeAlias = Callable[[TakenMeasure, str], str]
NEAR = 1.25  # a ratio up to this says little
LEVEL = 0.5  # K; a smaller gap is none


def told(reading: Reading, unit: str) -> str:
    """The figure and what it comes to: ``The probe read 188 °C (371 °F) where 196 °C (385 °F) was set: 8 °C (14 °F)
    short``. ``unit`` is ``C`` or ``F``."""
    return WORDS[reading.id](reading.taken, unit)


def reckoned(result: Result, unit: str) -> str:
    """What the press gave by all the figures together."""
    least, most = result.share_band
    return say(
        "reckoned",
        peak=degrees(result.peak, unit),
        over=result.over * 100,
        share=result.share * 100,
        least=least * 100,
        most=most * 100,
    )


def put(right: SetRight, unit: str, settings: Settings | None) -> str:
    """What to set by a figure: ``It stands 12 °C (22 °F) low: set 212 °C (414 °F), and wait ten minutes.``"""
    taken, to = right.taken, right.to
    figures, value = taken.figures, taken.value
    match taken.measure:
        case "platen-gap":
            return say("put-platen", side=_side(value), step=step(value, unit), to=degrees(to, unit))
        case "clock-gap":
            dwell, off = figures["dwell"], abs(figures["dwell"] - figures["watch"])
            return say("put-clock", side=_side(value, 0.0), off=off, dwell=dwell, to=to)
        case "layers-dose":
            return say("put-layers", sheets=round(figures["sheets"]), usual=round(to))
    if settings is None:
        raise ValueError("the item has no window")
    window = window_of(taken.measure, settings, unit)
    if taken.measure == "dwell-gap":
        return say("put-dwell", dwell=figures["dwell"], window=window, to=to)
    return say("put-set", set=degrees(figures["set"], unit), window=window, to=degrees(to, unit))


def window_of(measure: str, settings: Settings, unit: str) -> str:
    """The window of an item that a figure is held against: ``193–200 °C (379–392 °F)``, ``50–60 s``."""
    if measure == "set-gap":
        return degrees_between(settings.temperature, unit)
    least, most = settings.dwell
    return say("exactly", least=least, unit="s") if least == most else say("between", least=least, most=most, unit="s")


def weighed(reading: Reading, cause: str) -> str:
    """How such a figure speaks of one cause: ``such a gap shows 9 times as often with this cause as without it``. Where
    others add to it or make up for it, that is said."""
    ratio = reading.ratios[cause]
    apart = 1 / NEAR < reading.counts < NEAR or not dosed(reading.id, cause)
    what = ("gap" if reading.id.endswith("-gap") else "figure") if apart else "all"
    if 1 / NEAR < ratio < NEAR:
        return say("speaks-neither-way", what=what)
    if ratio >= 1:
        return say("speaks-for", what=what, times=times(ratio))
    return say("speaks-against", what=what, times=times(1 / ratio))


def times(ratio: float) -> str:
    """``9 times``, ``1.6 times``, ``200 times or more``."""
    if ratio >= MOST * (1 - 1e-9):
        return say("times-or-more", times=MOST)
    return say("times", times=ratio) if ratio >= 3 else say("times-few", times=ratio)


def idle_words(figure: IdleFigure) -> str:
    """Why a figure that was told says nothing: what is missing beside it."""
    if figure.missing:
        return say("idle-without", figure=figure.title, others=" and ".join(figure.missing))
    if figure.why == "item":
        return say("idle-without-item", figure=figure.title)
    if figure.why == "other":
        return say("idle-without-other", figure=figure.title)
    return say("idle-of-item", figure=figure.title)


def _side(value: float, level: float = LEVEL) -> str:
    return "level" if abs(value) < level else "under" if value < 0 else "over"


def _gap(kelvin: float, unit: str) -> str:
    return say("gap", side=_side(kelvin), step=step(kelvin, unit))


def _platen_gap(taken: TakenMeasure, unit: str) -> str:
    probe, shown = (degrees(taken.figures[name], unit) for name in ("probe", "set"))
    return say("platen-gap", probe=probe, set=shown, gap=_gap(taken.value, unit))


def _set_gap(taken: TakenMeasure, unit: str) -> str:
    shown = degrees(taken.figures["set"], unit)
    return say("set-gap", side=_side(taken.value), set=shown, step=step(taken.value, unit))


def _dwell_gap(taken: TakenMeasure, unit: str) -> str:
    dwell = taken.figures["dwell"]
    off = abs(dwell - dwell / exp(taken.value))
    return say("dwell-gap", side=_side(taken.value, 5e-324), dwell=dwell, off=off)


def _clock_gap(taken: TakenMeasure, unit: str) -> str:
    return say("clock-gap", watch=taken.figures["watch"], dwell=taken.figures["dwell"])


def _layers_dose(taken: TakenMeasure, unit: str) -> str:
    return say("layers-dose", sheets=round(taken.figures["sheets"]), share=exp(taken.value) * 100)


def _thickness_dose(taken: TakenMeasure, unit: str) -> str:
    return say("thickness-dose", millimetres=taken.figures["thickness"] * 1000, share=exp(taken.value) * 100)


def _stack_gap(taken: TakenMeasure, unit: str) -> str:
    strip = taken.figures["strip"]
    reckoned = degrees(strip - taken.value, unit)
    return say("stack-gap", strip=degrees(strip, unit), reckoned=reckoned, gap=_gap(taken.value, unit))


WORDS: Mapping[str, Words] = {
    "platen-gap": _platen_gap,
    "set-gap": _set_gap,
    "dwell-gap": _dwell_gap,
    "clock-gap": _clock_gap,
    "layers": lambda taken, unit: say("layers", sheets=round(taken.figures["sheets"])),
    "layers-dose": _layers_dose,
    "thickness-dose": _thickness_dose,
    "stack-gap": _stack_gap,
    "lightness": lambda taken, unit: say("lightness", side=_side(taken.value, 0.0), steps=abs(taken.value)),
    "chroma": lambda taken, unit: say("chroma", side=_side(taken.value, 0.0), steps=abs(taken.value)),
    "hue": lambda taken, unit: say("hue", steps=taken.value),
    "yellowness": lambda taken, unit: say("yellowness", side=_side(taken.value, 0.0), steps=abs(taken.value)),
}


AXES: Mapping[str, str] = {"lightness": "L*", "chroma": "C*", "hue": "H*", "yellowness": "b*"}


def amount(measure: str, value: float, unit: str, *, either: bool = False) -> str:
    """A value of a measure by itself: ``8 °C (14 °F) short``, ``64 % of what is meant``, ``6.0 L*``; a gap that counts
    ``either`` way without its side."""
    if measure in AXES:
        return say("colour-steps", steps=value, axis=AXES[measure])
    if measure in ("platen-gap", "set-gap", "stack-gap"):
        return say("gap-either-way", step=step(value, unit)) if either and value else _gap(value, unit)
    if measure == "layers":
        return say("sheets", count=round(value))
    return say("of-what-is-meant", share=exp(value) * 100)
