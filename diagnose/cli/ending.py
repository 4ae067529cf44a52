"""The end of a dialogue: it becomes a case in the casebook. Where that cannot be, it goes on as a file to import."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from time import monotonic
from typing import TYPE_CHECKING

from diagnose.cli import shelf
from diagnose.cli.screen import Screen
from diagnose.dialogue.moves import Answered, Cured, Measured, Move, TriedFix
from diagnose.dialogue.session import Session
from diagnose.problems import PressloreError

if TYPE_CHECKING:
    from diagnose.casebook.case import Case
    from diagnose.dialogue.consultation import Consultation

LONGEST = 60.0  # minutes; whoever takes longer over a step has been away


@dataclass(slots=True)
class Watch:
    """Times the steps of a dialogue by the clock: ``took`` holds minutes by check or fix, ``minutes`` those of all
    steps together, whatever they were, the opening questions included."""

    clock: Callable[[], float] = monotonic
    took: dict[str, float] = field(default_factory=dict)
    minutes: float = 0.0
    _since: float = 0.0
    _before: Session = field(default_factory=Session)

    def __post_init__(self) -> None:
        self._since = self.clock()

    def step(self, after: Session) -> None:
        """A step has led to this session, and the next one begins."""
        at = self.clock()
        passed = (at - self._since) / 60.0
        if 0.0 <= passed <= LONGEST:
            self.minutes += passed
            made = after.moves[len(self._before.moves) :]
            if self._before.moves and made and (name := _step(made[0])):
                self.took[name] = self.took.get(name, 0.0) + passed
        self._since, self._before = at, after

    def took_of(self, session: Session) -> dict[str, float]:
        """The minutes of the steps that still count: those that were not taken back."""
        done = {_step(move) for move in session.moves}
        return {step: round(minutes, 2) for step, minutes in self.took.items() if step in done}


def _step(move: Move) -> str:
    """The check or fix that a move carried out, "" where it did neither."""
    match move:
        case Answered(check, _) | Measured(_, check):
            return check
        case TriedFix(fix) | Cured(fix):
            return fix
    return ""


@dataclass(frozen=True, slots=True)
class Keeping:
    """Whether and where the case is to be kept. ``where`` is asked for at the end only."""

    wanted: bool
    where: Callable[[], str]

    def keep(self, screen: Screen, end: Consultation, watch: Watch) -> None:
        """Keep the case and say so, or why not. Never raises: a dialogue that has ended well stays so."""
        if not self.wanted:
            screen.line("Not kept as a case, as you asked.", "dim")
            return
        case = _case(end, watch)
        try:
            _add(case, self.where())
            screen.line("Kept in the casebook. To see it: presslore cases show last", "dim")
        except (PressloreError, ImportError) as error:
            screen.line(f"The casebook could not take this case. {error}", "caution")
            _set_aside(screen, case)


def _case(end: Consultation, watch: Watch) -> Case:
    from datetime import UTC, datetime

    from diagnose.casebook.case import Case, new_id, now
    from diagnose.casebook.costing import reckon

    minutes = round(watch.minutes, 1)
    bill = reckon(end.session, end.knowledge, end.shop.rates, minutes)
    return Case(
        id=new_id(datetime.now(UTC)),
        ended=now(),
        session=end.session,
        press=end.session.press,
        minutes=minutes,
        spoilt=bill.spoilt,
        lost=bill.lost,
        took=watch.took_of(end.session),
        knowledge=end.knowledge.version,
    )


def _add(case: Case, where: str) -> None:
    from diagnose.cli.bookcase import opened

    with opened(where) as book:
        book.add([case])


def _set_aside(screen: Screen, case: Case) -> None:
    """Save the case as a file, and say how it gets into the casebook."""
    import shlex

    from diagnose.casebook.case import line

    file = shelf.state_folder() / "cases" / f"{case.id}.jsonl"
    try:
        _write(file, line(case))
    except OSError as error:
        screen.line(f"It could not be saved as a file either ({file}: {error.strerror}).", "caution")
        return
    screen.line("It is saved as a file. When the casebook can be written to again:")
    screen.whole(f"  presslore cases import {shlex.quote(str(file))}")


def _write(file: Path, text: str) -> None:
    import os

    file.parent.mkdir(parents=True, exist_ok=True)
    with open(file, "x", encoding="utf-8") as stream:
        stream.write(text)
        stream.flush()
        os.fsync(stream.fileno())
