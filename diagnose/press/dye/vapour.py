"""How fast a transfer dye gasses off, by its vapour pressure: ln P = A - B/T, P in Pa, T in K.

The measure is Disperse Red 60 (Landolt-Börnstein, group IV, volume 20): of four transfer dyes that were measured it
lies in the middle, and its row was fitted at press heat, 453 to 524 K. Only the slope of it counts here.
"""

from math import exp
from typing import Final

KELVIN: Final = 273.15
STEEPNESS: Final = 17054.7  # B of the row, K: a heat of evaporation of 142 kJ/mol


def haste(celsius: float, reference: float, steepness: float = STEEPNESS) -> float:
    """How many times faster the dye gasses off than at a reference temperature (°C)."""
    return exp(steepness * (1.0 / (reference + KELVIN) - 1.0 / (celsius + KELVIN)))
