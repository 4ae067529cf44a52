"""Comparing two sets of forecasts of the same cases, and chances with what a perfect forecaster would reach."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from diagnose.casebook.learning.numbers import Floats

BINS = 10
DRAWS = 2000  # of the cases, for an interval
SIMULATED = 1000  # perfect forecasters
SEED = 20110
LOWEST, HIGHEST = 2.5, 97.5  # per cent


@dataclass(frozen=True, slots=True)
class Interval:
    """A mean with the middle 95 % of what it comes to when the cases are drawn anew, with replacement."""

    mean: float
    low: float
    high: float

    @property
    def better(self) -> bool:
        return self.low > 0.0

    @property
    def worse(self) -> bool:
        return self.high < 0.0


def mean_of(sums: Sequence[float], counts: Sequence[float] | None = None) -> Interval:
    """The interval of a mean over cases; with ``counts``, over the events of which each case has so many."""
    total = np.asarray(sums, float)
    number = np.ones_like(total) if counts is None else np.asarray(counts, float)
    if not number.sum():
        return Interval(0.0, 0.0, 0.0)
    random = np.random.default_rng(SEED)
    drawn = random.multinomial(len(total), np.full(len(total), 1.0 / len(total)), size=DRAWS)
    events = drawn @ number
    means = (drawn @ total)[events > 0.0] / events[events > 0.0]
    low, high = np.percentile(means, [LOWEST, HIGHEST])
    return Interval(float(total.sum() / number.sum()), float(low), float(high))


@dataclass(frozen=True, slots=True)
class Calibration:
    """``error``: the expected calibration error over BINS equal bins: how far the mean chance in each is from how often
    it came true. A perfect forecaster's is not zero: ``usual`` is its mean, by simulation from the chances
    themselves, and ``most`` what 95 of 100 stay below."""

    error: float
    usual: float
    most: float


def calibration(chances: Sequence[float], came: Sequence[bool]) -> Calibration:
    """How well chances agree with what came true; all zero without any."""
    p = np.asarray(chances, float)
    if not len(p):
        return Calibration(0.0, 0.0, 0.0)
    random = np.random.default_rng(SEED)
    null = np.array([_error(p, random.random(len(p)) < p) for _ in range(SIMULATED)])
    return Calibration(_error(p, np.asarray(came)), float(null.mean()), float(np.percentile(null, 95.0)))


def _error(p: Floats, came: Sequence[bool] | np.ndarray[tuple[int, ...], np.dtype[np.bool_]]) -> float:
    bins = np.minimum(BINS - 1, (p * BINS).astype(int))
    off = np.bincount(bins, p - np.asarray(came, float), minlength=BINS)
    return float(np.abs(off).sum() / len(p))
