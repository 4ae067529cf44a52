"""The least expected cost there is, by dynamic programming over every state: for small troubles."""

from typing import Any

import numpy as np

from diagnose.reasoning.planner import Step
from diagnose.reasoning.trouble import PlannedQuestion, Trouble


def optimum(trouble: Trouble) -> float:
    """The expected cost of the best plan, calling included.

    A state says which actions were tried in vain and which outcome each question had, one digit a step; there
    are 2^actions times (outcomes + 1)^questions of them, so keep it small. Every step leads one level deeper.
    """
    steps: tuple[Step, ...] = (*trouble.actions, *trouble.questions)
    factors = [_factors(step, len(trouble.weights)) for step in steps]
    shape = [len(rows) for rows in factors]
    digits = np.indices(shape).reshape(len(shape), -1) if steps else np.zeros((0, 1), dtype=int)
    weights = np.repeat(np.array([trouble.weights]), digits.shape[1], axis=0)
    for digit, rows in zip(digits, factors, strict=True):
        weights *= rows[digit]
    mass = weights.sum(axis=1)
    value = trouble.call * mass
    strides = [int(np.prod(shape[place + 1 :], initial=1)) for place in range(len(shape))]
    level = (digits > 0).sum(axis=0)
    for depth in reversed(range(len(steps))):
        for digit, stride, rows, step in zip(digits, strides, factors, steps, strict=True):
            here = np.flatnonzero((level == depth) & (digit == 0))
            after = sum(value[here + stride * outcome] for outcome in range(1, len(rows)))
            value[here] = np.minimum(value[here], step.cost * mass[here] + after)
    return float(value[0])


def _factors(step: Step, hypotheses: int) -> Any:
    """What each digit of a step does to the weights: 1 where it was not taken, then one row an outcome."""
    untaken = np.ones(hypotheses)
    if isinstance(step, PlannedQuestion):
        return np.array([untaken, *step.likelihoods])
    in_vain = np.ones(hypotheses)
    for hypothesis, chance in step.cures:
        in_vain[hypothesis] = 1.0 - chance
    return np.array([untaken, in_vain])
