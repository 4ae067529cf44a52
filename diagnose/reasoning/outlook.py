"""What a check would show: the chance of each outcome under each hypothesis about what is behind the case."""

from collections.abc import Sequence
from math import log

from diagnose.reasoning.beliefs import Beliefs
from diagnose.reasoning.network import FindingNode
from diagnose.reasoning.trouble import Weights

TINY = 1e-9


def at_work(beliefs: Beliefs) -> float:
    """How many things are behind what is seen, in expectation: causes and the unknown."""
    return sum(beliefs.behind) + beliefs.unknown


def beside(beliefs: Beliefs, cause: int, count: float) -> float:
    """The chance that a cause is there beside the one that is dealt with next.

    It may be there without being behind what is seen, or be behind it as well: where one thing is at work, the
    hypotheses shut each other out; where ``count`` are, each has a place fewer to be in, and a cause that is
    certain stays certain whichever comes next.
    """
    behind = beliefs.behind[cause]
    apart = max(0.0, beliefs.alive[cause] - behind) / max(TINY, 1.0 - behind)
    too = _too(behind, count)
    return min(1.0, too + (1.0 - too) * apart)


def firsts(behind: Sequence[float], other: float) -> list[float]:
    """The chance of each that it is at work and none before it is. ``other``: what else may be at work.

    Where one thing is at work these are the chances themselves. Where several are, a cause that is all but certain is
    the one to go for, whatever is there beside it: by its share of all it would count for a half or a third.
    """
    weights, left, rest = [], 1.0, [*behind, min(1.0, other)]
    while len(rest) > 1:
        first, count = rest[0], sum(rest)
        weights.append(left * first)
        left *= 1.0 - first
        rest = [_without(first, chance, count) for chance in rest[1:]]
    return weights


def _without(first: float, chance: float, count: float) -> float:
    """The chance that one thing is at work where another is not."""
    return min(1.0, (chance - first * _too(chance, count)) / max(TINY, 1.0 - first))


def _too(behind: float, count: float) -> float:
    """The chance that one thing is at work where another is: each has a place fewer to be in."""
    return behind * max(0.0, count - 1.0) / max(TINY, count - behind)


def likelihoods(node: FindingNode, hypotheses: Sequence[int], beliefs: Beliefs) -> tuple[Weights, ...]:
    """One row an outcome, one column a hypothesis and a last one for "something unknown": the chance of the
    outcome where that cause is dealt with next, the others being there as often as they are beside it."""
    levels = len(node.outcomes)
    below = [1.0 - sum(node.leak[level:]) for level in range(levels)]
    own: dict[int, list[float]] = {}
    count = at_work(beliefs)
    for cause, link in node.links.items():
        present = beside(beliefs, cause, count)
        reach = [1.0 - sum(link[level:]) for level in range(levels)]
        shaded = [1.0 - present * (1.0 - r) for r in reach]
        below = [b * s for b, s in zip(below, shaded, strict=True)]
        own[cause] = [r / s if s else 0.0 for r, s in zip(reach, shaded, strict=True)]
    columns = [_steps([b * o for b, o in zip(below, own[h], strict=True)] if h in own else below) for h in hypotheses]
    columns.append(_steps(below))
    return tuple(zip(*columns, strict=True))


def _steps(cumulative: Sequence[float]) -> list[float]:
    """Chances of single levels from the chances of staying at or below each."""
    return [max(0.0, c - b) for c, b in zip(cumulative, (0.0, *cumulative), strict=False)]


def told(rows: Sequence[Weights], weights: Weights) -> float:
    """How much the outcomes tell about the hypotheses: their mutual information, in nats. Weights sum to 1."""
    result = 0.0
    for row in rows:
        chance = sum([w * p for w, p in zip(weights, row, strict=True)])
        for w, p in zip(weights, row, strict=True):
            if w * p > 0.0:
                result += w * p * log(p / chance)
    return result
