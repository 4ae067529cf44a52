"""How many times as often a figure shows with a cause as without it.

Marks of the knowledge part the figures into bands: within the first mark, between two, beyond the last. An instrument
misses, so that a figure speaks for each band by the chance that the true value lies in it. The error is that of a
logistic curve: with it, and with bands that speak the more the further out they lie, a figure further out never speaks
less, whatever the error (both are totally positive of order 2, and so is what comes of them).
"""

from collections.abc import Sequence
from itertools import pairwise
from math import exp, pi, sqrt
from typing import TypeAlias

from diagnose.knowledge.measures import Measure, held

Band: TypeAlias = tuple[float, float]  # how often figures lie in it, with the cause and without it
DECIMALS = 6  # finer differences are the machine's rounding, and would have two machines plan otherwise
MOST = 200.0  # no figure speaks more surely than this, whatever the marks say
SCALE = sqrt(3.0) / pi  # of a logistic curve, for one standard deviation of 1
FAR = 700.0  # beyond it ``exp`` has no number


def ratio(value: float, measure: Measure, cause: str) -> float:
    """What a value of the measure, in the unit it is reckoned in, says of a cause that it speaks of."""
    says = measure.speaks[cause]
    return likelihood(says.out(value), edges(measure, cause), says.bands, held(measure.id, measure.error))


def edges(measure: Measure, cause: str) -> list[float]:
    """How far out the marks of a cause lie, in the unit the measure is reckoned in."""
    says = measure.speaks[cause]
    return [says.out(held(measure.id, mark.at)) for mark in says.marks]


def likelihood(out: float, ends: Sequence[float], bands: Sequence[Band], error: float) -> float:
    """The likelihood of a value so far out with the cause over that without it, kept within ``MOST`` either way.
    ``ends``: where one band ends and the next begins; ``error``: one standard deviation."""
    beyond = (1.0, *(_beyond((out - edge) / (error * SCALE)) for edge in ends), 0.0)
    within = [one - two for one, two in pairwise(beyond)]
    there = sum(part * band[0] for part, band in zip(within, bands, strict=True))
    otherwise = sum(part * band[1] for part, band in zip(within, bands, strict=True))
    if otherwise * MOST <= there:
        return MOST if there > 0.0 else 1.0
    return max(1.0 / MOST, round(there / otherwise, DECIMALS))


def _beyond(steps: float) -> float:
    """The chance that the true value lies beyond an edge that the reading is so many steps past."""
    return 1.0 / (1.0 + exp(-max(-FAR, min(FAR, steps))))
