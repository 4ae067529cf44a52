"""A colour as CIELAB gives it: lightness, a (red to green), b (yellow to blue), and the hue and chroma that follow."""

import re
from dataclasses import dataclass
from math import atan2, degrees, hypot, isfinite

from diagnose.press.quantities import Unclear, plain

EXAMPLE = "52,40,20"
MOST = 200.0  # no surface comes near an a or b of this size
LABELS = re.compile(r"(?:CIE)?\s*(?:L|a|b)\s*\*?\s*[=:]\s*|^\s*lab\b\s*\(?|\)\s*$", re.IGNORECASE)
NUMBER = r"[+-]?(?:\d+(?:{mark}\d*)?|{mark}\d+)"
SPELT = tuple(
    re.compile(rf"\s*({number})\s*{gap}\s*({number})\s*{gap}\s*({number})\s*\Z")
    for number, gap in (
        (NUMBER.format(mark="[.]"), r"[,;/|]"),
        (NUMBER.format(mark="[.,]"), r"[;/|]"),
        (NUMBER.format(mark="[.,]"), r"[\s]"),
    )
)


@dataclass(frozen=True, slots=True)
class Lab:
    """``lightness`` from 0 (black) to 100 (the white), ``a`` and ``b`` in CIELAB units."""

    lightness: float
    a: float
    b: float

    @property
    def chroma(self) -> float:
        """How colourful: 0 for grey."""
        return hypot(self.a, self.b)

    @property
    def hue(self) -> float:
        """The hue as an angle from 0 up to 360 degrees: 0 purplish red, 90 yellow, 180 bluish green, 270 blue."""
        return degrees(atan2(self.b, self.a)) % 360.0

    def __str__(self) -> str:
        return f"{self.lightness:.1f}, {self.a:.1f}, {self.b:.1f}"


def lab(text: str) -> Lab:
    """A colour as it is typed: ``52,40,20``, ``52.1; 40; -3``, ``L*=52 a*=40 b*=20``; decimal commas where the
    numbers are held apart by something else.

    Raises:
        Unclear: it is not three numbers, or no colour of a surface.
    """
    text = plain(text, "a colour", EXAMPLE)
    bare = LABELS.sub(" ", text.replace("−", "-"))
    for spelt in SPELT:
        if found := spelt.match(bare):
            return checked(*(float(number.replace(",", ".")) for number in found.groups()), text=text)
    raise Unclear(f"'{text}' is not a colour: write L, a and b as three numbers, such as {EXAMPLE}")


def checked(lightness: float, a: float, b: float, *, text: str) -> Lab:
    """The colour, where a surface can have it."""
    if not all(map(isfinite, (lightness, a, b))):
        raise Unclear(f"'{text}' is not a colour: a number is missing or has no end, expected such as {EXAMPLE}")
    if not 0.0 <= lightness <= 100.0:
        raise Unclear(f"'{text}' makes no sense as a colour: L runs from 0 (black) to 100 (white), not {lightness:g}")
    if max(abs(a), abs(b)) > MOST:
        raise Unclear(f"'{text}' makes no sense as a colour: a and b of a print lie within -{MOST:g} to {MOST:g}")
    return Lab(lightness, a, b)
