"""What is known of a case so far: defects seen or not, answers to checks, fixes tried, in their order.

"Cannot tell" is no evidence and has no value here. Each fix tried opens a new period: what is observed after
it speaks of the causes that outlived it.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

BETTER, SAME = "better", "same"
NAMED = "named"  # what a cause weighs by that the person names, in place of a measure
# How many times as often a cause is named where it is there: judgement, not measured. A person at the press who names a
# cause is right more often than not, so that one of several likely causes comes first by it; but a bare guess at a rare
# one does not outweigh what is seen.
NAMED_RATIO = 8.0
LATELY = "lately"  # what a cause weighs by that was found on this press lately
THEN = "then "  # before what was so at the last good piece: the measure of holding one against the other


@dataclass(frozen=True, slots=True)
class Tried:
    """A fix that was tried and did not cure all. ``change`` is ``better``, ``same`` or "" (not said);
    ``gone`` names the defects that were seen before it and no longer after it."""

    fix: str
    change: str = ""
    gone: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Weighed:
    """What a measured figure says of one cause: how many times as often such a figure shows where the cause is there
    (``ratio``, above 0). ``measure`` names what was measured, or is ``NAMED`` where the person named the cause,
    ``LATELY`` where the shop found it lately, or begins with ``THEN``; the period is that of ``Evidence.answers``."""

    measure: str
    cause: str
    ratio: float
    period: int = 0

    @property
    def there(self) -> float:
        """The weight of the cause being there; the larger of the two weights is 1."""
        return min(1.0, self.ratio)

    @property
    def absent(self) -> float:
        return min(1.0, 1.0 / self.ratio)


@dataclass(frozen=True, slots=True)
class Evidence:
    """``seen`` and ``not_seen`` name defects; ``answers`` maps a check to (outcome, period), where the
    period is the number of fixes tried before the answer was given. ``weighed``: what measured figures say,
    and the causes that the person named. ``again``: by check, how many times over the same answer was given."""

    seen: tuple[str, ...] = ()
    not_seen: tuple[str, ...] = ()
    answers: Mapping[str, tuple[str, int]] = field(default_factory=dict)
    tried: tuple[Tried, ...] = ()
    weighed: tuple[Weighed, ...] = ()
    again: Mapping[str, int] = field(default_factory=dict)

    @property
    def period(self) -> int:
        return len(self.tried)

    @property
    def gone(self) -> frozenset[str]:
        """The defects that some fix has made go away."""
        return frozenset(defect for tried in self.tried for defect in tried.gone)

    @property
    def left(self) -> tuple[str, ...]:
        """The defects that are still there."""
        return tuple(defect for defect in self.seen if defect not in self.gone)

    def times(self, check: str) -> int:
        """How many times over the answer to a check was given, each time from a look of its own."""
        return self.again.get(check, 1)

    def with_answer(self, check: str, outcome: str, *, looked_again: bool = False) -> "Evidence":
        """The answer now given takes the place of an earlier one; where both say the same after another look, they
        stand together."""
        given = (outcome, self.period)
        again = {other: times for other, times in self.again.items() if other != check}
        if looked_again and self.answers.get(check) == given:
            again[check] = self.times(check) + 1
        return replace(self, answers={**self.answers, check: given}, again=again)

    def with_named(self, cause: str) -> "Evidence":
        """The person names a cause. Named again, it counts once, from then on."""
        others = tuple(one for one in self.weighed if (one.measure, one.cause) != (NAMED, cause))
        named = (*others, Weighed(NAMED, cause, NAMED_RATIO, self.period))
        return replace(self, weighed=tuple(sorted(named, key=lambda one: one.cause)))

    @property
    def named(self) -> tuple[tuple[str, int], ...]:
        """The causes that the person named, each with the period it was named in."""
        return tuple((one.cause, one.period) for one in self.weighed if one.measure == NAMED)
