"""What a policy costs in expectation, worked out exactly by following every branch to its end."""

from collections.abc import Callable
from dataclasses import replace
from typing import TypeAlias

from diagnose.reasoning.planner import (
    EPSILON,
    Spending,
    Step,
    acting_only,
    by_the_rule,
    first_action,
    options,
)
from diagnose.reasoning.trouble import Action, Trouble, answered, failed

Policy: TypeAlias = Callable[[Trouble], Step | None]


def spending(trouble: Trouble, choose: Policy) -> Spending:
    """The expected cost and minutes of doing what ``choose`` says in every state, to the end."""
    return _following(trouble, choose, (), {})


def cost(trouble: Trouble, choose: Policy) -> float:
    """The expected cost alone."""
    return spending(trouble, choose).cost


_History: TypeAlias = tuple[tuple[str, int], ...]


def _following(trouble: Trouble, choose: Policy, history: _History, known: dict[_History, Spending]) -> Spending:
    if history not in known:
        known[history] = _one_step(trouble, choose, history, known)
    return known[history]


def _one_step(trouble: Trouble, choose: Policy, history: _History, known: dict[_History, Spending]) -> Spending:
    mass = sum(trouble.weights)
    if mass <= EPSILON:
        return Spending(0.0, 0.0)
    step = choose(trouble)
    if step is None:
        return Spending(trouble.call * mass, trouble.call_minutes * mass)
    if isinstance(step, Action):
        branches = [failed(step, trouble.weights)]
    else:
        branches = [answered(likelihood, trouble.weights) for likelihood in step.likelihoods]
    rest = trouble.without(step)
    parts = [
        _following(replace(rest, weights=weights), choose, tuple(sorted((*history, (step.id, outcome)))), known)
        for outcome, weights in enumerate(branches)
    ]
    return Spending(
        step.cost * mass + sum(part.cost for part in parts),
        step.minutes * mass + sum(part.minutes for part in parts),
    )


def only_acting(trouble: Trouble) -> Step | None:
    """Fixes in re-ordered p/c order, no question ever; calling where that is cheaper."""
    goes_on = (
        acting_only(trouble.weights, trouble.actions, trouble.call) < trouble.call * sum(trouble.weights) - EPSILON
    )
    return first_action(trouble.weights, trouble.actions) if goes_on else None


def asking_rule(trouble: Trouble) -> Step | None:
    return by_the_rule(trouble.weights, trouble.actions, trouble.questions, trouble.call)


def rollout(trouble: Trouble) -> Step | None:
    """The planner as it is, with every candidate and every branch."""
    return options(trouble)[0].step
