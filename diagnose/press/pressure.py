"""From the gauge to the platen: a cylinder's push, and what it comes to over the item."""

from dataclasses import dataclass
from math import pi, sqrt

REACHED = 800.0  # kPa: the most that the compressors of small workshops reach. Common practice.


@dataclass(frozen=True, slots=True, kw_only=True)
class Cylinders:
    """The air cylinders of a press: ``gauge`` in kPa, ``bore`` in metres."""

    gauge: float
    bore: float
    count: int = 1


def force(cylinders: Cylinders) -> float:
    """The push in newtons, friction and the platen's own weight left out."""
    return 1e3 * cylinders.gauge * 0.25 * pi * cylinders.bore**2 * cylinders.count


def over(newtons: float, sides: tuple[float, float]) -> float:
    """kPa of a push spread evenly over an area with these sides in metres."""
    return newtons / (sides[0] * sides[1]) / 1e3


def square_for(newtons: float, wanted: float) -> float:
    """The side in metres of the square over which a push comes to ``wanted`` kPa."""
    return sqrt(newtons / (1e3 * wanted))


def meeting(platen: tuple[float, float], item: tuple[float, float] | None) -> tuple[float, float]:
    """The sides of the area that carries the push: the item's where it is smaller than the platen, because a soft pad
    around a raised item carries next to nothing; else the platen's."""
    if item is None:
        return platen
    return min(platen[0], item[0]), min(platen[1], item[1])


def gauge_for(wanted: float, sides: tuple[float, float], bore: float, count: int = 1) -> float:
    """The gauge pressure in kPa that gives ``wanted`` kPa over an area with these sides."""
    return wanted * sides[0] * sides[1] / (0.25 * pi * bore**2 * count)
