"""Numbers of their own for kinds of jobs that come often enough: a family of items, then a press within it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from diagnose.casebook.learning.fitting import Fitted, Held
from diagnose.casebook.learning.material import JobKind
from diagnose.casebook.learning.numbers import KNOWN, Ints, Numbers, TurnUp
from diagnose.casebook.learning.rounding import divergence
from diagnose.casebook.learning.weights import LEAST_OF_A_KIND, OF_A_KIND, WORTH


@dataclass(frozen=True, slots=True)
class Split:
    """``turns_up``: what each turn-up is about, the new ones last. ``turn_of``: (nets, causes), their places."""

    turns_up: tuple[TurnUp, ...]
    turn_of: Ints
    numbers: Numbers
    held: Held


def split(turns_up: Sequence[TurnUp], climb: Ints, fitted: Fitted, held: Held, own: Sequence[JobKind | None]) -> Split:
    """For each net with a kind of its ``own``, turn-ups of that kind, held to those that it had (``climb``: their
    places), where its cases tell that they differ. The others stay as they are from now on."""
    numbers, new = fitted.numbers, _Turns(turns_up, climb, fitted, own)
    parents = new.parents
    held_to = np.append(numbers.turns_up, numbers.turns_up[parents])
    settled = np.arange(len(held_to)) < len(numbers.turns_up)
    weights = np.append(held.turns_up, np.full(len(parents), OF_A_KIND))
    return Split(
        tuple(new.places),
        new.turn_of,
        replace(numbers, turns_up=held_to),
        replace(held, to=replace(held.to, turns_up=held_to), turns_up=weights, settled=settled),
    )


class _Turns:
    """The turn-ups with the new ones behind; ``parents``: the places of those that the new ones are held to."""

    def __init__(
        self, turns_up: Sequence[TurnUp], turn_of: Ints, fitted: Fitted, own: Sequence[JobKind | None]
    ) -> None:
        self.places = {turn: place for place, turn in enumerate(turns_up)}
        self.parents: list[int] = []
        self.turn_of = turn_of.copy()
        members: dict[TurnUp, list[tuple[int, int]]] = {}
        for net, kind in enumerate(own):
            for cause, parent in enumerate(turn_of[net] if kind else ()):
                assert kind is not None
                turn = replace(turns_up[parent], family=kind.family, press=kind.press)
                if turn.shape != KNOWN:
                    members.setdefault(turn, []).append((net, cause))
        for turn, nets_causes in members.items():
            at = tuple(np.array(nets_causes).T)
            parent = int(turn_of[at][0])
            there, cases = fitted.expected.there[at].sum(), fitted.expected.cases[at].sum()
            if _gain(float(there), float(cases), float(fitted.numbers.turns_up[parent])) >= WORTH:
                self.turn_of[at] = self.places[turn] = len(self.places)
                self.parents.append(parent)


def _gain(there: float, cases: float, chance: float) -> float:
    """What so many cases would gain, in nats, by a chance of their own."""
    if not (0.0 < chance < 1.0 and cases > 0.0):
        return 0.0
    share = min(1.0, max(0.0, there / cases))
    return cases * divergence(share, chance)


def families(kinds: Sequence[JobKind], cases: Sequence[float]) -> list[JobKind | None]:
    """For each net its family, where that is known, comes often enough, and is not the only one."""
    return _often([replace(kind, press="") for kind in kinds], cases, [bool(kind.family) for kind in kinds])


def presses(kinds: Sequence[JobKind], cases: Sequence[float]) -> list[JobKind | None]:
    """For each net its family and press, where the press is known, comes often enough, and is not the only one."""
    if len({kind.press for kind in kinds}) < 2:
        return [None for _ in kinds]
    return _often(kinds, cases, [bool(kind.press) for kind in kinds])


def _often(kinds: Sequence[JobKind], cases: Sequence[float], known: Sequence[bool]) -> list[JobKind | None]:
    count: dict[JobKind, float] = {}
    for kind, number in zip(kinds, cases, strict=True):
        count[kind] = count.get(kind, 0.0) + number
    if len(count) < 2:
        return [None for _ in kinds]
    return [kind if ok and count[kind] >= LEAST_OF_A_KIND else None for kind, ok in zip(kinds, known, strict=True)]
