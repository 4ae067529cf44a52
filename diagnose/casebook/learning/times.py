"""How long steps take here: the mean of what was measured, shrunk to the shipped minutes."""

from collections.abc import Mapping
from dataclasses import dataclass

from diagnose.casebook.learning.weights import MINUTES
from diagnose.knowledge.model import Check, Fix, Knowledge

MOVED = 0.1  # of the shipped minutes: a step that takes nearly as long keeps them
LEAST = 0.5  # minutes: a smaller difference is none
LONGEST = 1000.0  # minutes that a step may be said to take


@dataclass(frozen=True, slots=True)
class Timed:
    """A step's minutes as shipped and as they will be, from so many measurements with this mean and variance."""

    step: str
    old: float
    new: float
    measured: int
    mean: float
    variance: float


def timed(knowledge: Knowledge, times: Mapping[str, tuple[int, float, float]]) -> list[Timed]:
    """The steps whose minutes change, by id. What was measured of steps that are not known is passed over."""
    steps: dict[str, Check | Fix] = {**knowledge.checks, **knowledge.fixes}
    found = []
    for step, (number, mean, variance) in sorted(times.items()):
        if step in steps and number > 0:
            old = steps[step].minutes
            new = old + number * (mean - old) / (number + MINUTES)
            new = min(LONGEST, round(2.0 * new) / 2.0 if new >= LEAST else LEAST)
            if abs(new - old) >= max(LEAST, MOVED * old):
                found.append(Timed(step, old, new, number, mean, variance))
    return found
