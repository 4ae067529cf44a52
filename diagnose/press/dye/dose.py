"""Dose: seconds at a reference temperature that would let as much dye cross over; and what colour a dose gives.

One calibration: full colour, as near as an eye can tell, is what white polyester cloth shows after a minute at
385 to 400 °F (196 to 204 °C; common practice). As near as an eye can tell is taken as 95 %. Everything else is
reckoned from it.
"""

from collections.abc import Sequence
from math import exp, log

from diagnose.press.dye.vapour import STEEPNESS, haste

AT_WANTED = 0.95  # share of full colour at the wanted dose
RATE = -log(1.0 - AT_WANTED)
FLAT = 1e-4  # in the logarithm: a growth so small is as good as even
SOFTENS, GHOSTS = 2.0, 3.0  # times the wanted dose at which edges soften, and dye wanders. An assumption.


def dose(
    times: Sequence[float], temperatures: Sequence[float], reference: float, steepness: float = STEEPNESS
) -> float:
    """Equivalent seconds at ``reference`` °C of a track of temperatures (°C) over times (s)."""
    total = 0.0
    before = haste(temperatures[0], reference, steepness)
    for place in range(1, len(times)):
        after = haste(temperatures[place], reference, steepness)
        total += (times[place] - times[place - 1]) * log_mean(before, after)
        before = after
    return total


def log_mean(one: float, other: float) -> float:
    """The mean of a value that grows from one to the other by the same factor in each second."""
    ratio = log(other / one)
    if abs(ratio) < FLAT:
        return 0.5 * (one + other)
    return (other - one) / ratio


def share(over: float) -> float:
    """The share of full colour, 0 to 1, at some multiple of the wanted dose: the paper empties ever more slowly."""
    return 1.0 - exp(-RATE * over)


def over_for(colour: float) -> float:
    """The multiple of the wanted dose that gives a share of full colour below 1."""
    return -log(1.0 - colour) / RATE
