"""Typed values with units, as a person at the press writes them: ``385F``, ``2.8bar``, ``1:00``, ``6mm``.

Held in °C, K (differences), seconds, kPa, metres and shares of 1. What could mean two things, or nothing that a press
does, is refused with a sentence that says what to write instead; a bare number that can mean one thing only is taken as
that, and ``assumed`` says so. Conversions are exact by definition (1 in = 25.4 mm;
°F = 9/5 °C + 32) but for the psi, 6.894757 kPa (NIST SP 811).
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from math import isfinite

PSI = 6.894757  # kPa
NUMBER = r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)"
VALUE = re.compile(rf"\s*(?P<number>{NUMBER})\s*(?P<unit>[^\d\s.,+-].*?)?\s*\Z")
CLOCK = re.compile(r"\s*(?P<minutes>\d+):(?P<seconds>[0-5]\d)\s*\Z")
SIDES = re.compile(rf"\s*({NUMBER})\s*([a-z\"]*)\s*[x×*]\s*({NUMBER})\s*([a-z\"]*)\s*\Z", re.IGNORECASE)
PARTS = re.compile(r"(\d{1,3}) ?[/:] ?(\d{1,3})\Z")
LONGEST = 100  # signs; no value is spelt longer


class Unclear(ValueError):
    """A typed value that cannot be taken; the message says what was typed, what was expected and how to mend it."""


@dataclass(frozen=True, slots=True)
class QuantityKind:
    """A kind of quantity: its name, the units it may carry as {unit: (factor, offset)} to the held unit, an example,
    the least and the most that make sense (held), ``plain``: the unit of a bare number ("" where one must be said), and
    ``bare``: by unit, between which bare numbers nothing else can be meant.
    """

    name: str
    units: Mapping[str, tuple[float, float]]
    example: str
    least: float
    most: float
    shown: str
    plain: str = ""
    bare: Mapping[str, tuple[float, float]] = field(default_factory=dict)


def _same(factor: float, *names: str) -> dict[str, tuple[float, float]]:
    return dict.fromkeys(names, (factor, 0.0))


CELSIUS = dict.fromkeys(("c", "°c", "degc", "celsius", "grad"), (1.0, 0.0))
FAHRENHEIT = dict.fromkeys(("f", "°f", "degf", "fahrenheit"), (5 / 9, -160 / 9))
TEMPERATURE = QuantityKind(
    "temperature", CELSIUS | FAHRENHEIT, "385F or 196C", -20.0, 300.0, "°C", bare={"°F": (300.5, 572.0)}
)
DWELL = QuantityKind(
    "dwell",
    _same(1.0, "s", "sec", "secs", "second", "seconds") | _same(60.0, "m", "min", "mins", "minute", "minutes"),
    "60s, 1min or 1:00",
    0.0,
    3600.0,
    "s",
    bare={"s": (20.0, 3600.0)},  # nobody presses for twenty minutes
)
PRESSURE = QuantityKind(
    "pressure",
    _same(1.0, "kpa") | _same(100.0, "bar") | _same(PSI, "psi") | _same(1000.0, "mpa") | _same(0.001, "pa"),
    "40psi, 2.8bar or 280kPa",
    0.0,
    2000.0,
    "kPa",
)
LENGTH = QuantityKind(
    "length",
    _same(0.001, "mm") | _same(0.01, "cm") | _same(1.0, "m") | _same(0.0254, "in", "inch", "inches", '"'),
    "6mm, 40cm or 1.5in",
    0.0,
    3.0,
    "m",
)
SHARE = QuantityKind(
    "share",
    _same(0.01, "%", "percent", "per cent", "pct") | _same(1.0, "of 1"),
    "65%",
    0.0,
    1.0,
    "of 1",
    plain="%",
    bare={"of 1": (1e-9, 1.0 - 1e-9)},
)


def temperature(text: str) -> float:
    """A temperature in °C. A bare number is refused where it may be either scale's, as 200 may; 392 can be °F alone."""
    return read(text, TEMPERATURE)


def plain(text: str, what: str, example: str) -> str:
    """A typed value with single blanks, so that no expression meets a long run of them.

    Raises:
        Unclear: it is longer than any value is spelt.
    """
    spelt = " ".join(text.split())
    if len(spelt) > LONGEST:
        raise Unclear(f"'{spelt[:20]}...' is too long for {what}: write it such as {example}")
    return spelt


def dwell(text: str) -> float:
    """A time under the press in seconds, above 0; ``1:00`` is a minute."""
    text = plain(text, f"a {DWELL.name}", DWELL.example)
    clock = CLOCK.match(text)
    seconds = 60.0 * int(clock["minutes"]) + int(clock["seconds"]) if clock else read(text, DWELL)
    return _above_zero(within(seconds, DWELL, text), DWELL, text)


def pressure(text: str) -> float:
    """A pressure in kPa, above 0."""
    return _above_zero(read(text, PRESSURE), PRESSURE, text)


def length(text: str) -> float:
    """A length or thickness in metres, above 0."""
    return _above_zero(read(text, LENGTH), LENGTH, text)


def area(text: str) -> tuple[float, float]:
    """Two sides in metres: ``40x50cm``, ``16x20in``; a unit that one side lacks is taken from the other."""
    text = plain(text, "a size", "40x50cm or 16x20in")
    sides = SIDES.match(text)
    if sides is None:
        raise Unclear(f"'{text}' is not a size: write two sides with a unit, such as 40x50cm or 16x20in")
    one, one_unit, other, other_unit = sides.groups()
    return length(one + (one_unit or other_unit)), length(other + (other_unit or one_unit))


def share(text: str) -> float:
    """A share between 0 and 1: of a bare number from 1 on as per cent, ``65/35`` as the first of the two."""
    parts = PARTS.match(plain(text, f"a {SHARE.name}", SHARE.example))
    if parts and int(parts[1]) + int(parts[2]) == 100:
        return int(parts[1]) / 100.0
    return read(text, SHARE)


def assumed(text: str, kind: QuantityKind) -> str:
    """The unit that a bare number was taken in, because it can mean nothing else: ``°F`` of 392; "" of other texts."""
    found = VALUE.match(plain(text, f"a {kind.name}", kind.example))
    return "" if found is None or found["unit"] else _only(_number(found), kind)


def read(text: str, kind: QuantityKind) -> float:
    """The value in the held unit of its kind.

    Raises:
        Unclear: it is no number, has no unit where one is needed, one of another kind, or makes no sense.
    """
    text = plain(text, f"a {kind.name}", kind.example)
    found = VALUE.match(text)
    if found is None:
        raise Unclear(f"'{text}' is not a {kind.name}: write a number with its unit, such as {kind.example}")
    number = _number(found)
    unit = (found["unit"] or _only(number, kind) or kind.plain).strip().lower().rstrip(".")
    if not unit:
        raise Unclear(f"'{text}' has no unit: {_which(number, kind)}")
    if unit not in kind.units:
        raise Unclear(f"'{found['unit']}' is not a unit of {kind.name}: write it such as {kind.example}")
    factor, offset = kind.units[unit]
    return within(number * factor + offset, kind, text)


def within(value: float, kind: QuantityKind, text: str) -> float:
    """The value, where a press can have it."""
    if not isfinite(value) or not kind.least - 1e-9 <= value <= kind.most + 1e-9:
        span = f"{kind.least:g} to {kind.most:g} {kind.shown}"
        raise Unclear(f"'{text}' makes no sense as a {kind.name}: expected {span}, such as {kind.example}")
    return value


def _number(found: re.Match[str]) -> float:
    return float(found["number"].replace(",", "."))


def _only(number: float, kind: QuantityKind) -> str:
    """The one unit that a bare number can mean; "" where there is none."""
    return next((unit for unit, (least, most) in kind.bare.items() if least <= number <= most), "")


def _above_zero(value: float, kind: QuantityKind, text: str) -> float:
    if value <= 0.0:
        raise Unclear(f"'{text}' makes no sense as a {kind.name}: it must be above 0, such as {kind.example}")
    return value


def _which(number: float, kind: QuantityKind) -> str:
    if kind is TEMPERATURE:
        return f"is it {number:g}F or {number:g}C? Write the unit after the number"
    return f"write it after the number, such as {kind.example}"
