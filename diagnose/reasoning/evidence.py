"""What is known of a case so far: defects seen or not, answers to checks, fixes tried, in their order.

"Cannot tell" is no evidence and has no value here. Each fix tried opens a new period: what is observed after
it speaks of the causes that outlived it.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

BETTER, SAME = "better", "same"


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
    (``ratio``, above 0). ``measure`` names what was measured; the period is that of ``Evidence.answers``."""

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
    period is the number of fixes tried before the answer was given. ``weighed``: what measured figures say."""

    seen: tuple[str, ...] = ()
    not_seen: tuple[str, ...] = ()
    answers: Mapping[str, tuple[str, int]] = field(default_factory=dict)
    tried: tuple[Tried, ...] = ()
    weighed: tuple[Weighed, ...] = ()

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

    def with_answer(self, check: str, outcome: str) -> "Evidence":
        return replace(self, answers={**self.answers, check: (outcome, self.period)})
