"""Grey-scale grades: 5 where nothing is seen, down to 1.

Change of colour by ISO 105-A05 and staining by ISO 105-A04, both from measured colours; and the steps of the two grey
scales themselves, ISO 105-A02 and ISO 105-A03, as CIELAB differences.
"""

from bisect import bisect_right
from math import exp, inf, log, log2, sqrt

from diagnose.press.colour.difference import Difference
from diagnose.press.colour.lab import Lab

GRADES = ("5", "4-5", "4", "3-4", "3", "2-3", "2", "1-2", "1")
CHANGE_STEPS = (0.0, 0.8, 1.7, 2.5, 3.4, 4.8, 6.8, 9.6, 13.6)  # ISO 105-A02
STAINING_STEPS = (0.0, 2.2, 4.3, 6.0, 8.5, 12.0, 16.9, 24.0, 34.1)  # ISO 105-A03
CHANGE_LIMITS = (0.40, 1.25, 2.10, 2.95, 4.10, 5.80, 8.20, 11.60)  # ISO 105-A05, from grade 5 down


def change_distance(proof: Lab, print_: Lab) -> float:
    """The difference that ISO 105-A05 grades: hue and chroma count for less the more colourful the two are."""
    difference = Difference(proof, print_)
    chroma = (proof.chroma + print_.chroma) / 2.0
    apart = abs(_mean_hue(proof, print_) - 280.0)
    blue = (min(apart, 360.0 - apart) / 30.0) ** 2
    taken = chroma * exp(-blue) / 100.0
    chroma_part = (difference.chroma - difference.chroma * taken) / (1.0 + (20.0 * chroma / 1000.0) ** 2)
    hue = difference.hue_distance
    hue_part = (hue - hue * taken) / (1.0 + (10.0 * chroma / 1000.0) ** 2)
    return sqrt(difference.lightness**2 + chroma_part**2 + hue_part**2)


def change_rating(distance: float) -> float:
    """The grade for change of colour (ISO 105-A05) before it is set to a step: 4 at 1.7, 3 at 3.4, 1 at 13.6."""
    return 5.0 - distance / 1.7 if distance <= 3.4 else 5.0 - log2(distance / 0.85)


def change_grade(distance: float) -> str:
    """The step of the grade for change of colour, such as ``3-4``."""
    return GRADES[bisect_right(CHANGE_LIMITS, distance)]


def staining_distance(clean: Lab, stained: Lab) -> float:
    """The difference that ISO 105-A04 grades: a loss of lightness counts for more than a shift in colour."""
    difference = Difference(clean, stained)
    whole = difference.cielab
    return whole - 0.4 * sqrt(max(0.0, whole**2 - difference.lightness**2))


def staining_rating(distance: float) -> float:
    """The grade for staining (ISO 105-A04) before it is set to a step."""
    rating = 6.1 - 1.45 * log(distance) if distance > 0.0 else inf
    return 5.0 - 0.23 * distance if rating > 4.0 else rating


def staining_grade(distance: float) -> str:
    """The half step next to the rating; at the worst ``1``."""
    rating = max(1.0, min(5.0, staining_rating(distance)))
    return GRADES[round((5.0 - rating) * 2.0)]


def _mean_hue(one: Lab, other: Lab) -> float:
    """In degrees, the short way round."""
    mean = (one.hue + other.hue) / 2.0
    return (mean + 180.0) % 360.0 if abs(one.hue - other.hue) > 180.0 else mean
