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
from heapq import heapify, heappop, heapreplace
from typing import TypeAlias

from diagnose.reasoning.trouble import Action, PlannedQuestion, Trouble, Weights, answered, cured, failed

Step: TypeAlias = Action | PlannedQuestion
Actions: TypeAlias = tuple[Action, ...]
Questions: TypeAlias = tuple[PlannedQuestion, ...]

EPSILON = 1e-12


@dataclass(frozen=True, slots=True)
class Option:
    """A next step (None: call for help), and what getting a good print is expected to take when starting with
    it: its cost, its minutes, and the minutes of waiting besides."""

    step: Step | None
    cost: float
    minutes: float = 0.0
    waits: float = 0.0

    @property
    def kind(self) -> str:
        """``check``, ``fix`` or ``call``."""
        return "call" if self.step is None else "fix" if isinstance(self.step, Action) else "check"


def acting_only(weights: Weights, actions: Actions, call: float) -> float:
    """Expected cost of trying actions in re-ordered p/c order, calling from where that is cheaper than going on."""
    tried, left = acting_plan(weights, actions, call)
    return sum([action.cost * mass for action, mass in tried]) + call * left


def acting_plan(weights: Weights, actions: Actions, call: float) -> tuple[list[tuple[Action, float]], float]:
    """The actions worth trying, in order, each with the mass that gets to it, and the mass left to call.

    A gain only ever falls as other actions are tried, so a stale rank is an upper bound, and the order needs
    ranking anew only where the best rank turns out to be stale. Two actions may each be too dear to be tried
    alone and still be worth trying one after the other: with no ratio left above r, curing a mass G out of M
    takes at least G (M - G/2) / r, so the order is run down until that is dearer than calling.
    """
    left = list(weights)
    mass = sum(left)
    gains = [_gain(action.cures, left) for action in actions]
    heap = [(-gain / action.cost, i) for i, (action, gain) in enumerate(zip(actions, gains, strict=True)) if gain > 0]
    heapify(heap)
    most = sum(gains)
    tried: list[tuple[Action, float]] = []
    while heap:
        stale, i = heap[0]
        action = actions[i]
        gain = _gain(action.cures, left)
        most -= gains[i] - gain
        gains[i] = gain
        rank = -gain / action.cost
        if rank > stale + EPSILON:
            heapreplace(heap, (rank, i))
            continue
        if -rank * call <= mass - most / 2:
            break
        heappop(heap)
        most -= gain
        tried.append((action, mass))
        for h, chance in action.cures:
            left[h] *= 1.0 - chance
        mass = sum(left)
    return _stopped(tried, mass, call)


def _stopped(tried: list[tuple[Action, float]], mass: float, call: float) -> tuple[list[tuple[Action, float]], float]:
    """The part of the order that is worth going through, and the mass left after it."""
    value, keep, left = call * mass, len(tried), mass
    for i in range(len(tried) - 1, -1, -1):
        action, mass = tried[i]
        value += action.cost * mass
        if call * mass <= value:
            value, keep, left = call * mass, i, mass
    return tried[:keep], left


def _gain(cures: tuple[tuple[int, float], ...], left: list[float]) -> float:
    if len(cures) == 1:
        h, chance = cures[0]
        return left[h] * chance
    return sum([left[h] * chance for h, chance in cures])


def asking_then_acting(weights: Weights, actions: Actions, question: PlannedQuestion, call: float) -> float:
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
    """What following the asking rule to the end costs, how long it takes, and how long is waited besides, all in
    expectation."""

    cost: float
    minutes: float
    waits: float = 0.0


def just_acting(trouble: Trouble, weights: Weights) -> Spending:
    """What acting only spends from these weights."""
    tried, left = acting_plan(weights, trouble.actions, trouble.call)
    return Spending(
        sum([action.cost * mass for action, mass in tried]) + trouble.call * left,
        sum([action.minutes * mass for action, mass in tried]) + trouble.call_minutes * left,
        sum([action.waits * mass for action, mass in tried]),
    )


def following_the_rule(trouble: Trouble, *, weights: Weights, floor: float = EPSILON) -> Spending:
    """Follow the asking rule from these weights. Branches with less mass than ``floor`` are charged with acting
    only, which bounds the work."""
    mass = sum(weights)
    if mass <= floor:
        return just_acting(trouble, weights)
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
        step.waits * mass + sum([part.waits for part in parts]),
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
    spendings = [(step, after(narrowed, step, weights, floor * mass)) for step in candidates]
    found = [Option(step, spending.cost, spending.minutes, spending.waits) for step, spending in spendings]
    found.append(Option(None, trouble.call * mass, trouble.call_minutes * mass))
    return sorted(found, key=_rank)


def _rank(option: Option) -> tuple[float, float, str]:
    step = option.step
    return (round(option.cost, 9), step.cost if step else float("inf"), step.id if step else "")


def _without(actions: Actions, gone: Action) -> Actions:
    return tuple([action for action in actions if action is not gone])
