"""The sweep's arithmetic for many patterns at a time: one column of weights over sets of explained findings each.

``weights[s, p]`` belongs to the set s of findings explained so far, a bit for each, and to pattern p; patterns come
last, so that neighbours in memory are worked on alike. The moves are those of ``reasoning.listwise``: every term is
non-negative. Pulls are given as b and c: (findings, patterns).
"""

import numpy as np

from diagnose.casebook.learning.numbers import Floats


def start(b: Floats, c: Floats) -> Floats:
    """Each finding explained by what pulls at it alone, or not."""
    weights = np.ones((1, b.shape[1]))
    for own_b, own_c in zip(b, c, strict=True):
        weights = np.concatenate([weights * own_c, weights * own_b])
    return weights


def forth(weights: Floats, b: Floats, c: Floats) -> Floats:
    """A present cause explains each finding with chance b, on top of those explained before."""
    result = weights.copy()
    for finding in range(len(b)):
        low, high = _halves(result, finding)
        high *= b[finding] + c[finding]
        high += b[finding] * low
        low *= c[finding]
    return result


def back(values: Floats, b: Floats, c: Floats) -> Floats:
    """The adjoint of ``forth``."""
    result = values.copy()
    for finding in range(len(b)):
        low, high = _halves(result, finding)
        low *= c[finding]
        low += b[finding] * high
        high *= b[finding] + c[finding]
    return result


def fired(moved: Floats, values: Floats, b: Floats, c: Floats) -> Floats:
    """The weight of the cause's own firing at each finding, given what ``forth`` made: (findings, patterns).

    Firing is a move with the pull (b, 0) in place of (b, c). It puts b (low + high) on the set with the finding;
    ``forth`` left c low and (b + c) high + b low, whose sum is (b + c) (low + high). So no further pass is needed.
    """
    result = np.empty_like(b)
    for finding in range(len(b)):
        low, high = _halves(moved, finding)
        result[finding] = ((low + high) * _halves(values, finding)[1]).sum(axis=(0, 1))
    return np.asarray(result * b / (b + c))


def dot(one: Floats, other: Floats) -> Floats:
    """The inner product, pattern by pattern."""
    return np.asarray((one * other).sum(axis=0))


def left_open(values: Floats, b: Floats, c: Floats) -> tuple[Floats, Floats]:
    """What the rest makes of each finding left unexplained, and explained, by what pulls at it alone."""
    unexplained, explained = np.empty_like(b), np.empty_like(b)
    for finding in range(len(b)):
        rest = values
        for other in range(len(b) - 1, -1, -1):  # the highest bit first, so that the lower ones keep their place
            if other != finding:
                low, high = _halves(rest, other)
                rest = (low * c[other] + high * b[other]).reshape(-1, b.shape[1])
        unexplained[finding], explained[finding] = rest
    return unexplained, explained


def _halves(weights: Floats, finding: int) -> tuple[Floats, Floats]:
    """Views of the sets without the finding and with it."""
    sets, patterns = weights.shape
    pairs = weights.reshape(sets >> (finding + 1), 2, 1 << finding, patterns)
    return pairs[:, 0], pairs[:, 1]
