"""Exact posteriors by one sweep over the causes that remembers which loud findings are already explained.

The textbook sum over subsets (D. Heckerman, "A tractable inference algorithm for diagnosing multiple
diseases", 1989) has terms of both signs, and rounding eats the answer where causes are rare. This sweep
computes the same numbers with non-negative terms only: the state is the set of explained findings, each
cause moves weight towards sets with more in them, and a backward pass gives every posterior at once. A finding
enters the state just before the first of its shared causes and leaves after its last, so that the work grows
with 2 to the *width* (the findings open at a time), not with their number: unconnected ones never multiply.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Protocol, TypeAlias

from diagnose.reasoning.factors import Factors, Loud, log_of
from diagnose.reasoning.folding import Fold, fold, unfold
from diagnose.reasoning.pulls import ALIVE, NO_PULL, Pull
from diagnose.reasoning.swept import Swept

A_SWEEP = 1 << 14  # what a sweep costs beside its steps, in weights moved
A_STEP = 1 << 12  # what a step costs beside the weights it moves
A_FOLD = 1 << 8  # and a cause of a single finding
Weights: TypeAlias = Any  # a list of floats, or a numpy array, of length 2 ** open findings
Moves: TypeAlias = tuple[tuple[int, Pull], ...]  # (bit position, pull)


class Arithmetic(Protocol):
    """How weights over sets of explained findings are moved: plain lists, or arrays. ``mix`` may use up all
    the weights it is given but the first."""

    def one(self) -> Weights: ...
    def open(self, f: Weights, leak: Pull) -> Weights: ...
    def open_back(self, v: Weights) -> tuple[Weights, Weights]: ...
    def close(self, f: Weights, position: int) -> Weights: ...
    def close_back(self, v: Weights, position: int) -> Weights: ...
    def forth(self, f: Weights, moves: Moves) -> Weights: ...
    def back(self, v: Weights, moves: Moves) -> Weights: ...
    def mix(self, parts: Sequence[tuple[float, Weights]]) -> Weights: ...
    def dot(self, f: Weights, v: Weights) -> float: ...
    def total(self, f: Weights) -> float: ...


@dataclass(frozen=True, slots=True)
class Open:
    """A finding, with the causes of its own, enters the state."""

    fold: Fold


@dataclass(frozen=True, slots=True)
class Close:
    """The finding at a bit position leaves the state."""

    position: int


@dataclass(frozen=True, slots=True)
class Pass:
    """A cause that several findings share. ``modes``: its deaths with weight and moves; ``lasting``: the bit
    positions that hold a defect still seen; ``wanted``: somebody asks for what is found of it."""

    cause: int
    absent: float
    modes: tuple[tuple[int, float, Moves], ...]
    lasting: frozenset[int]
    wanted: bool = True


Step: TypeAlias = Open | Close | Pass


def effort(given: Factors, louds: Sequence[Loud]) -> tuple[int, int]:
    """The greatest width of a sweep over the given loud findings, and its work: weights moved, or as much."""
    shared = _shared(louds)
    bits = {loud: 1 << place for place, loud in enumerate(louds)}
    opened, width = 0, 0
    folded = sum([len(loud.pulls) for loud in louds]) - sum([len(touched) for touched in shared.values()])
    work = A_SWEEP + A_FOLD * folded
    for closing, causes in order(louds, shared):
        for cause in causes:
            for loud in shared[cause]:
                opened |= bits[loud]
            work += len(given.modes[cause]) * ((1 << opened.bit_count()) + A_STEP)
        opened |= bits[closing]
        width = max(width, opened.bit_count())
        opened ^= bits[closing]
    return width, work


def crowded(louds: Sequence[Loud], widest: int) -> bool:
    """Whether a single cause has more loud findings than may be open: a quick way to see that a sweep is too wide."""
    return any(len(touched) > widest for touched in _shared(louds).values())


def plan(given: Factors, louds: Sequence[Loud], wanted: Collection[int] | None = None) -> tuple[list[Step], int]:
    """The steps of the sweep over the given loud findings, and its greatest width. ``wanted``: the causes that are
    asked for (None: all); they come late, so that little has to be gone through twice."""
    shared = _shared(louds)
    steps: list[Step] = []
    opened: list[Loud] = []  # the findings in the state, by bit position
    width = 0
    for closing, causes in order(louds, shared):
        if wanted is not None:
            causes.sort(key=lambda cause: cause in wanted)
        for cause in causes:
            steps += _opening(given, shared[cause], shared, opened)
            steps.append(_pass(given, cause, shared[cause], opened, wanted is None or cause in wanted))
        steps += _opening(given, [closing], shared, opened)
        width = max(width, len(opened))
        steps.append(Close(opened.index(closing)))
        opened.remove(closing)
    return steps, width


def _shared(louds: Sequence[Loud]) -> dict[int, list[Loud]]:
    """The causes that several findings share, each with these findings."""
    touching: dict[int, list[Loud]] = {}
    for loud in louds:
        for cause in loud.pulls:
            if cause in touching:
                touching[cause].append(loud)
            else:
                touching[cause] = [loud]
    return {cause: touched for cause, touched in touching.items() if len(touched) > 1}


def order(louds: Sequence[Loud], shared: Mapping[int, list[Loud]]) -> Iterator[tuple[Loud, list[int]]]:
    """Findings in the order they are closed, each with the shared causes to pass before that; greedy on the
    width."""
    bits = {loud: 1 << place for place, loud in enumerate(louds)}
    partners = dict(bits)  # itself, and all that share a cause with it
    for touched in shared.values():
        together = sum([bits[loud] for loud in touched])
        for loud in touched:
            partners[loud] |= together
    left = list(louds)
    passed: set[int] = set()
    opened = 0
    while left:
        chosen = min(left, key=lambda loud: ((partners[loud] & ~opened).bit_count(), loud.id))
        causes = [cause for cause in chosen.pulls if cause in shared and cause not in passed]
        passed.update(causes)
        opened |= partners[chosen]
        left.remove(chosen)
        yield chosen, sorted(causes, key=lambda cause: (len(shared[cause]), cause))


def _opening(
    given: Factors, louds: Sequence[Loud], shared: Mapping[int, list[Loud]], opened: list[Loud]
) -> Iterator[Open]:
    for loud in louds:
        if loud not in opened:
            opened.append(loud)
            yield Open(fold(given, loud, [cause for cause in loud.pulls if cause not in shared]))


def _pass(given: Factors, cause: int, louds: Sequence[Loud], opened: Sequence[Loud], wanted: bool) -> Pass:
    at = [(opened.index(loud), loud.pulls[cause]) for loud in louds]
    modes = []
    for death, weight in given.modes[cause].items():
        moves = [(position, pulls[death]) for position, pulls in at]
        modes.append((death, weight, tuple([move for move in moves if move[1] != NO_PULL])))
    lasting = frozenset([opened.index(loud) for loud in louds if loud.lasting])
    return Pass(cause, given.absent[cause], tuple(modes), lasting, wanted)


def sweep(
    given: Factors, steps: Sequence[Step], arithmetic: Arithmetic, wanted: Collection[int] | None = None
) -> Swept:
    """All posteriors, by the planned steps, or of the causes wanted only (the rest is then left as the quiet factors
    have it, and ``unknown`` means nothing). Work: shared causes x width x 2 ** width."""
    swept = Swept.quietly(given)
    v = arithmetic.one()
    for step, f in reversed(_forward(steps, swept, arithmetic, 0 if wanted is None else _first(steps, wanted))):
        match step:
            case Open(folded):
                v = _back_over_opening(folded, given, f, v, swept, arithmetic)
            case Close(position):
                v = arithmetic.close_back(v, position)
            case Pass():
                v = _back_over_cause(step, f, v, swept, arithmetic)
    return swept


def _first(steps: Sequence[Step], wanted: Collection[int]) -> int:
    """The number of the first step at which a wanted cause is met."""
    for number, step in enumerate(steps):
        match step:
            case Pass(wanted=True):
                return number
            case Open(folded) if any(cause in wanted for cause in folded.causes):
                return number
    return len(steps)


def _forward(steps: Sequence[Step], swept: Swept, arithmetic: Arithmetic, first: int) -> list[tuple[Step, Weights]]:
    """Each step from the first one on, with the weights before it. They are scaled whenever a finding leaves, and the
    scales go into the evidence."""
    f = arithmetic.one()
    kept = []
    for number, step in enumerate(steps):
        if number >= first:
            kept.append((step, f))
        match step:
            case Open(folded):
                f = arithmetic.open(f, folded.leak)
            case Close(position):
                f = arithmetic.close(f, position)
                scale = arithmetic.total(f)
                swept.log_evidence += log_of(scale)
                f = arithmetic.mix([(1.0 / (scale or 1.0), f)])
            case Pass():
                parts = [(weight, arithmetic.forth(f, moves)) for _, weight, moves in step.modes]
                f = arithmetic.mix([(step.absent, f), *parts])
    return kept


def _back_over_opening(
    folded: Fold, given: Factors, f: Weights, v: Weights, swept: Swept, arithmetic: Arithmetic
) -> Weights:
    unexplained, explained = arithmetic.open_back(v)
    unfold(folded, given, arithmetic.dot(f, unexplained), arithmetic.dot(f, explained), swept)
    b, c = folded.leak
    scale = 1.0 / (c * arithmetic.total(unexplained) + b * arithmetic.total(explained) or 1.0)
    return arithmetic.mix([(scale * c, unexplained), (scale * b, explained)])


def _back_over_cause(step: Pass, f: Weights, v: Weights, swept: Swept, arithmetic: Arithmetic) -> Weights:
    if not step.wanted:
        others = [(weight, arithmetic.back(v, moves)) for _, weight, moves in step.modes]
        return arithmetic.mix([(step.absent, v), *others])
    without = arithmetic.dot(f, v)
    parts = [(step.absent, v)]
    there = alive = behind = 0.0
    for death, weight, moves in step.modes:
        moved = arithmetic.back(v, moves)
        parts.append((weight, moved))
        share = weight * arithmetic.dot(f, moved)
        there += share
        if death == ALIVE:
            alive = share
            if step.lasting:
                behind = max(0.0, alive - weight * _idle(moves, f, v, step.lasting, without, arithmetic))
    swept.put(step.cause, step.absent * without, there, alive, behind)
    return arithmetic.mix(parts)


def _idle(
    moves: Moves, f: Weights, v: Weights, lasting: frozenset[int], without: float, arithmetic: Arithmetic
) -> float:
    """The weight of a cause that is there but leaves every lasting defect alone, explained before or not."""
    scale = 1.0
    busy = []
    for position, pull in moves:
        if position in lasting:
            scale *= pull.c
        else:
            busy.append((position, pull))
    return scale * (arithmetic.dot(f, arithmetic.back(v, tuple(busy))) if busy else without)
