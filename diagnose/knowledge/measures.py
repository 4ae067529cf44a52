"""What measured figures say of causes, as the knowledge has it."""

from collections.abc import Mapping
from dataclasses import dataclass

from diagnose.knowledge.entry import CauseId, CautionId, CheckId, Entry


@dataclass(frozen=True, slots=True)
class Hump:
    """Where a measure tends to lie: a normal curve by its mean and spread (one standard deviation), and its share of
    all such jobs."""

    mean: float
    spread: float
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class Speaks:
    """What a measure looks like where a cause is there, and in jobs on the bench where it is not."""

    there: tuple[Hump, ...]
    otherwise: tuple[Hump, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure(Entry):
    """What can be read off an instrument instead of judged by eye. ``error``: how far it usually misses (one standard
    deviation, in the unit of the measure). ``settles``: checks whose answer the figure takes the place of."""

    how: tuple[str, ...]
    needs: tuple[str, ...] = ()
    minutes: float
    error: float
    settles: tuple[CheckId, ...] = ()
    speaks: Mapping[CauseId, Speaks]
    cautions: tuple[CautionId, ...] = ()
