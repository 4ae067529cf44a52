"""Chances, weights, minutes and money in words, always with the number beside the word."""

from collections.abc import Mapping
from math import log

from diagnose.knowledge.model import ScaleWord

SIDES = ((12.0, "strongly"), (5.0, "clearly"), (1.5, "somewhat"), (0.0, "slightly"))


def percent(probability: float) -> str:
    """A probability as a whole per cent; never 0 % or 100 % for what is neither."""
    if 0.0 < probability < 0.005:
        return "under 1 %"
    if 0.995 <= probability < 1.0:
        return "over 99 %"
    return f"{probability * 100:.0f} %"


def in_words(probability: float, scale: Mapping[str, ScaleWord]) -> str:
    """The word of the scale that lies nearest (in log odds), with the number: ``likely, 68 %``."""
    graded = [word for word in scale.values() if 0.0 < word.value < 1.0]
    if not graded:
        return percent(probability)
    nearest = min(graded, key=lambda w: (abs(_odds(w.value) - _odds(probability)), w.word))
    return f"{nearest.word}, {percent(probability)}"


def _odds(probability: float) -> float:
    p = min(1.0 - 1e-9, max(1e-9, probability))
    return log(p / (1.0 - p))


def side(weight: float) -> str:
    """What a weight of evidence in decibans does: ``speaks clearly for it``."""
    strength = next(word for least, word in SIDES if abs(weight) >= least)
    return f"speaks {strength} {'for' if weight >= 0 else 'against'} it"


def minutes(value: float) -> str:
    """A time a person would say: ``half a minute``, ``6 min``, ``1 h 20 min``."""
    if value < 0.75:
        return "half a minute"
    whole = round(value)
    if whole < 60:
        return f"{whole} min"
    hours, rest = divmod(whole, 60)
    return f"{hours} h {rest} min" if rest else f"{hours} h"


def temperatures(low: float, high: float, unit: str) -> str:
    """A window of temperatures held in °C, in the shop's unit (``C`` or ``F``) with the other beside it."""
    celsius, fahrenheit = f"{low:g}–{high:g} °C", f"{low * 1.8 + 32:.0f}–{high * 1.8 + 32:.0f} °F"
    return f"{fahrenheit} ({celsius})" if unit == "F" else f"{celsius} ({fahrenheit})"


def money(value: float, currency: str) -> str:
    """An amount in the shop's currency, or a plain figure where it names none."""
    return f"{currency} {value:.2f}".strip()
