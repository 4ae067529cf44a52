"""The planner's view of a case: which cause is behind it, what may be done, what may be asked, what each costs.

Weights are masses: they need not sum to 1, and a cost-to-go is linear in them, so that branches simply add up.
A hypothesis is one cause to be found next (or something unknown); an action cures a hypothesis with some chance
and is not repeated; a question has outcomes with a likelihood under each hypothesis; calling for help ends it.
"""

from dataclasses import dataclass, replace
from typing import TypeAlias

Weights: TypeAlias = tuple[float, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Action:
    """``cures``: (hypothesis, chance) pairs, chance > 0. ``cost``, above 0, includes the test press that follows.
    ``waits``: minutes with no hand in it, besides ``minutes``."""

    id: str
    cost: float
    cures: tuple[tuple[int, float], ...]
    minutes: float = 0.0
    waits: float = 0.0


@dataclass(frozen=True, slots=True, eq=False)
class PlannedQuestion:
    """``likelihoods[o][h]`` is the chance of outcome o under hypothesis h; over o they sum to 1."""

    id: str
    cost: float
    likelihoods: tuple[Weights, ...]
    minutes: float = 0.0
    waits: float = 0.0


@dataclass(frozen=True, slots=True)
class Trouble:
    """A troubleshooting problem. ``call`` is the price of calling for help, in the same money as the rest."""

    weights: Weights
    actions: tuple[Action, ...]
    questions: tuple[PlannedQuestion, ...]
    call: float
    call_minutes: float = 0.0

    def without(self, step: Action | PlannedQuestion) -> "Trouble":
        """The same trouble once this step has been taken."""
        return replace(
            self,
            actions=tuple([action for action in self.actions if action is not step]),
            questions=tuple([question for question in self.questions if question is not step]),
        )


def cured(action: Action, weights: Weights) -> float:
    """The mass that the action cures."""
    return sum([weights[h] * chance for h, chance in action.cures])


def failed(action: Action, weights: Weights) -> Weights:
    """The masses left where the action was tried and did not cure."""
    left = list(weights)
    for h, chance in action.cures:
        left[h] *= 1.0 - chance
    return tuple(left)


def answered(likelihood: Weights, weights: Weights) -> Weights:
    """The masses where an outcome with this likelihood was seen."""
    return tuple([w * p for w, p in zip(weights, likelihood, strict=True)])
