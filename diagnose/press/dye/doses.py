"""Doses of many tracks at once, in arrays, as ``soak_many`` gives them."""

import numpy as np
import numpy.typing as npt

from diagnose.press.dye.dose import FLAT
from diagnose.press.dye.vapour import KELVIN, MEASURE

Array = npt.NDArray[np.float64]


def doses(clock: Array, at_dye: Array, reference: float, steepness: float = MEASURE.b) -> Array:
    """Equivalent seconds at ``reference`` °C of each column of temperatures (°C) over its times (s)."""
    powers = steepness * (1.0 / (reference + KELVIN) - 1.0 / (at_dye + KELVIN))
    rates, ratios = np.exp(powers), np.diff(powers, axis=0)
    flat = np.abs(ratios) < FLAT
    means = np.where(flat, 0.5 * (rates[1:] + rates[:-1]), np.diff(rates, axis=0) / np.where(flat, 1.0, ratios))
    total: Array = (np.diff(clock, axis=0) * means).sum(axis=0)
    return total
