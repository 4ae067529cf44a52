"""What becomes of a piece that is spoiled: what can be done with it, and how often it comes out well."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final

from diagnose.knowledge.conditions import ALWAYS, Condition, Job, Usual
from diagnose.knowledge.entry import CautionId, Chance, DefectId, Entry

CLEAN_UP, PRESS_AGAIN, PRINT_OVER, SECOND, DISCARD = "clean-up", "press-again", "print-over", "second", "discard"
WAYS: Final = (CLEAN_UP, PRESS_AGAIN, PRINT_OVER, SECOND)  # that a file may speak of; to discard it is always open


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One thing to do with the piece: how often it can be sold afterwards (0: never), how, or why not. ``minutes``
    beside those of a press."""

    comes_out: Chance = Chance(0.0)
    minutes: float = 0.0
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Salvage(Entry):
    """What becomes of a piece with one of some defects, by the names of ``WAYS``. Of those that speak of a defect the
    first whose condition holds for the goods counts."""

    defects: tuple[DefectId, ...]
    condition: Condition = ALWAYS
    why: str
    ways: Mapping[str, Way]
    cautions: tuple[CautionId, ...] = ()


def salvage_of(known: Iterable[Salvage], defect: str, job: Job) -> Salvage | None:
    """What becomes of a piece with this defect; None where nothing is said of it. What is usual of the goods is taken
    as so; what nobody knows of them fits no condition."""
    usual = {fact: value.value if isinstance(value, Usual) else value for fact, value in job.items()}
    speaking = (each for each in known if defect in each.defects)
    return next((each for each in speaking if each.condition.holds(usual)), None)
