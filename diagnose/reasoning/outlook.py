"""What a check would show: the chance of each outcome under each hypothesis about what is behind the case."""

from collections.abc import Sequence

from diagnose.reasoning.beliefs import Beliefs
from diagnose.reasoning.network import Node
from diagnose.reasoning.trouble import Weights


def elsewhere(beliefs: Beliefs, cause: int) -> float:
    """The chance that a cause is there without being behind what is seen."""
    behind = beliefs.behind[cause]
    return max(0.0, beliefs.alive[cause] - behind) / max(1e-9, 1.0 - behind)


def likelihoods(node: Node, hypotheses: Sequence[int], beliefs: Beliefs) -> tuple[Weights, ...]:
    """One row an outcome, one column a hypothesis and a last one for "something unknown": the chance of the
    outcome where just that cause is behind the case, other causes being there as often as they otherwise are."""
    levels = len(node.outcomes)
    below = [1.0 - sum(node.leak[level:]) for level in range(levels)]
    own: dict[int, list[float]] = {}
    for cause, link in node.links.items():
        present = elsewhere(beliefs, cause)
        reach = [1.0 - sum(link[level:]) for level in range(levels)]
        shaded = [1.0 - present * (1.0 - r) for r in reach]
        below = [b * s for b, s in zip(below, shaded, strict=True)]
        own[cause] = [r / s if s else 0.0 for r, s in zip(reach, shaded, strict=True)]
    columns = [
        _steps([b * o for b, o in zip(below, own[h], strict=True)] if h in own else below) for h in hypotheses
    ]
    columns.append(_steps(below))
    return tuple(zip(*columns, strict=True))


def _steps(cumulative: Sequence[float]) -> list[float]:
    """Chances of single levels from the chances of staying at or below each."""
    return [max(0.0, c - b) for c, b in zip(cumulative, (0.0, *cumulative), strict=False)]
