"""What must be expected of everything hidden, given the patterns and the numbers: the E-step, exact.

For each pattern the causes that pull at a single loud finding are folded into its leak, the shared ones are swept
over, and a backward pass gives every posterior: whether the cause was there, which fix put it right, and whether its
own link fired. The firing's chance is derived here, and tested against enumeration and pyAgrum.
"""

from collections.abc import Iterable
from dataclasses import dataclass, fields

import numpy as np

from diagnose.casebook.learning import batchwise
from diagnose.casebook.learning.numbers import Floats, Ints, Numbers
from diagnose.casebook.learning.tables import Nets, SheetTable, Step
from diagnose.reasoning.factors import IMPROVES


@dataclass(slots=True)
class Expected:
    """Sums over all cases. ``there``, ``cases``: (nets, causes): cases in which the cause was there, and all.
    ``quiet``: (L + 1,): cases in which the cause was there and the finding stayed quiet; ``loud``, ``fired``: (L + 1,
    levels): in which it was seen at a level, and picked that itself. ``tried``, ``cured``: (C,): cases in which the
    cause was there when the fix was tried, and was put right. ``log_likelihood`` in nats."""

    there: Floats
    cases: Floats
    quiet: Floats
    loud: Floats
    fired: Floats
    tried: Floats
    cured: Floats
    log_likelihood: float = 0.0

    @classmethod
    def nothing(cls, numbers: Numbers, nets: Nets) -> "Expected":
        links, causes, cures = numbers.links.shape, nets.turns_up.shape, numbers.cures.shape
        shapes = (causes, causes, links[:1], links, links, cures, cures)
        there, cases, quiet, loud, fired, tried, cured = (np.zeros(shape) for shape in shapes)
        return cls(there, cases, quiet, loud, fired, tried, cured)

    def add(self, other: "Expected") -> None:
        """Add what others expect of other cases."""
        for name in (each.name for each in fields(self) if each.name != "log_likelihood"):
            getattr(self, name).__iadd__(getattr(other, name))
        self.log_likelihood += other.log_likelihood


@dataclass(frozen=True, slots=True)
class Untold:
    """What the defects that nobody told of make of each cause, net by net: ``prior`` of its being there; ``log_rest``
    is the log of what they leave of all cases; ``log_there``: the log of the untold rules' quiet, if it is there."""

    prior: Floats
    log_absent: Floats
    log_there: Floats
    log_rest: Floats

    @classmethod
    def of(cls, numbers: Numbers, nets: Nets) -> "Untold":
        shape = nets.turns_up.shape
        net, cause, number = nets.rules.T
        quiet = np.log1p(-numbers.links[number, 0])
        hushed = np.bincount(net * shape[1] + cause, quiet, minlength=shape[0] * shape[1]).reshape(shape)
        turns_up = numbers.turns_up[nets.turns_up]
        log_there = _log(turns_up) + hushed
        there, absent = np.exp(log_there), 1.0 - turns_up
        return cls(there / (there + absent), _log(absent), log_there, np.log(there + absent))


def expect(tables: Iterable[SheetTable], nets: Nets, numbers: Numbers) -> Expected:
    """The sums over all patterns of all tables."""
    total = Expected.nothing(numbers, nets)
    untold = Untold.of(numbers, nets)
    touched = np.zeros_like(total.cases)
    for table in tables:
        _Pass(table, numbers, untold).run(total, touched)
    total.there += (total.cases - touched) * untold.prior
    total.log_likelihood += float(((total.cases - touched) * untold.log_rest).sum())
    _add_untold(total, nets)
    return total


def _add_untold(total: Expected, nets: Nets) -> None:
    """Every case in which a cause was there speaks of each of its rules; those whose defect was seen are already
    taken off."""
    net, cause, number = nets.rules.T
    total.quiet += np.bincount(number, total.there[net, cause], minlength=len(total.quiet))
    np.maximum(total.quiet, 0.0, out=total.quiet)


class _Pass:
    """One pass over one table."""

    def __init__(self, table: SheetTable, numbers: Numbers, untold: Untold) -> None:
        self.table, self.numbers, self.untold = table, numbers, untold
        self.net = table.net[table.row_pattern]
        self._weigh_modes()
        self._weigh_pulls()

    def _weigh_modes(self) -> None:
        """The weight of each mode and of absence, summing to 1 for each cause; ``log_row``: the log of their sum."""
        t, n = self.table, self.numbers
        row = self.untold.log_there[self.net, t.row_cause]
        row -= _sum(t.own.of, np.log1p(-n.links[t.own.number, 0]), len(row))
        log_mode = row[t.mode_row]
        log_mode += _sum(t.cured.of, _log(n.cures[t.cured.number]), len(log_mode))
        log_mode += _sum(t.spared.of, _log(1.0 - n.cures[t.spared.number]), len(log_mode))
        log_mode += _sum(t.quiet.of, np.log1p(-n.links[t.quiet.number].sum(axis=1)), len(log_mode))
        log_mode[t.damped] += np.log1p(-IMPROVES)
        log_absent = self.untold.log_absent[self.net, t.row_cause]
        if len(t.weighed_row):
            log_mode += _sum(t.weighed_mode, t.weighs_mode, len(log_mode))
            log_absent = log_absent + _sum(t.weighed_row, t.weighs_absent, len(row))
        mode, absent = np.exp(log_mode), np.exp(log_absent)
        total = absent + _sum(t.mode_row, mode, len(row))
        self.absent, self.mode, self.log_row = absent / total, mode / total[t.mode_row], np.log(total)

    def _weigh_pulls(self) -> None:
        t, links = self.table, self.numbers.links
        below = 1.0 - links[:, ::-1].cumsum(axis=1)[:, ::-1]  # the chance of picking a lower level than each
        self.b = links.ravel()[t.pull_place] * t.pull_may
        self.c = below.ravel()[t.pull_place]

    def run(self, total: Expected, touched: Floats) -> None:
        """Add what this table's patterns make of everything to the sums; ``touched`` counts rows by net and cause."""
        t = self.table
        self._fold()
        forward = self._forward()
        self.chance = forward[-1][-1]
        self.posterior, self.fired = np.zeros_like(self.mode), np.zeros_like(self.b)
        values = self._backward(forward)
        self._unfold(*batchwise.left_open(values, self.fold_b, self.fold_c))
        self._quiet_rows()
        log_rows = np.bincount(t.row_pattern, self.log_row, minlength=len(t.count))
        total.log_likelihood += t.constant + float(t.count @ (np.log(self.chance) + log_rows))
        self._add_up(total, touched)

    def _fold(self) -> None:
        """Causes that pull at a single finding, together with its leak."""
        t = self.table
        lone = t.at < 0
        row, mode = t.mode_row[t.pull_mode[lone]], t.pull_mode[lone]
        weight = self.mode[mode]
        row_b = _sum(row, weight * self.b[lone], len(self.absent))[t.lone]
        self.row_c = 1.0 - _sum(row, weight * (1.0 - self.c[lone]), len(self.absent))[t.lone]
        self.odds = np.log1p(row_b / self.row_c)
        shape = t.leak_b.shape
        at = t.finding.astype(np.intp) * shape[1] + t.row_pattern[t.lone]
        self.all_odds = np.log1p(t.leak_b / t.leak_c) + _sum(at, self.odds, t.leak_b.size).reshape(shape)
        log_c = np.log(t.leak_c) + _sum(at, np.log(self.row_c), t.leak_b.size).reshape(shape)
        self.fold_c = np.exp(log_c)
        self.fold_b = self.fold_c * np.expm1(self.all_odds)

    def _forward(self) -> list[Floats]:
        """The weights before each step, and after the last."""
        t = self.table
        self.shared_b = np.zeros((t.width, t.shared_modes))
        self.shared_c = np.ones_like(self.shared_b)
        shared = t.at >= 0
        self.shared_b.reshape(-1)[t.at[shared]] = self.b[shared]
        self.shared_c.reshape(-1)[t.at[shared]] = self.c[shared]
        weights = batchwise.start(self.fold_b, self.fold_c)
        kept = []
        for step in t.steps:
            before = weights[:, : len(step.rows)].copy()
            kept.append(before)
            after = weights[:, : len(step.rows)]
            after *= self.absent[step.rows]
            for part in step.parts:
                b, c = self.shared_b[:, part.places], self.shared_c[:, part.places]
                moved = batchwise.forth(_of(before, part.patterns), b, c)
                moved *= self.mode[part.modes]
                _add(after, part.patterns, moved)
        return [*kept, weights]

    def _backward(self, forward: list[Floats]) -> Floats:
        """The posterior of every mode of the shared causes; what the rest makes of each set explained by folds."""
        values = np.zeros_like(forward[-1])
        values[-1] = 1.0
        self.shared_fired = np.zeros_like(self.shared_b)
        for step, before in zip(reversed(self.table.steps), reversed(forward[:-1]), strict=True):
            self._back_over(step, before, values[:, : len(step.rows)])
        shared = self.table.at >= 0
        self.fired[shared] = self.shared_fired.reshape(-1)[self.table.at[shared]]
        return values

    def _back_over(self, step: Step, before: Floats, values: Floats) -> None:
        later = values.copy()
        values *= self.absent[step.rows]
        for part in step.parts:
            b, c, mine = self.shared_b[:, part.places], self.shared_c[:, part.places], _of(later, part.patterns)
            moved = batchwise.forth(_of(before, part.patterns), b, c)
            share = self.mode[part.modes] / _of(self.chance[: len(step.rows)], part.patterns)
            self.posterior[part.modes] = share * batchwise.dot(moved, mine)
            self.shared_fired[:, part.places] = share * batchwise.fired(moved, mine, b, c)
            earlier = batchwise.back(mine, b, c)
            earlier *= self.mode[part.modes]
            _add(values, part.patterns, earlier)

    def _unfold(self, unexplained: Floats, explained: Floats) -> None:
        """The posteriors of the causes that pull at a single finding."""
        t = self.table
        at = t.finding, t.row_pattern[t.lone]
        chance = self.chance[at[1]]
        other_c = self.fold_c[at] / self.row_c
        other_b = other_c * np.expm1(np.maximum(0.0, self.all_odds[at] - self.odds))
        left, done = np.zeros_like(self.absent), np.zeros_like(self.absent)
        left[t.lone] = (other_c * unexplained[at] + other_b * explained[at]) / chance
        done[t.lone] = (other_b + other_c) * explained[at] / chance
        is_lone = np.zeros(len(self.absent), bool)
        is_lone[t.lone] = True
        modes = is_lone[t.mode_row]
        self.posterior[modes] = self.mode[modes] * left[t.mode_row[modes]]
        pulls = np.flatnonzero(t.at < 0)
        mode = t.pull_mode[pulls]
        row, weight = t.mode_row[mode], self.mode[mode]
        self.fired[pulls] = weight * self.b[pulls] * done[row]
        self.posterior[mode] = weight * self.c[pulls] * left[row] + self.fired[pulls]

    def _quiet_rows(self) -> None:
        """Rows that pull at nothing keep their weights."""
        t = self.table
        pulling = np.zeros(len(self.absent), bool)
        pulling[t.mode_row[t.pull_mode]] = True
        idle = ~pulling[t.mode_row]
        self.posterior[idle] = self.mode[idle]

    def _add_up(self, total: Expected, touched: Floats) -> None:
        t = self.table
        shape = total.there.shape
        count = t.count[t.row_pattern]
        modes = self.posterior * count[t.mode_row]
        rows = _sum(t.mode_row, modes, len(count))
        at = self.net * shape[1] + t.row_cause
        total.there += _sum(at, rows, total.there.size).reshape(shape)
        touched += _sum(at, count, total.there.size).reshape(shape)
        total.cases += _sum(t.net, t.count, shape[0])[:, None]
        total.cured += _sum(t.cured.number, modes[t.cured.of], len(total.cured))
        total.tried += _sum(t.cured.number, modes[t.cured.of], len(total.cured))
        total.tried += _sum(t.spared.number, modes[t.spared.of], len(total.cured))
        total.quiet += _sum(t.quiet.number, modes[t.quiet.of], len(total.quiet))
        total.quiet -= _sum(t.own.number, rows[t.own.of], len(total.quiet))
        shape = total.loud.shape
        total.loud += _sum(t.pull_place, modes[t.pull_mode], total.loud.size).reshape(shape)
        fired = self.fired * count[t.mode_row[t.pull_mode]]
        total.fired += _sum(t.pull_place, fired, total.loud.size).reshape(shape)


def _of(values: Floats, patterns: Ints | None) -> Floats:
    """The columns of some patterns; None means all."""
    return values if patterns is None else values[..., patterns]


def _add(values: Floats, patterns: Ints | None, more: Floats) -> None:
    if patterns is None:
        values += more
    else:
        values[:, patterns] += more


def _sum(groups: Ints, values: Floats, size: int) -> Floats:
    return np.asarray(np.bincount(groups, values, minlength=size), np.float64)


def _log(chances: Floats) -> Floats:
    """The logarithm, minus infinity for 0."""
    with np.errstate(divide="ignore"):
        return np.asarray(np.log(chances))
