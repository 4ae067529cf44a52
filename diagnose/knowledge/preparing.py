"""What is done round a press: how goods are made ready and laid, what should be so before the platen closes, and what
becomes of a piece that is spoiled."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Final

from diagnose.knowledge.conditions import ALWAYS, Condition, Job, Usual
from diagnose.knowledge.entry import NEVER, CauseId, CautionId, Chance, DefectId, Entry, stands

PARTS: Final = ("pre-press", "face", "artwork", "held", "cover", "pad", "peel")
ITEMS_PARTS: Final = PARTS[1:-1]  # of which an item may say otherwise; its pre-press and peel are settings of its own
CLEAN_UP, PRESS_AGAIN, PRINT_OVER, SECOND, DISCARD = "clean-up", "press-again", "print-over", "second", "discard"
WAYS: Final = (CLEAN_UP, PRESS_AGAIN, PRINT_OVER, SECOND)  # that a file may speak of; to discard it is always open


@dataclass(frozen=True, slots=True, kw_only=True)
class Handling(Entry):
    """One part of how goods are pressed, beside temperature, dwell and pressure. ``title`` is what is done. Of the
    lines for a part, the first whose condition holds for the goods counts. ``seconds``: least and most."""

    title: str = field(metadata=stands("text"))
    part: str
    seconds: tuple[float, float] | None = None
    condition: Condition = ALWAYS
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Statement(Entry):
    """What should be so before the platen closes. ``not_so`` gives, by cause, the chance that it is there where the
    statement is not so; ``do`` puts it right, in ``minutes`` and with ``paper`` sheets. ``refuted``: facts of the job
    that settle it, so that nobody is asked (no tests: none do). ``bars``: where it is not so, the goods are not pressed
    at all. ``watched``: what it is held against where the person gives a figure, "" where only the person can tell."""

    holds: str
    condition: Condition = ALWAYS
    not_so: Mapping[CauseId, Chance]
    do: str
    why: str
    minutes: float
    paper: float = 0.0
    cautions: tuple[CautionId, ...] = ()
    refuted: Condition = field(default=ALWAYS, metadata=stands("not-so-if"))
    bars: bool = False
    watched: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One thing to do with the piece: how often it can be sold afterwards (0: never), how, or why not. ``minutes``
    beside those of a press."""

    comes_out: Chance = NEVER
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
