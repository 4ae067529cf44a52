"""Sheets as arrays. What stands in them are places: of the causes that a pattern touches (its *rows*), of the states
these may be in (*modes*: there still, or put right by the n-th fix), and of the numbers that weigh each mode or *pull*
at a finding. Patterns with most shared causes come first, so that each step of the sweep takes the first so many.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from diagnose.casebook.learning.jobs import Wiring
from diagnose.casebook.learning.numbers import Floats, Ints
from diagnose.casebook.learning.sheets import DAMPED, LOUD, QUIET, TRIED, WEIGHED, LinkLists, Sheet
from diagnose.reasoning.pulls import ALIVE


@dataclass(frozen=True, slots=True)
class TablePart:
    """The n-th mode of each of a step's rows that has so many: their ``patterns`` (None: all of the step's), the modes,
    and their places among shared modes."""

    patterns: Ints | None
    modes: Ints
    places: slice


@dataclass(frozen=True, slots=True)
class Step:
    """The n-th shared cause of each of the first ``len(rows)`` patterns."""

    rows: Ints
    parts: tuple[TablePart, ...]


@dataclass(frozen=True, slots=True)
class Pairs:
    """A mode or row, and the number that weighs it."""

    of: Ints
    number: Ints


@dataclass(frozen=True, slots=True)
class SheetTable:
    """A sheet as arrays. ``own``: rules whose defect was seen. ``pull_place``: level and number of each pull as one
    place in the flattened table of links; ``pull_may``: whether it may have explained the finding. ``lone``: rows
    that pull at a single finding, with its place in ``finding``. ``at``: for each pull, its place in a table of
    findings by shared modes, or -1 where its row is alone. ``weighed_mode``, ``weighed_row``:
    what figures speak of, ``weighs_mode``, ``weighs_absent``: the logs they leave of those modes and of absence."""

    width: int
    count: Floats
    net: Ints
    leak_b: Floats  # (findings, patterns), like the following
    leak_c: Floats
    row_pattern: Ints
    row_cause: Ints
    mode_row: Ints
    cured: Pairs
    spared: Pairs
    quiet: Pairs
    own: Pairs
    damped: Ints
    weighed_mode: Ints
    weighed_row: Ints
    weighs_mode: Floats
    weighs_absent: Floats
    pull_mode: Ints
    pull_place: Ints
    pull_may: Ints
    at: Ints
    lone: Ints
    finding: Ints
    steps: tuple[Step, ...]
    shared_modes: int
    constant: float


class _Spread:
    """The links of listed findings, one line each: which finding (``owner``), its pattern, the cause, the number."""

    def __init__(self, listed: Ints, ref: int, links: LinkLists) -> None:
        starts = np.array(links.start)
        first, last = starts[listed[:, ref]], starts[listed[:, ref] + 1]
        self.owner, at = ragged(first, last - first)
        self.listed = listed[self.owner]
        self.cause = np.array(links.cause, np.int64)[at]
        self.number = np.array(links.number, np.int64)[at]

    def key(self, causes: int) -> Ints:
        return np.asarray(self.listed[:, 0] * causes + self.cause)


def ragged(first: Ints, lengths: Ints) -> tuple[Ints, Ints]:
    """For runs that begin at ``first``: the run that each place belongs to, and the place."""
    owner = np.repeat(np.arange(len(lengths)), lengths)
    within = np.arange(len(owner)) - np.repeat(np.cumsum(lengths) - lengths, lengths)
    return owner, first[owner] + within


def table(sheet: Sheet, links: LinkLists, shape: tuple[int, ...]) -> SheetTable:
    """The sheet as arrays. ``shape`` of the table of links' numbers."""
    weighed, ratios = _wide(sheet.weighed, WEIGHED), np.array(sheet.ratios, float).reshape(-1, 2)
    causes = max(max(links.cause, default=0), weighed[:, 1].max(initial=0)) + 1
    louds = _Spread(_wide(sheet.loud, LOUD), 2, links)
    quiets = _Spread(_wide(sheet.quiet, QUIET), 1, links)
    tries = _Spread(_wide(sheet.tried, TRIED), 2, links)
    damps = _Spread(_wide(sheet.damped, DAMPED), 2, links)
    keys = [spread.key(causes) for spread in (louds, quiets, tries, damps)]
    keys.append(weighed[:, 0] * causes + weighed[:, 1])
    rows, row_of = np.unique(np.concatenate(keys), return_inverse=True)
    loud_row, quiet_row, try_row, damp_row, weighed_row = np.split(row_of, np.cumsum([len(key) for key in keys])[:-1])
    modes = _Modes(len(rows), try_row, tries)

    owner, mode = modes.of(quiet_row)
    stands = modes.death[mode] > quiets.listed[owner, 2]
    quiet = Pairs(_short(mode[stands]), _short(quiets.number[owner[stands]]))
    owner, mode = modes.of(damp_row)
    damped = mode[modes.death[mode] == damps.listed[owner, 1]]
    owner, weighed_mode = modes.of(weighed_row)
    outlived = modes.death[weighed_mode] > weighed[owner, 2]
    weighs_mode = np.where(outlived, ratios[owner, 0], ratios[owner, 1])
    owner, mode = modes.of(loud_row)
    pulls, may = _pulls(louds.listed[owner], modes.death[mode])
    owner, mode = owner[pulls], mode[pulls]
    sights = louds.listed[:, 7] == 1

    finding = louds.listed[owner, 1]
    place = louds.number[owner] % shape[0] * shape[1] + louds.listed[owner, 3] - 1
    layout = _layout(sheet, rows // causes, modes.row, mode, finding)
    return SheetTable(
        width=sheet.width,
        row_cause=_short(rows % causes),
        mode_row=_short(modes.row),
        cured=Pairs(_short(modes.cured), _short(modes.number)),
        spared=modes.spared(),
        quiet=quiet,
        own=Pairs(_short(loud_row[sights]), _short(louds.number[sights])),
        damped=_short(damped),
        weighed_mode=_short(weighed_mode),
        weighed_row=_short(weighed_row),
        weighs_mode=weighs_mode,
        weighs_absent=ratios[:, 1],
        pull_mode=_short(mode),
        pull_place=_short(place),
        pull_may=may.astype(np.int8),
        constant=sheet.constant,
        **layout,
    )


class _Modes:
    """The modes of every row, in the order of their deaths; ``cured``: the modes that end with a fix, with the
    ``number`` of that cure."""

    def __init__(self, rows: int, row: Ints, tries: _Spread) -> None:
        order = np.lexsort((tries.listed[:, 1], row))
        self._try_row, self.number = row[order], tries.number[order]
        self.cures = np.bincount(row, minlength=rows)
        self.start = np.cumsum(self.cures + 1) - (self.cures + 1)
        self.row = np.repeat(np.arange(rows), self.cures + 1)
        self.death = np.full(len(self.row), ALIVE)
        self._turn = turns(self._try_row)
        self.cured = self.start[self._try_row] + self._turn
        self.death[self.cured] = tries.listed[order, 1]

    def of(self, rows: Ints) -> tuple[Ints, Ints]:
        """All modes of these rows: which of the rows, and the mode."""
        return ragged(self.start[rows], self.cures[rows] + 1)

    def spared(self) -> Pairs:
        """The modes that outlived each cure."""
        owner, mode = ragged(self.cured + 1, self.cures[self._try_row] - self._turn)
        return Pairs(_short(mode), _short(self.number[owner]))


def _pulls(loud: Ints, death: Ints) -> tuple[Ints, Ints]:
    """Which modes have a pull at their finding, and of those, which may have explained it."""
    period, until, only = loud[:, 4], loud[:, 5], loud[:, 6] == 1
    silent = (until > 0) & (death > until) & ~only
    may = np.where(until > 0, death == until, death > period)
    pulls = np.flatnonzero(may | silent)
    return pulls, may[pulls]


def _layout(sheet: Sheet, row_pattern: Ints, mode_row: Ints, pull_mode: Ints, finding: Ints) -> dict[str, Any]:
    """The order of the patterns, and the steps of the sweep."""
    patterns = len(sheet.count)
    touched = np.zeros((mode_row.max(initial=-1) + 1, max(1, sheet.width)), bool)
    touched[mode_row[pull_mode], finding] = True
    often = touched.sum(axis=1)
    order = np.argsort(-np.bincount(row_pattern[often > 1], minlength=patterns), kind="stable")
    place = np.empty(patterns, np.int64)
    place[order] = np.arange(patterns)
    row_pattern, lone = place[row_pattern], np.flatnonzero(often == 1)
    steps = _steps(np.flatnonzero(often > 1), row_pattern, mode_row)
    shared = np.concatenate([part.modes for step in steps for part in step.parts] or [np.zeros(0, np.int32)])
    shared_place = np.full(len(mode_row), -1)
    shared_place[shared] = np.arange(len(shared))
    at = shared_place[pull_mode]
    leaks = np.array(sheet.leaks, float).reshape(patterns, sheet.width, 2)
    return {
        "count": np.array(sheet.count, float)[order],
        "net": np.array(sheet.net, np.int64)[order],
        "leak_b": leaks[order, :, 0].T.copy(),
        "leak_c": leaks[order, :, 1].T.copy(),
        "row_pattern": _short(row_pattern),
        "at": _short(np.where(at >= 0, finding * len(shared) + at, -1)),
        "lone": _short(lone),
        "finding": _short(touched[lone].argmax(axis=1)),
        "steps": tuple(steps),
        "shared_modes": len(shared),
    }


def _steps(shared: Ints, row_pattern: Ints, mode_row: Ints) -> list[Step]:
    """The shared rows, the n-th of each pattern in the n-th step, in the order of the patterns."""
    rows = shared[np.argsort(row_pattern[shared], kind="stable")]
    turn, nth = turns(row_pattern[rows]), turns(mode_row)
    steps, done = [], 0
    for number in range(turn.max(initial=-1) + 1):
        mine = rows[turn == number]
        where = np.full(len(row_pattern), -1)
        where[mine] = np.arange(len(mine))
        modes = np.flatnonzero(where[mode_row] >= 0)
        modes = modes[np.argsort(where[mode_row[modes]], kind="stable")]
        parts = []
        for each in range(nth[modes].max() + 1):
            part = modes[nth[modes] == each]
            patterns = None if len(part) == len(mine) else where[mode_row[part]]
            parts.append(TablePart(patterns, _short(part), slice(done, done + len(part))))
            done += len(part)
        steps.append(Step(_short(mine), tuple(parts)))
    return steps


def turns(groups: Ints) -> Ints:
    """For sorted group numbers: 0, 1, 2, ... within each group."""
    starts = np.flatnonzero(np.diff(groups, prepend=-1))
    return np.asarray(np.arange(len(groups)) - np.repeat(starts, np.diff(starts, append=len(groups))))


def _wide(listed: Sequence[int], columns: int) -> Ints:
    return np.array(listed, np.int64).reshape(-1, columns)


def _short(places: Ints) -> Ints:
    """In half the room."""
    return places.astype(np.int32)


@dataclass(frozen=True, slots=True)
class Nets:
    """The wirings of all jobs as arrays. ``turns_up``: (nets, causes), the place of each cause's number. ``rules``:
    every rule of every net, as net, cause, number."""

    turns_up: Ints
    rules: Ints

    @classmethod
    def of(cls, wirings: Sequence[Wiring]) -> "Nets":
        rules = [
            place
            for net, wiring in enumerate(wirings)
            for found in wiring.defects.values()
            for cause, number in found.links
            for place in (net, cause, number)
        ]
        causes = len(wirings[0].turns_up) if wirings else 0
        turns_up = np.array([wiring.turns_up for wiring in wirings], np.int64).reshape(len(wirings), causes)
        return cls(turns_up, _wide(rules, 3))

    @classmethod
    def joined(cls, one: "Nets", other: "Nets") -> "Nets":
        """The nets of the one, then those of the other."""
        shifted = other.rules + np.array([len(one.turns_up), 0, 0])
        if not len(one.turns_up) or not len(other.turns_up):
            return other if len(other.turns_up) else one
        return cls(np.concatenate([one.turns_up, other.turns_up]), np.concatenate([one.rules, shifted]))
