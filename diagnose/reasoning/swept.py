"""What a sweep finds, cause by cause."""

from collections.abc import Mapping
from dataclasses import dataclass

from diagnose.reasoning.factors import ALIVE, Factors


@dataclass(slots=True)
class Swept:
    """``alive[i]``: cause i is present and still there; ``present[i]``: it was present, put right since or
    not; ``behind[i]``: it is there and helped to bring on a defect that is still seen. ``unknown`` is the
    expected number of lasting defects with something unknown behind them."""

    alive: list[float]
    present: list[float]
    behind: list[float]
    unknown: float
    log_evidence: float

    @classmethod
    def quietly(cls, given: Factors) -> "Swept":
        """What the quiet factors say, before any loud finding is looked at."""
        priors = list(given.priors)
        swept = cls(priors, priors[:], [0.0] * len(priors), 0.0, given.log_quiet)
        for cause, modes in given.modes.items():
            swept.put(cause, given.absent[cause], modes, 0.0)
        return swept

    def put(self, cause: int, absent: float, shares: Mapping[int, float], behind: float) -> None:
        """Set down a cause, given the weights of its absence, of each death, and of being behind the case."""
        there = sum(shares.values())
        total = (absent + there) or 1.0
        self.alive[cause] = shares[ALIVE] / total
        self.present[cause] = there / total
        self.behind[cause] = behind / total
