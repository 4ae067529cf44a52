"""What measured figures say of causes, as the knowledge has it."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from math import log1p

from diagnose.knowledge.entry import CauseId, CautionId, Chance, CheckId, Entry

LEAST_PERCENT = -99.0  # nothing is less than nothing
PERCENT = "%"
UNITS: Mapping[str, str] = {  # of each measure, as its marks and its error are written
    "platen-gap": "°C",
    "set-gap": "°C",
    "dwell-gap": PERCENT,
    "clock-gap": PERCENT,
    "layers": "sheets",
    "layers-dose": PERCENT,
    "thickness-dose": PERCENT,
    "stack-gap": "°C",
    "lightness": "L*",
    "chroma": "C*",
    "hue": "H*",
    "yellowness": "b*",
}


def held(measure: str, written: float) -> float:
    """A number of a measure as it is reckoned with: a share more or less as the logarithm of the quotient."""
    if UNITS.get(measure) != PERCENT:
        return written
    return log1p(max(written, LEAST_PERCENT) / 100.0)


@dataclass(frozen=True, slots=True)
class Mark:
    """How often a figure lies ``at`` or further out: in jobs where the cause is ``there``, and ``otherwise`` in jobs on
    the bench where it is not."""

    at: float
    there: Chance
    otherwise: Chance


@dataclass(frozen=True, slots=True, kw_only=True)
class Speaks:
    """From where on a figure speaks for a cause, the marks in the order outward. It stands ``under`` them, ``over``
    them, or ``either`` way: one of the three."""

    under: tuple[Mark, ...] = ()
    over: tuple[Mark, ...] = ()
    either: tuple[Mark, ...] = ()

    @property
    def marks(self) -> tuple[Mark, ...]:
        return self.under or self.over or self.either

    def out(self, value: float) -> float:
        """How far out a value lies: the greater, the more it speaks for the cause."""
        return -value if self.under else value if self.over else abs(value)

    @property
    def bands(self) -> tuple[tuple[float, float], ...]:
        """How often a figure lies between two marks, with the cause and without it: the first within the innermost
        mark, the last beyond the outermost."""
        chances = ((1.0, 1.0), *((mark.there.value, mark.otherwise.value) for mark in self.marks), (0.0, 0.0))
        return tuple((one[0] - two[0], one[1] - two[1]) for one, two in pairwise(chances))


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

    @property
    def unit(self) -> str:
        return UNITS[self.id]
