"""What a sweep finds, cause by cause."""

from dataclasses import dataclass

from diagnose.reasoning.factors import Factors
from diagnose.reasoning.pulls import ALIVE


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
        alive, present = list(given.priors), list(given.priors)
        for cause, modes in given.modes.items():
            alive[cause] = modes[ALIVE]
            present[cause] = sum(modes.values())
        return cls(alive, present, [0.0] * len(alive), 0.0, given.log_quiet)

    def put(self, cause: int, absent: float, there: float, alive: float, behind: float) -> None:
        """Set down a cause, given the weights of its absence, of having been there, of being there still, and
        of being behind the case."""
        total = (absent + there) or 1.0
        self.alive[cause] = alive / total
        self.present[cause] = there / total
        self.behind[cause] = (min(alive, behind)) / total
