"""Beliefs past the width: some loud findings stay out of the sweep; what they could change is bounded.

For each finding left out, one more sweep, in which nothing explains it, tells how much of the weight of
"cause present" and of "cause absent" it takes away. Bonferroni's inequalities turn these losses into bounds for
all of them together, and their product gives the estimate. With a single finding left out both are exact.
"""

from collections.abc import Sequence
from math import exp
from typing import TypeAlias

from diagnose.reasoning.factors import Factors, Loud, Pull, log_of
from diagnose.reasoning.sweep import Arithmetic, plan, sweep
from diagnose.reasoning.swept import Swept

Bounds: TypeAlias = tuple[tuple[float, float], ...]
Range: TypeAlias = tuple[float, float, float]  # least, likely, most


def within(given: Factors, widest: int) -> tuple[list[Loud], list[Loud]]:
    """The loud findings that fit the width, and those left out: answers before defects still seen, and those
    that touch most causes first."""
    kept = list(given.loud)
    left_out: list[Loud] = []
    while plan(given, kept)[1] > widest:
        heaviest = max(kept, key=lambda loud: (not loud.lasting, len(loud.pulls), loud.id))
        kept.remove(heaviest)
        left_out.append(heaviest)
    return kept, left_out


def bound(
    given: Factors, kept: Sequence[Loud], left_out: Sequence[Loud], arithmetic: Arithmetic
) -> tuple[Swept, Bounds]:
    """Estimates of all that a sweep finds, and bounds on ``present``."""
    for loud in left_out:
        given = given.reweighed(loud, _possible)
    base = sweep(given, plan(given, kept)[0], arithmetic)
    quiet = [_silent(given, kept, loud, arithmetic) for loud in left_out]
    ratios = [exp(min(0.0, swept.log_evidence - base.log_evidence)) for swept in quiet]
    bounds = []
    for cause, present in enumerate(base.present):
        pairs = [(swept.present[cause], ratio) for swept, ratio in zip(quiet, ratios, strict=True)]
        with_cause = _left([_loss(ratio * p, present) for p, ratio in pairs])
        without = _left([_loss(ratio * (1.0 - p), 1.0 - present) for p, ratio in pairs])
        bounds.append(_settled(base, cause, with_cause, without))
    for loud, ratio in zip(left_out, ratios, strict=True):
        explained = 1.0 - min(1.0, ratio)
        base.log_evidence += log_of(explained)
        if loud.lasting and explained:
            base.unknown += min(1.0, _part(loud.leak.b, loud.leak) / explained)
    return base, tuple(bounds)


def _possible(pull: Pull) -> float:
    """The chance that a pull does not contradict the finding."""
    return pull.b + pull.c


def _unexplained(pull: Pull) -> float:
    return _part(pull.c, pull)


def _part(part: float, pull: Pull) -> float:
    return part / _possible(pull) if part else 0.0


def _silent(given: Factors, kept: Sequence[Loud], loud: Loud, arithmetic: Arithmetic) -> Swept:
    """The sweep in which nothing explains the finding."""
    silent = given.reweighed(loud, _unexplained)
    return sweep(silent, plan(silent, kept)[0], arithmetic)


def _loss(lost: float, weight: float) -> float:
    return min(1.0, lost / weight) if weight > 0.0 else 1.0


def _left(losses: Sequence[float]) -> Range:
    """Least, likely and most of the weight that is left when every finding left out must be explained."""
    likely = 1.0
    for loss in losses:
        likely *= 1.0 - loss
    return max(0.0, 1.0 - sum(losses)), likely, 1.0 - max(losses)


def _settled(base: Swept, cause: int, with_cause: Range, without: Range) -> tuple[float, float]:
    """Put the estimates for a cause into ``base``; its bounds."""
    present = base.present[cause]
    least = _share(present * with_cause[0], (1.0 - present) * without[2])
    most = _share(present * with_cause[2], (1.0 - present) * without[0])
    likely = _share(present * with_cause[1], (1.0 - present) * without[1])
    estimate = min(max(likely, least), most)
    if present:
        base.alive[cause] = min(estimate, base.alive[cause] * estimate / present)
        base.behind[cause] = min(base.alive[cause], base.behind[cause] * estimate / present)
    base.present[cause] = estimate
    return least, most


def _share(one: float, other: float) -> float:
    return one / (one + other) if one + other else 0.0
