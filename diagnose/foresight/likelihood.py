"""How many times as often a figure shows with a cause as without it.

A measure is taken with an error; what is known of it with and without the cause are normal curves. The error widens
each curve, so that an instrument that misses by much says little.
"""

from collections.abc import Sequence
from math import exp, pi, sqrt

from diagnose.knowledge.measures import Hump, Speaks

DECIMALS = 6  # finer differences are the machine's rounding, and would have two machines plan otherwise
MOST = 200.0  # no figure speaks more surely than this, whatever the curves do far from their middles


def ratio(value: float, speaks: Speaks, error: float) -> float:
    """The likelihood of the value with the cause over that without it, kept within ``MOST`` either way."""
    there, otherwise = density(value, speaks.there, error), density(value, speaks.otherwise, error)
    if otherwise * MOST <= there:
        return MOST if there > 0.0 else 1.0  # so far out that neither curve reaches it
    return max(1.0 / MOST, round(there / otherwise, DECIMALS))


def density(value: float, humps: Sequence[Hump], error: float) -> float:
    """How densely such values lie, seen through the error (one standard deviation)."""
    return sum(hump.share * _normal(value - hump.mean, sqrt(hump.spread**2 + error**2)) for hump in humps)


def _normal(distance: float, spread: float) -> float:
    return exp(-0.5 * (distance / spread) ** 2) / (spread * sqrt(2.0 * pi))
