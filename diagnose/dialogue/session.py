"""A diagnosis in progress, as a pure value: the moves made so far. Every move gives a new session.

Saving writes the moves, so that resuming is exact; whoever goes back takes the session there was before.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import reduce
from itertools import takewhile

from diagnose.dialogue.moves import (
    Answered,
    CannotDo,
    CannotTell,
    Cured,
    DidNotSee,
    FoundLately,
    HandedOver,
    LastGood,
    Measured,
    Move,
    Named,
    Pressed,
    Saw,
    TriedFix,
    Used,
)
from diagnose.knowledge.conditions import FactValue
from diagnose.knowledge.shop import PRESS_NAME
from diagnose.reasoning.evidence import SAME, Evidence, Tried

MANY_UNTOLD = 3  # checks in a row that cannot be told: from then on a way out is offered
MANY_IN_VAIN = 2  # fixes in a row that changed nothing: from then on it is said to look at the piece afresh


@dataclass(frozen=True, slots=True)
class Session:
    """The moves made so far, oldest first."""

    moves: tuple[Move, ...] = ()

    def make(self, move: Move) -> "Session":
        """The session after one more move."""
        return Session((*self.moves, move))

    @property
    def item(self) -> str:
        """The id of the item, "" where unknown."""
        return next((move.item for move in reversed(self.moves) if isinstance(move, Pressed)), "")

    @property
    def press(self) -> str:
        """The id of the press, "" where nobody said; later words win."""
        said = [move.press for move in self.moves if isinstance(move, Pressed) and move.press]
        named = self.facts.get(PRESS_NAME, "")
        return said[-1] if said else str(named)

    @property
    def facts(self) -> dict[str, FactValue]:
        """What the person said of the job; later words win."""
        told: dict[str, FactValue] = {}
        for move in self.moves:
            if isinstance(move, Pressed):
                told.update(move.facts)
        return told

    @property
    def evidence(self) -> Evidence:
        """The findings, in a form that does not depend on the order of answers given between two fixes."""
        return reduce(_learn, self.moves, Evidence())

    @property
    def closed(self) -> frozenset[str]:
        """Checks answered, by words or by a figure, or that cannot be told."""
        told = (move.check for move in self.moves if isinstance(move, Answered | Measured | CannotTell))
        return frozenset(check for check in told if check)

    @property
    def untold(self) -> tuple[str, ...]:
        """Checks that could not be told, in their order."""
        answered = self.evidence.answers
        told = dict.fromkeys(move.check for move in self.moves if isinstance(move, CannotTell))
        return tuple(check for check in told if check not in answered)

    @property
    def untold_in_a_row(self) -> int:
        """How many checks could not be told one after another, up to now."""
        return sum(1 for _ in takewhile(lambda move: isinstance(move, CannotTell), reversed(self.moves)))

    @property
    def in_vain(self) -> int:
        """How many fixes changed nothing, one after another, up to the last move; a fault told since starts anew."""
        if not self.moves or not isinstance(self.moves[-1], TriedFix):
            return 0
        telling = [move for move in self.moves if isinstance(move, TriedFix | Saw | DidNotSee)]
        return sum(1 for _ in takewhile(lambda move: isinstance(move, TriedFix) and move.change == SAME, telling[::-1]))

    @property
    def looked_again(self) -> frozenset[str]:
        """Checks that were looked at a second time, or could not be."""
        once: set[str] = set()
        twice: set[str] = set()
        for move in self.moves:
            if isinstance(move, Answered | CannotTell):
                (twice if move.check in once else once).add(move.check)
        return frozenset(twice)

    @property
    def figures(self) -> tuple[tuple[int, Mapping[str, float]], ...]:
        """The figures measured, in the order told, each time with the number of fixes tried before."""
        told, tried = [], 0
        for move in self.moves:
            if isinstance(move, Measured):
                told.append((tried, move.figures))
            tried += isinstance(move, TriedFix)
        return tuple(told)

    @property
    def last_good(self) -> LastGood | None:
        """The last good piece, None where the shop knows of none."""
        return next((move for move in reversed(self.moves) if isinstance(move, LastGood)), None)

    @property
    def found_lately(self) -> tuple[FoundLately, ...]:
        """The causes that were found on this press lately, by cause, each once."""
        found = {move.cause: move for move in self.moves if isinstance(move, FoundLately)}
        return tuple(found[cause] for cause in sorted(found))

    @property
    def figures_now(self) -> Mapping[str, tuple[float, int]]:
        """By name, each figure as it was told last, with the number of fixes tried before."""
        return {name: (value, tried) for tried, figures in self.figures for name, value in figures.items()}

    @property
    def used_now(self) -> Mapping[str, tuple[str, int]]:
        """By kind, the goods that were used, as they were told last, with the number of fixes tried before."""
        told, tried = {}, 0
        for move in self.moves:
            if isinstance(move, Used):
                told.update({kind: (words, tried) for kind, words in move.used.items()})
            tried += isinstance(move, TriedFix)
        return told

    @property
    def set_aside(self) -> frozenset[str]:
        """Fixes the person cannot do."""
        return frozenset(move.fix for move in self.moves if isinstance(move, CannotDo))

    @property
    def over(self) -> Cured | HandedOver | None:
        """How the session ended, or None while it goes on."""
        last = self.moves[-1] if self.moves else None
        return last if isinstance(last, Cured | HandedOver) else None


def _learn(evidence: Evidence, move: Move) -> Evidence:
    match move:
        case Saw(defects):
            return replace(evidence, seen=_joined(evidence.seen, defects), not_seen=_less(evidence.not_seen, defects))
        case DidNotSee(defects):
            new = _less(defects, evidence.seen)
            return replace(evidence, not_seen=_joined(evidence.not_seen, new))
        case Answered(check, outcome, again):
            return evidence.with_answer(check, outcome, looked_again=again)
        case Named(cause):
            return evidence.with_named(cause)
        case TriedFix(fix, change, gone):
            return replace(evidence, tried=(*evidence.tried, Tried(fix, change, tuple(sorted(gone)))))
    return evidence


def _joined(one: tuple[str, ...], other: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(sorted({*one, *other}))


def _less(one: tuple[str, ...], other: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(sorted(set(one) - set(other)))
