"""The end of a dialogue: it becomes a case in the casebook. Where that cannot be, it goes on as a file to import."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from time import monotonic
from typing import TYPE_CHECKING

from diagnose.cli.shop import shelf
from diagnose.cli.terminal.screen import Screen
from diagnose.dialogue.moves import Answered, Cured, Measured, Move, TriedFix
from diagnose.dialogue.session import Session
from diagnose.problems import PressloreError
from diagnose.speech.saying import say

if TYPE_CHECKING:
    from diagnose.casebook.case import Case
    from diagnose.dialogue.consultation import Consultation
    from diagnose.dialogue.saving import Progress

LONGEST = 60.0  # minutes; whoever takes longer over a step has been away


@dataclass(slots=True)
class Watch:
    """Times the steps of a dialogue by the clock: ``took`` holds minutes by check or fix, ``minutes`` those of all
    steps together, whatever they were, the opening questions included. ``waits``: minutes by check or fix that are
    waited for it with no hand in it; they are no work."""

    clock: Callable[[], float] = monotonic
    took: dict[str, float] = field(default_factory=dict)
    minutes: float = 0.0
    waits: Mapping[str, float] = field(default_factory=dict)
    _since: float = 0.0
    _before: Session = field(default_factory=Session)

    def __post_init__(self) -> None:
        self._since = self.clock()

    def step(self, after: Session) -> None:
        """A step has led to this session, and the next one begins."""
        at = self.clock()
        made = after.moves[len(self._before.moves) :]
        name = _step(made[0]) if self._before.moves and made else ""
        worked = _worked((at - self._since) / 60.0, self.waits.get(name, 0.0))
        if 0.0 <= worked <= LONGEST:
            self.minutes += worked
            if name:
                self.took[name] = self.took.get(name, 0.0) + worked
        self._since, self._before = at, after

    def took_of(self, session: Session) -> dict[str, float]:
        """The minutes of the steps that still count: those that were not taken back."""
        done = {_step(move) for move in session.moves}
        return {step: round(minutes, 2) for step, minutes in self.took.items() if step in done}


def _worked(passed: float, waited: float) -> float:
    """What of the time that passed was work: all of it where nobody had to wait this time."""
    return passed - waited if passed >= waited else passed


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

    def keep(self, screen: Screen, end: Consultation, watch: Watch, progress: Progress) -> bool:
        """Keep the case and say so, or why not. Whether it is safe now: in the casebook, or in a file to import (or
        not wanted). The case has the id that stands in the progress: kept twice, it is there once. Never raises
        PressloreError: a dialogue that has ended well stays so."""
        if not self.wanted:
            screen.line(say("case-not-wanted"), "dim")
            return True
        case = _case(end, watch, progress)
        try:
            _add(case, self.where())
        except (PressloreError, ImportError) as error:
            screen.line(say("case-not-taken", error=error), "caution")
            return _set_aside(screen, case)
        screen.line(say("case-kept"), "dim")
        return True


def _case(end: Consultation, watch: Watch, progress: Progress) -> Case:
    from datetime import UTC, datetime

    from diagnose.casebook.case import Case, now
    from diagnose.casebook.costing import reckon

    minutes = round(watch.minutes, 1)
    bill = reckon(end.session, end.knowledge, end.shop.rates, minutes)
    return Case(
        id=progress.case,
        ended=datetime.fromtimestamp(int(progress.ended), UTC) if progress.ended else now(),
        session=end.session,
        press=end.session.press,
        minutes=minutes,
        spoilt=bill.spoilt,
        lost=bill.lost,
        took=watch.took_of(end.session),
        knowledge=end.knowledge.version,
    )


def _add(case: Case, where: str) -> None:
    from diagnose.cli.shop.bookcase import opened

    with opened(where) as book:
        book.add([case])


def _set_aside(screen: Screen, case: Case) -> bool:
    """Save the case as a file, and say how it gets into the casebook. Whether that was done."""
    import shlex

    from diagnose.casebook.case import line
    from diagnose.casebook.store.exporting import LINES
    from diagnose.dialogue.saving import make_folder
    from diagnose.files.kinds import write_out

    file = shelf.state_folder() / "cases" / f"{case.id}.jsonl"
    try:
        make_folder(file.parent)
        write_out(file, line(case).encode(), LINES, force=True)
    except PressloreError as error:
        screen.line(say("case-not-saved-either", error=error), "caution")
        return False
    screen.line(say("case-saved-as-a-file"))
    screen.whole(f"  presslore cases import {shlex.quote(str(file))}")
    return True
