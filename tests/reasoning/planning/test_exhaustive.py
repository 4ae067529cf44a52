"""The yardstick itself: dynamic programming over states agrees with trying every course of events."""

from dataclasses import replace

import pytest
from hypothesis import given, settings

from diagnose.reasoning.trouble import Trouble, answered, failed
from tests.reasoning.planning.exhaustive import optimum
from tests.reasoning.planning.instances import FEW_QUESTIONS, instance, troubles
from tests.reasoning.planning.policy import asking_rule, cost, only_acting, rollout


def every_course(trouble: Trouble) -> float:
    """The same optimum without states: every step tried everywhere, recursively."""
    mass = sum(trouble.weights)
    costs = [trouble.call * mass]
    for action in trouble.actions:
        rest = replace(trouble.without(action), weights=failed(action, trouble.weights))
        costs.append(action.cost * mass + every_course(rest))
    for question in trouble.questions:
        rest = trouble.without(question)
        parts = [every_course(replace(rest, weights=answered(row, trouble.weights))) for row in question.likelihoods]
        costs.append(question.cost * mass + sum(parts))
    return min(costs)


@pytest.mark.parametrize("seed", range(6))
def test_the_optimum_is_the_least_of_every_course(seed: int) -> None:
    trouble = instance(seed, 4, 3, 2)
    assert optimum(trouble) == pytest.approx(every_course(trouble), abs=1e-12)


@settings(max_examples=40, deadline=None)
@given(trouble=troubles())
def test_no_policy_beats_the_optimum(trouble: Trouble) -> None:
    best = optimum(trouble)
    assert all(cost(trouble, policy) >= best - 1e-9 for policy in (only_acting, asking_rule, rollout))


@pytest.mark.parametrize("seed", range(5))
def test_no_policy_beats_the_optimum_of_larger_troubles(seed: int) -> None:
    trouble = instance(seed, *FEW_QUESTIONS)
    assert cost(trouble, rollout) >= optimum(trouble) - 1e-9
