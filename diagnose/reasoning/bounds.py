"""Beliefs past the width: some loud findings stay out of the sweep; what they could change is bounded.

For each finding left out, one more sweep, in which nothing explains it, tells how much of the weight of
"cause present" and of "cause absent" it takes away. Bonferroni's inequalities turn these losses into bounds for
all of them together, and their product gives the estimate. With a single finding left out both are exact.
"""

from collections.abc import Sequence
from math import exp
from typing import TypeAlias

from diagnose.reasoning.factors import Factors, Loud, log_of
from diagnose.reasoning.pulls import Pull
from diagnose.reasoning.sweep import Arithmetic, plan, sweep
from diagnose.reasoning.swept import Swept

Bounds: TypeAlias = tuple[tuple[float, float], ...]
Range: TypeAlias = tuple[float, float, float]  # least, likely, most
Loss: TypeAlias = tuple[Swept, float]  # the sweep in which nothing explains a finding, and how likely that is


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
    silent = [_silent(given, kept, loud, arithmetic) for loud in left_out]
    ratios = [exp(min(0.0, swept.log_evidence - base.log_evidence)) for swept in silent]
    losses = list(zip(silent, ratios, strict=True))
    bounds = tuple([_settle(base, losses, cause) for cause in range(len(base.present))])
    base.unknown = _unknown(base, kept, left_out, losses)
    base.log_evidence += sum(log_of(1.0 - ratio) for ratio in ratios)
    return base, bounds


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


def _unknown(base: Swept, kept: Sequence[Loud], left_out: Sequence[Loud], losses: Sequence[Loss]) -> float:
    """An estimate of ``unknown``, of the findings kept and of those left out."""
    result = _left(base.unknown, [ratio * silent.unknown for silent, ratio in losses])[1]
    for _, ratio in losses:
        result /= (1.0 - ratio) or 1.0
    result = min(result, sum(loud.lasting for loud in kept))
    for loud, (_, ratio) in zip(left_out, losses, strict=True):
        if loud.lasting and ratio < 1.0:
            result += min(1.0, _part(loud.leak.b, loud.leak) / (1.0 - ratio))
    return result


def _settle(base: Swept, losses: Sequence[Loss], cause: int) -> tuple[float, float]:
    """Put the estimates for a cause into ``base``; its bounds."""
    present = base.present[cause]
    there = _left(present, [ratio * silent.present[cause] for silent, ratio in losses])
    absent = _left(1.0 - present, [ratio * (1.0 - silent.present[cause]) for silent, ratio in losses])
    alive = _left(base.alive[cause], [ratio * silent.alive[cause] for silent, ratio in losses])
    behind = _left(base.behind[cause], [ratio * silent.behind[cause] for silent, ratio in losses])
    least, most = _share(there[0], absent[2]), _share(there[2], absent[0])
    total = (there[1] + absent[1]) or 1.0
    base.present[cause] = min(max(_share(there[1], absent[1]), least), most)
    base.alive[cause] = min(alive[1] / total, base.present[cause])
    base.behind[cause] = min(behind[1] / total, base.alive[cause])
    return least, most


def _left(weight: float, lost: Sequence[float]) -> Range:
    """What is left of a weight when all findings left out must be explained, each of which alone loses some."""
    likely = weight
    for loss in lost:
        likely *= 1.0 - min(1.0, loss / weight) if weight else 0.0
    return max(0.0, weight - sum(lost)), likely, max(0.0, weight - max(lost))


def _share(one: float, other: float) -> float:
    return one / (one + other) if one + other else 0.0
