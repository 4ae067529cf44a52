"""Beliefs past the width: some loud findings stay out of the sweep; what they could change is bounded.

For each finding left out, one more sweep, in which nothing explains it, tells how much of the weight of
"cause present" and of "cause absent" it takes away. Bonferroni's inequalities turn these losses into bounds for
all of them together, and their product gives the estimate. With a single finding left out both are exact. Where even
that is too much work, the heaviest are left aside altogether, and the bounds say nothing any more.
"""

from bisect import bisect_right
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from functools import cache
from math import exp
from typing import TypeAlias

from diagnose.reasoning.factors import Factors, Loud, log_of
from diagnose.reasoning.pulls import Pull
from diagnose.reasoning.sweep import A_FOLD, Arithmetic, effort, plan, sweep
from diagnose.reasoning.swept import Swept

MOST_LOUD = 256  # findings that are looked at at all; planning grows with the square of their number
Bounds: TypeAlias = tuple[tuple[float, float], ...]
Range: TypeAlias = tuple[float, float, float]  # least, likely, most
Loss: TypeAlias = tuple[Swept, float]  # the sweep in which nothing explains a finding, and how likely that is


@dataclass(frozen=True, slots=True)
class Division:
    """The loud findings: those in the sweep, those left out of it, and those too many even for that."""

    kept: Sequence[Loud]
    left_out: Sequence[Loud] = ()
    aside: Sequence[Loud] = ()

    @property
    def exact(self) -> bool:
        return not (self.left_out or self.aside)

    def of(self, louds: Sequence[Loud]) -> "Division":
        """The same division of the loud findings of other evidence, of which none is new."""
        left_out, aside = ({loud.id for loud in part} for part in (self.left_out, self.aside))
        return Division(
            [loud for loud in louds if loud.id not in left_out | aside],
            [loud for loud in louds if loud.id in left_out - aside],
            [loud for loud in louds if loud.id in aside],
        )


def within(given: Factors, widest: int, most: int) -> Division:
    """The loud findings divided so that the width and the work are kept to. Left out are answers before defects
    still seen, and those that touch most causes first."""
    lightest = sorted(given.loud, key=lambda loud: (not loud.lasting, len(loud.pulls), loud.id))
    ranked, aside = lightest[:MOST_LOUD], lightest[MOST_LOUD:]

    @cache
    def needs(count: int) -> tuple[int, int]:
        width, work = effort(given, ranked[:count])
        return width, work + A_FOLD * len(given.modes)

    reach = 1
    while reach < len(ranked) and needs(reach)[0] <= widest:
        reach *= 2
    count = bisect_right(range(min(reach, len(ranked)) + 1), widest, key=lambda n: needs(n)[0]) - 1
    less = 1
    while count > 1 and needs(count)[1] * (1 + len(ranked) - count) > most:
        count, less = max(1, count - less), 2 * less
    more = max(0, most // (needs(count)[1] or 1) - 1)
    left_out, further = ranked[count:][:more], ranked[count:][more:]
    return Division(ranked[:count], left_out[::-1], [*further, *aside])


def bound(
    given: Factors, division: Division, arithmetic: Arithmetic, wanted: Collection[int] | None = None
) -> tuple[Swept, Bounds]:
    """Estimates of all that a sweep finds, and bounds on ``present``; of the causes wanted only, where any are."""
    kept, left_out = division.kept, division.left_out
    for loud in left_out:
        given = given.reweighed(loud, _possible)
    base = _swept(given, kept, arithmetic, wanted)
    silent = [_swept(given.reweighed(loud, _unexplained), kept, arithmetic, wanted) for loud in left_out]
    ratios = [exp(min(0.0, swept.log_evidence - base.log_evidence)) for swept in silent]
    losses = list(zip(silent, ratios, strict=True))
    bounds = tuple([_settle(base, losses, cause) for cause in (wanted or range(len(base.present)))]) if losses else ()
    if division.aside:
        bounds = ((0.0, 1.0),) * len(base.present)
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


def _swept(given: Factors, louds: Sequence[Loud], arithmetic: Arithmetic, wanted: Collection[int] | None) -> Swept:
    return sweep(given, plan(given, louds, wanted)[0], arithmetic, wanted)


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
    return max(0.0, weight - sum(lost)), likely, max(0.0, weight - max(lost, default=0.0))


def _share(one: float, other: float) -> float:
    return one / (one + other) if one + other else 0.0
