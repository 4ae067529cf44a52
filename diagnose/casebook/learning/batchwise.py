"""The sweep's arithmetic for many patterns at a time: one row of weights over sets of explained findings each.

``weights[p, s]`` belongs to pattern p and the set s of findings explained so far, a bit for each. The moves are those
of ``reasoning.listwise``: every term is non-negative.
"""

import numpy as np

from diagnose.casebook.learning.numbers import Floats


def start(leaks: Floats) -> Floats:
    """Each finding explained by what pulls at it alone, or not: (patterns, findings, (b, c)) to (patterns, sets)."""
    weights = np.ones((len(leaks), 1))
    for finding in range(leaks.shape[1]):
        b, c = leaks[:, finding, 0, None], leaks[:, finding, 1, None]
        weights = np.concatenate([weights * c, weights * b], axis=1)
    return weights


def forth(weights: Floats, b: Floats, c: Floats) -> Floats:
    """A present cause explains each finding with chance b, on top of those explained before. b, c: (patterns,
    findings)."""
    result = weights.copy()
    for finding in range(b.shape[1]):
        low, high = _halves(result, finding)
        own_b, own_c = b[:, finding, None, None], c[:, finding, None, None]
        high *= own_b + own_c
        high += own_b * low
        low *= own_c
    return result


def back(values: Floats, b: Floats, c: Floats) -> Floats:
    """The adjoint of ``forth``."""
    result = values.copy()
    for finding in range(b.shape[1]):
        low, high = _halves(result, finding)
        own_b, own_c = b[:, finding, None, None], c[:, finding, None, None]
        low *= own_c
        low += own_b * high
        high *= own_b + own_c
    return result


def fired(moved: Floats, values: Floats, b: Floats, c: Floats) -> Floats:
    """The weight of the cause's own firing at each finding, given what ``forth`` made: (patterns, findings).

    Firing is a move with the pull (b, 0) in place of (b, c). It puts b (low + high) on the set with the finding;
    ``forth`` left c low and (b + c) high + b low, whose sum is (b + c) (low + high). So no further pass is needed.
    """
    result = np.empty_like(b)
    for finding in range(b.shape[1]):
        low, high = _halves(moved, finding)
        _, value = _halves(values, finding)
        result[:, finding] = np.einsum("pij,pij->p", low, value) + np.einsum("pij,pij->p", high, value)
    return np.asarray(result * b / (b + c))


def dot(one: Floats, other: Floats) -> Floats:
    """The inner product, pattern by pattern."""
    return np.asarray(np.einsum("ps,ps->p", one, other))


def left_open(values: Floats, leaks: Floats) -> Floats:
    """What the rest makes of each finding left unexplained, and explained, by what pulls at it alone: (patterns,
    findings, (unexplained, explained))."""
    result = np.empty_like(leaks)
    for finding in range(leaks.shape[1]):
        rest = values
        for other in range(
            leaks.shape[1] - 1, -1, -1
        ):  # the highest bit first, so that the lower ones keep their place
            if other != finding:
                low, high = _halves(rest, other)
                rest = (low * leaks[:, other, 1, None, None] + high * leaks[:, other, 0, None, None]).reshape(
                    len(rest), -1
                )
        result[:, finding] = rest
    return result


def _halves(weights: Floats, finding: int) -> tuple[Floats, Floats]:
    """Views of the sets without the finding and with it."""
    pairs = weights.reshape(len(weights), -1, 2, 1 << finding)
    return pairs[:, :, 0, :], pairs[:, :, 1, :]
