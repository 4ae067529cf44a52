"""What is done round a press: how goods are made ready and laid, and what should be so before the platen closes."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from diagnose.knowledge.conditions import ALWAYS, Condition
from diagnose.knowledge.entry import CauseId, CautionId, Chance, Entry, stands

PARTS: Final = ("pre-press", "face", "artwork", "held", "cover", "pad", "peel")
ITEMS_PARTS: Final = PARTS[1:-1]  # of which an item may say otherwise; its pre-press and peel are settings of its own


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
