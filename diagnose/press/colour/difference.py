"""How far a print is from its proof, in CIELAB (ISO/CIE 11664-4) and by CIEDE2000 (ISO/CIE 11664-6)."""

from dataclasses import dataclass
from math import atan2, cos, degrees, exp, hypot, radians, sin, sqrt

from diagnose.press.colour.lab import Lab

NEUTRAL = 1e-9  # chroma below which a colour has no hue at all


@dataclass(frozen=True, slots=True)
class Parts:
    """CIEDE2000 taken apart, each part in units of ``total``: ``lightness`` above 0 where the second is lighter,
    ``chroma`` above 0 where it is more colourful, ``hue`` above 0 where the angle of its hue is wider. ``turn``
    holds back what hue and chroma share in blues."""

    lightness: float
    chroma: float
    hue: float
    turn: float

    @property
    def total(self) -> float:
        squares = self.lightness**2 + self.chroma**2 + self.hue**2 + self.turn * self.chroma * self.hue
        return sqrt(max(0.0, squares))


@dataclass(frozen=True, slots=True)
class Difference:
    """A print beside its proof. ``print_`` less ``proof`` is what each difference says."""

    proof: Lab
    print_: Lab

    @property
    def lightness(self) -> float:
        return self.print_.lightness - self.proof.lightness

    @property
    def a(self) -> float:
        return self.print_.a - self.proof.a

    @property
    def b(self) -> float:
        return self.print_.b - self.proof.b

    @property
    def chroma(self) -> float:
        return self.print_.chroma - self.proof.chroma

    @property
    def hue(self) -> float:
        """By how many degrees the hue turned, from -180 to 180; 0 where one of the two is grey."""
        if min(self.proof.chroma, self.print_.chroma) < NEUTRAL:
            return 0.0
        return (self.print_.hue - self.proof.hue + 180.0) % 360.0 - 180.0

    @property
    def hue_distance(self) -> float:
        """The turn of hue as a distance in CIELAB units, with its sign."""
        return 2.0 * sqrt(self.proof.chroma * self.print_.chroma) * sin(radians(self.hue) / 2.0)

    @property
    def cielab(self) -> float:
        """The plain distance of 1976."""
        return hypot(self.lightness, self.a, self.b)

    @property
    def parts(self) -> Parts:
        return _parts(self.proof, self.print_)

    @property
    def ciede2000(self) -> float:
        return self.parts.total


def ciede2000(one: Lab, other: Lab) -> float:
    """The distance as a person sees it, by CIEDE2000 with all three weights 1. The same both ways round."""
    return _parts(one, other).total


def _parts(one: Lab, other: Lab) -> Parts:
    """The formula in the steps of Sharma, Wu and Dalal (2005)."""
    stretch = 0.5 * (1.0 - _saturation((one.chroma + other.chroma) / 2.0))
    a_one, a_other = one.a * (1.0 + stretch), other.a * (1.0 + stretch)
    chroma_one, chroma_other = hypot(a_one, one.b), hypot(a_other, other.b)
    hue_one, hue_other = _angle(one.b, a_one), _angle(other.b, a_other)
    grey = chroma_one * chroma_other == 0.0
    turned = 0.0 if grey else _turned(hue_one, hue_other)
    hue = hue_one + hue_other if grey else _between(hue_one, hue_other)
    lightness = (one.lightness + other.lightness) / 2.0
    chroma = (chroma_one + chroma_other) / 2.0
    middle = (lightness - 50.0) ** 2
    by_lightness = 1.0 + 0.015 * middle / sqrt(20.0 + middle)
    by_chroma, by_hue = 1.0 + 0.045 * chroma, 1.0 + 0.015 * chroma * _hue_weight(hue)
    hue_distance = 2.0 * sqrt(chroma_one * chroma_other) * sin(radians(turned) / 2.0)
    angle = 60.0 * exp(-(((hue - 275.0) / 25.0) ** 2))
    return Parts(
        (other.lightness - one.lightness) / by_lightness,
        (chroma_other - chroma_one) / by_chroma,
        hue_distance / by_hue,
        -sin(radians(angle)) * 2.0 * _saturation(chroma),
    )


def _saturation(chroma: float) -> float:
    seventh = chroma**7
    return sqrt(seventh / (seventh + 25.0**7))


def _angle(b: float, a: float) -> float:
    return 0.0 if a == 0.0 and b == 0.0 else degrees(atan2(b, a)) % 360.0


def _turned(one: float, other: float) -> float:
    plain = other - one
    return plain - 360.0 if plain > 180.0 else plain + 360.0 if plain < -180.0 else plain


def _between(one: float, other: float) -> float:
    """The hue in the middle of two, the short way round."""
    if abs(one - other) <= 180.0:
        return (one + other) / 2.0
    return (one + other + (360.0 if one + other < 360.0 else -360.0)) / 2.0


def _hue_weight(hue: float) -> float:
    return (
        1.0
        - 0.17 * cos(radians(hue - 30.0))
        + 0.24 * cos(radians(2.0 * hue))
        + 0.32 * cos(radians(3.0 * hue + 6.0))
        - 0.20 * cos(radians(4.0 * hue - 63.0))
    )
