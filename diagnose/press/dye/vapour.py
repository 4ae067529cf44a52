"""Vapour pressures of transfer dyes: ln P = A - B/(T + C), P in Pa, T in K (Landolt-Börnstein, group IV, volume 20).

The red is the measure here: it lies in the middle of the four, and its row was fitted at press heat.
"""

from dataclasses import dataclass
from math import exp

KELVIN = 273.15


@dataclass(frozen=True, slots=True)
class Dye:
    """A dye by its Colour Index name; ``least`` and ``most`` bound the temperatures (K) that were measured."""

    name: str
    a: float
    b: float
    least: float
    most: float
    c: float = 0.0

    def pressure(self, celsius: float) -> float:
        """Vapour pressure in Pa."""
        return exp(self.a - self.b / (celsius + KELVIN + self.c))

    def energy(self) -> float:
        """The heat of evaporation in kJ/mol that the slope stands for."""
        return self.b * 8.314462618e-3


RED_60 = Dye("Disperse Red 60", 39.2106, 17054.7, 453.0, 524.0)
RED_11 = Dye("Disperse Red 11", 40.5777, 17680.1, 453.0, 524.0)
BLUE_14 = Dye("Disperse Blue 14", 41.0752, 18255.0, 385.0, 413.0)
YELLOW_54 = Dye("Disperse Yellow 54", 35.0833, 16677.0, 483.0, 514.0)
DYES = (RED_60, RED_11, BLUE_14, YELLOW_54)
MEASURE = RED_60
STEEPNESS = MEASURE.b  # K


def haste(celsius: float, reference: float, steepness: float = STEEPNESS) -> float:
    """How many times faster the dye gasses off than at a reference temperature (°C)."""
    return exp(steepness * (1.0 / (reference + KELVIN) - 1.0 / (celsius + KELVIN)))
