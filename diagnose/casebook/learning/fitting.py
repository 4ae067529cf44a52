"""Expectation-maximisation: numbers that make the cases likelier, held back by the shipped ones."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from diagnose.casebook.learning.expecting import Expected
from diagnose.casebook.learning.numbers import Bools, Floats, Ints, Numbers
from diagnose.casebook.learning.weights import BRINGS, CURES, SHOWS, TURNS_UP
from diagnose.reasoning.network import MOST

Expect = Callable[[Numbers, Ints], Expected]
ENOUGH = 5e-3  # nats a case: EM ends once a step gains less
MOST_STEPS = 25


@dataclass(frozen=True, slots=True)
class Held:
    """The numbers that the learnt ones are drawn to, and how many cases each weighs: ``turns_up`` (T,), ``links``
    (L + 1,), ``cures`` (C,). ``settled``: (T,), turn-ups that stay as they are."""

    to: Numbers
    turns_up: Floats
    links: Floats
    cures: Floats
    settled: Bools

    @classmethod
    def shipped(cls, shipped: Numbers, rules: int, settled: Sequence[int] = ()) -> "Held":
        """Every number held to the shipped one; the first ``rules`` links are rules, the last is no parameter. The
        turn-ups in the places ``settled`` are not learnt."""
        links = np.full(len(shipped.links), SHOWS)
        links[:rules] = BRINGS
        turns_up, cures = np.full(shipped.turns_up.shape, TURNS_UP), np.full(shipped.cures.shape, CURES)
        return cls(shipped, turns_up, links, cures, np.isin(np.arange(len(turns_up)), settled))

    def log_prior(self, numbers: Numbers) -> float:
        """The log of the prior's density at the numbers, up to a constant: 0 at its top for chances of 0 and 1."""
        return float(
            self.turns_up @ np.where(self.settled, 0.0, _agreement(self.to.turns_up, numbers.turns_up))
            + self.cures @ _agreement(self.to.cures, numbers.cures)
            + self.links[:-1] @ _levels(self.to.links, numbers.links)[:-1]
        )


def _agreement(held: Floats, now: Floats) -> Floats:
    return _weighted_log(held, now) + _weighted_log(1.0 - held, 1.0 - now)


def _levels(held: Floats, now: Floats) -> Floats:
    rest = _weighted_log(1.0 - held.sum(axis=1), 1.0 - now.sum(axis=1))
    return np.asarray(_weighted_log(held, now).sum(axis=1) + rest)


def _weighted_log(weight: Floats, value: Floats) -> Floats:
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(weight > 0.0, weight * np.log(value), 0.0)


@dataclass(frozen=True, slots=True)
class Fitted:
    """``expected``: what is expected at these numbers. ``climbed``: the penalised log likelihood before each step, and
    at the end."""

    numbers: Numbers
    expected: Expected
    climbed: tuple[float, ...]


def fit(
    start: Numbers, expected: Expected, held: Held, turn_of: Ints, expect: Expect, enough: float, most: int = MOST_STEPS
) -> Fitted:
    """Climb until a step gains less than ``enough`` nats in all, or ``most`` steps are made. ``expected``: what is
    expected at the start. ``turn_of``: (nets, causes), the place of each cause's turn-up."""
    now, climbed = start, [expected.log_likelihood + held.log_prior(start)]
    for _ in range(most):
        now = maximise(now, held, turn_of, expected)
        expected = expect(now, turn_of)
        climbed.append(expected.log_likelihood + held.log_prior(now))
        if climbed[-1] - climbed[-2] < enough:
            break
    return Fitted(now, expected, tuple(climbed))


def maximise(now: Numbers, held: Held, turn_of: Ints, expected: Expected) -> Numbers:
    """The M-step: (held number times its weight + cases in which it was so) / (weight + cases). It is written as the
    held number and a step from it, so that without cases it is that number to the last bit."""
    size = len(now.turns_up)
    there = by_turn(turn_of, expected.there, size)
    cases = by_turn(turn_of, expected.cases, size)
    return Numbers(
        turns_up=np.where(held.settled, now.turns_up, _shrunk(held.to.turns_up, held.turns_up, there, cases)),
        links=_shrunk_links(now.links, held, expected),
        cures=_shrunk(held.to.cures, held.cures, expected.cured, expected.tried),
    )


def by_turn(turn_of: Ints, values: Floats, size: int) -> Floats:
    """Sums over nets and causes, by the turn-up they have."""
    return np.asarray(np.bincount(turn_of.ravel(), values.ravel(), minlength=size), np.float64)


def _shrunk(held: Floats, weight: Floats, was_so: Floats, cases: Floats) -> Floats:
    stepped = held + (was_so - cases * held) / (weight + cases)
    return np.where((held > 0.0) & (held < 1.0), np.clip(stepped, 0.0, 1.0), held)


def _shrunk_links(now: Floats, held: Held, expected: Expected) -> Floats:
    """What a cause that did not fire at the level seen picked below it stays hidden: it is spread over the lower
    levels as the present numbers have it."""
    picked = np.zeros_like(now)
    lower = 1.0 - now.sum(axis=1)  # the chance of a level below each, the quiet one first
    cases = expected.quiet + expected.loud.sum(axis=1)
    for level in range(now.shape[1]):
        picked[:, level] += expected.fired[:, level]
        silent = np.maximum(0.0, expected.loud[:, level] - expected.fired[:, level])
        picked[:, :level] += (silent / np.where(lower > 0.0, lower, 1.0))[:, None] * now[:, :level]
        lower = lower + now[:, level]
    cases, weight = cases[:, None], held.links[:, None]
    stepped = held.to.links + (picked - cases * held.to.links) / (weight + cases)
    result = np.where(held.to.links > 0.0, np.clip(stepped, 0.0, MOST), held.to.links)
    result[-1] = now[-1]
    return result
