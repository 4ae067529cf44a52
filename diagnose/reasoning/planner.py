"""The next best step: what lowers the expected cost of getting a good print.

Three layers, each better than the one below and built from it:

1. *Acting only*: fixes by chance of cure over price, re-ordered after every failure (optimal for single faults,
   one fault per action and no questions: J. Kalagnanam and M. Henrion, 1988), stopping to call where that is
   cheaper.
2. *The asking rule*: ask the question that saves most against acting only, but only where asking now also beats
   acting first and asking then.
3. *Rollout*: each candidate for the next step is charged with what the asking rule would spend after it.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from diagnose.reasoning.trouble import Action, Question, Trouble, Weights, answered, cured, failed

Step: TypeAlias = Action | Question
Actions: TypeAlias = tuple[Action, ...]
Questions: TypeAlias = tuple[Question, ...]

EPSILON = 1e-12


@dataclass(frozen=True, slots=True)
class Option:
    """A next step (None: call for help) and the expected cost of getting a good print when starting with it."""

    step: Step | None
    cost: float


def acting_only(weights: Weights, actions: Actions, call: float) -> float:
    """Expected cost of trying actions in re-ordered p/c order, calling from where that is cheaper than going on.

    Two actions may each be too dear to be tried alone and still be worth trying one after the other. With no
    ratio left above r, curing a mass G out of M takes at least G (M - G/2) / r, so that the order need not be
    run down further once that is dearer than calling.
    """
    left = list(weights)
    mass = sum(left)
    todo = list(actions)
    paid: list[tuple[float, float]] = []  # (cost, mass that still pays it)
    while todo:
        best, best_ratio, most = None, 0.0, 0.0
        for action in todo:
            gain = 0.0
            for h, chance in action.cures:
                gain += left[h] * chance
            most += gain
            if gain > best_ratio * action.cost:
                best, best_ratio = action, gain / action.cost
        if best is None or best_ratio * call <= mass - most / 2:
            break
        paid.append((best.cost, mass))
        for h, chance in best.cures:
            left[h] *= 1.0 - chance
        mass = sum(left)
        todo.remove(best)
    value = call * mass
    for cost, mass in reversed(paid):
        value = min(call * mass, value + cost * mass)
    return value


def asking_then_acting(weights: Weights, actions: Actions, question: Question, call: float) -> float:
    """Expected cost of asking this question now and only acting from then on."""
    value = question.cost * sum(weights)
    for likelihood in question.likelihoods:
        value += acting_only(answered(likelihood, weights), actions, call)
    return value


def first_action(weights: Weights, actions: Actions) -> Action | None:
    """The action with the best chance of cure over price; ties by id. None where nothing can cure."""
    best = min(actions, key=lambda a: (-cured(a, weights) / a.cost, a.id), default=None)
    return best if best is not None and cured(best, weights) > EPSILON else None


def by_the_rule(weights: Weights, actions: Actions, questions: Questions, call: float) -> Step | None:
    """The asking rule's next step; None to call for help."""
    value = acting_only(weights, actions, call)
    action = first_action(weights, actions)
    asks = [(asking_then_acting(weights, actions, q, call), q.id, q) for q in questions]
    cost, _, question = min(asks, default=(value, "", None))
    if question is None or cost >= value - EPSILON:
        return action if value < call * sum(weights) - EPSILON else None
    if action is None:
        return question
    rest = failed(action, weights)
    later = asking_then_acting(rest, _without(actions, action), question, call)
    return action if action.cost * sum(weights) + later < cost else question


@dataclass(frozen=True, slots=True)
class Spending:
    """What following the asking rule to the end costs, and how long it takes, both in expectation."""

    cost: float
    minutes: float


def following_the_rule(trouble: Trouble, *, weights: Weights, floor: float = EPSILON) -> Spending:
    """Follow the asking rule from these weights. Branches with less mass than ``floor`` are charged with acting
    only and no minutes, which bounds the work."""
    mass = sum(weights)
    if mass <= floor:
        return Spending(acting_only(weights, trouble.actions, trouble.call), 0.0)
    step = by_the_rule(weights, trouble.actions, trouble.questions, trouble.call)
    if step is None:
        return Spending(trouble.call * mass, trouble.call_minutes * mass)
    return after(trouble, step, weights, floor)


def after(trouble: Trouble, step: Step, weights: Weights, floor: float) -> Spending:
    """What taking this step and following the asking rule from then on costs."""
    mass = sum(weights)
    rest, branches = _branches(trouble, step, weights)
    parts = [following_the_rule(rest, weights=branch, floor=floor) for branch in branches]
    return Spending(
        step.cost * mass + sum([part.cost for part in parts]),
        step.minutes * mass + sum([part.minutes for part in parts]),
    )


def _branches(trouble: Trouble, step: Step, weights: Weights) -> tuple[Trouble, list[Weights]]:
    if isinstance(step, Action):
        return trouble.without(step), [failed(step, weights)]
    return trouble.without(step), [answered(likelihood, weights) for likelihood in step.likelihoods]


def options(trouble: Trouble, *, widest: int = 1_000, floor: float = EPSILON) -> list[Option]:
    """Every candidate for the next step, cheapest first: the best ``widest`` actions and as many questions by
    the layers below, and calling for help. Ties go to the cheaper step, then by id; calling comes last."""
    weights, mass = trouble.weights, sum(trouble.weights)
    actions = sorted(trouble.actions, key=lambda a: (-cured(a, weights) / a.cost, a.id))[:widest]
    asks = [(asking_then_acting(weights, trouble.actions, q, trouble.call), q.id, q) for q in trouble.questions]
    questions = [question for _, _, question in sorted(asks)[:widest]]
    narrowed = replace(trouble, questions=tuple(questions))
    candidates: Sequence[Step] = [*(a for a in actions if cured(a, weights) > EPSILON), *questions]
    found = [Option(step, after(narrowed, step, weights, floor * mass).cost) for step in candidates]
    found.append(Option(None, trouble.call * mass))
    return sorted(found, key=_rank)


def _rank(option: Option) -> tuple[float, float, str]:
    step = option.step
    return (round(option.cost, 9), step.cost if step else float("inf"), step.id if step else "")


def _without(actions: Actions, gone: Action) -> Actions:
    return tuple([action for action in actions if action is not gone])
