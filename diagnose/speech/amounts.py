"""Chances, weights, times, temperatures and money in words, always with the number beside the word."""

from collections.abc import Mapping
from math import log

from diagnose.knowledge.model import WORKING_DAY, Check, Fix, ScaleWord, Spends
from diagnose.speech.saying import say

SIDES = ((12.0, "strongly"), (5.0, "clearly"), (1.5, "somewhat"), (0.0, "slightly"))


def percent(probability: float) -> str:
    """A probability as a whole per cent; never 0 % or 100 % for what is neither."""
    if 0.0 < probability < 0.005:
        return say("percent-under-one")
    if 0.995 <= probability < 1.0:
        return say("percent-over-ninety-nine")
    return say("percent", percent=probability * 100)


def day(on: str) -> str:
    """A day written ``2026-11-12`` as a person says it: ``12 Nov 2026``; as it stands where it is none."""
    year, _, rest = on.partition("-")
    month, _, number = rest.partition("-")
    if not (len(month) == 2 and year.isdecimal() and month.isdecimal() and number.isdecimal()):
        return on
    return say("day", day=int(number), month=month, year=year)


def in_words(probability: float, scale: Mapping[str, ScaleWord]) -> str:
    """The word of the scale that lies nearest (in log odds), with the number: ``likely, 68 %``."""
    graded = [word for word in scale.values() if 0.0 < word.value < 1.0]
    if not graded:
        return percent(probability)
    nearest = min(graded, key=lambda w: (abs(_odds(w.value) - _odds(probability)), w.word))
    return say("chance", word=nearest.word, percent=percent(probability))


def _odds(probability: float) -> float:
    p = min(1.0 - 1e-9, max(1e-9, probability))
    return log(p / (1.0 - p))


def side(weight: float) -> str:
    """What a weight of evidence in decibans does: ``speaks clearly for it``."""
    much = strength(weight)
    return say("weight-for", strength=much) if weight >= 0 else say("weight-against", strength=much)


def strength(weight: float) -> str:
    """How much a weight of evidence in decibans is, for or against: ``clearly``."""
    return next(word for least, word in SIDES if abs(weight) >= least)


def counted(chance: float) -> str:
    """A chance as so many of a hundred, or one of so many: ``90 in 100``, ``1 in 200``."""
    if chance >= 0.995:
        return say("nearly-all")
    if chance >= 0.02:
        return say("in-a-hundred", many=100 * chance)
    return say("one-in", many=_round(1 / chance)) if chance > 1e-6 else say("none")


def _round(many: float) -> int:
    """Two figures are all that such a number is worth."""
    stride: int = 10 ** max(1, len(str(int(many))) - 2)
    return round(many / stride) * stride


def minutes(value: float) -> str:
    """A time a person would say: ``half a minute``, ``6 min``, ``1 h 20 min``."""
    if value < 0.75:
        return say("half-a-minute")
    hours, rest = divmod(round(value), 60)
    return say("time", hours=hours, minutes=rest)


def wait(time: float) -> str:
    """A time of waiting, given in minutes of working days: ``10 min``, ``an hour``, ``3 days``."""
    days = round(time / WORKING_DAY) if time >= WORKING_DAY else 0
    hours, rest = divmod(round(time), 60)
    return say("wait", days=days, hours=hours, minutes=rest)


def taking(step: Check | Fix) -> str:
    """The time a check or a fix takes, and what it waits for: ``6 min, and an hour for the press to cool``."""
    own, waits = minutes(step.minutes), step.waits
    return say("time-and-wait", minutes=own, wait=wait(waits.time), what=waits.what) if waits.time else own


def fix_taking(fix: Fix, test_minutes: float, spent: str) -> str:
    """What a fix takes with the test press that ends it; ``spent``: what it uses up, as the tail of the line."""
    whole, waits = minutes(fix.minutes + test_minutes), fix.waits
    if not waits.time:
        return say("fix-with-its-test-press", minutes=whole, spent=spent)
    return say("fix-with-its-wait", minutes=whole, wait=wait(waits.time), what=waits.what, spent=spent)


def seconds(time: float) -> str:
    """``48 s``; from two minutes on with the minutes beside it: ``218 s (3.6 min)``."""
    if time < 120:
        return say("seconds", seconds=time)
    return say("seconds-and-minutes", seconds=time, minutes=time / 60)


def seconds_between(window: tuple[float, float]) -> str:
    """A window of seconds, with minutes beside it where they say more."""
    said = _between(*window, "s")
    if window[0] < 120:
        return said
    return say("and-so", first=said, other=_between(round(window[0] / 60, 1), round(window[1] / 60, 1), "min"))


def _between(least: float, most: float, unit: str) -> str:
    if least == most:
        return say("exactly", least=least, unit=unit)
    return say("between", least=least, most=most, unit=unit)


def shown_in(unit: str, celsius: float) -> float:
    """A temperature in the shop's unit, ``C`` or ``F``."""
    return celsius * 1.8 + 32 if unit == "F" else celsius


def degrees(celsius: float, unit: str) -> str:
    """``200 °C (392 °F)``, or the other way round where the shop's unit is F."""
    return say("degrees", unit=unit, celsius=celsius, fahrenheit=shown_in("F", celsius))


def step(kelvin: float, unit: str) -> str:
    """A difference, without its sign: ``8 °C (14 °F)``."""
    return say("degrees", unit=unit, celsius=abs(kelvin), fahrenheit=abs(kelvin) * 1.8)


def degrees_between(window: tuple[float, float], unit: str) -> str:
    """A window held in °C, in the shop's unit (``C`` or ``F``) the other beside it: ``193–200 °C (379–392 °F)``."""
    (low, high), (low_f, high_f) = window, (shown_in("F", end) for end in window)
    return say("degrees-between", unit=unit, low=low, high=high, low_fahrenheit=low_f, high_fahrenheit=high_f)


def money(value: float, currency: str) -> str:
    """An amount in the shop's currency, or a plain figure where it names none."""
    return say("money", currency=currency, amount=value).strip()


def used_up(spends: Spends, currency: str = "") -> list[str]:
    """What a step uses up, part by part."""
    parts = [
        say("uses-sheets", count=spends.paper) if spends.paper else "",
        say("uses-blanks", count=spends.blank) if spends.blank else "",
        say("uses-money", money=money(spends.money, currency)) if spends.money else "",
    ]
    return [part for part in parts if part]
