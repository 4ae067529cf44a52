"""Conditions on the job: which facts must hold for a rule, a prior, a check or a fix.

A job is a mapping from fact id (``item.polyester``) to its value: a text, a number or a truth value, or what is
``Usual`` where nobody told. A fact that nobody knows leaves a condition undecided (None), and so does one that is
usually this and may be that; undecided counts as "may hold".
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import TypeAlias

FactValue: TypeAlias = str | float | bool

MOST_WORLDS = 64  # that a job is looked at as; of facts beyond that the likeliest value is taken as so


@dataclass(frozen=True, slots=True)
class Usual:
    """A fact that nobody told: what it may be, each value with its chance, the usual one first. They sum to 1."""

    shares: tuple[tuple[FactValue, float], ...]

    @property
    def value(self) -> FactValue:
        """The usual value."""
        return self.shares[0][0]


Job: TypeAlias = Mapping[str, FactValue | Usual]

_COMPARISON = re.compile(r"\s*(<=|>=|<|>)\s*(-?\d+(?:\.\d+)?)\s*")
_SPAN = re.compile(r"\s*(-?\d+(?:\.\d+)?)\s*\.\.\s*(-?\d+(?:\.\d+)?)\s*")


@dataclass(frozen=True, slots=True)
class Span:
    """A range of numbers; ``least`` and ``most`` belong to it unless the matching flag is set."""

    least: float = float("-inf")
    most: float = float("inf")
    above_least: bool = False
    below_most: bool = False

    def holds(self, value: float) -> bool:
        if value < self.least or (self.above_least and value == self.least):
            return False
        return value < self.most or (value == self.most and not self.below_most)


@dataclass(frozen=True, slots=True)
class Test:
    """One fact and what it must be: one of some values, or a number within a span.

    ``written`` is the requirement as the author wrote it, for showing and for writing back.
    """

    __test__ = False  # not a pytest class

    fact: str
    values: tuple[FactValue, ...] = ()
    span: Span | None = None
    written: str = ""

    def holds(self, job: Job) -> bool | None:
        value = job.get(self.fact)
        if value is None:
            return None
        if not isinstance(value, Usual):
            return self.fits(value)
        held = {self.fits(each) for each, _ in value.shares}
        return held.pop() if len(held) == 1 else None

    def fits(self, value: FactValue) -> bool:
        """Whether the value is one of those that the fact must be."""
        if self.span is not None:
            return isinstance(value, int | float) and self.span.holds(float(value))
        return value in self.values


@dataclass(frozen=True, slots=True)
class Condition:
    """Tests that must all hold; with none, the condition always holds."""

    tests: tuple[Test, ...] = ()

    def holds(self, job: Job) -> bool | None:
        """True or False where the job's facts decide it, None where a fact is missing."""
        undecided = False
        for test in self.tests:
            held = test.holds(job)
            if held is False:
                return False
            undecided = undecided or held is None
        return None if undecided else True

    def may_hold(self, job: Job) -> bool:
        return not self.tests or self.holds(job) is not False


ALWAYS = Condition()


def facts_asked(conditions: Iterable[Condition]) -> tuple[str, ...]:
    """The facts that the conditions speak of, each once, in their order."""
    return tuple(dict.fromkeys([test.fact for condition in conditions for test in condition.tests]))


def worlds(job: Job, facts: Iterable[str]) -> list[tuple[Job, float]]:
    """What the job may be as far as these facts go, each with its chance; together 1. ``MOST_WORLDS`` at most."""
    found: list[tuple[Job, float]] = [(job, 1.0)]
    for fact in facts:
        if isinstance(usual := job.get(fact), Usual):
            few = len(found) * len(usual.shares) <= MOST_WORLDS
            shares = usual.shares if few else ((usual.value, 1.0),)
            found = [({**world, fact: value}, chance * share) for world, chance in found for value, share in shares]
    return found


def learnt(job: Job, told: Iterable[Condition]) -> Job:
    """The job once it is known that these conditions hold: of what may be, only what fits is left. Where nothing of it
    fits, what was thought is dropped, and the fact is the one value told, or unknown."""
    known = dict(job)
    for test in (test for condition in told for test in condition.tests):
        left = list(_left(test, known.pop(test.fact, None)))
        total = sum([share for _, share in left])
        if len(left) == 1:
            known[test.fact] = left[0][0]
        elif left:
            known[test.fact] = Usual(tuple([(value, share / total) for value, share in left]))
    return known


def _left(test: Test, value: FactValue | Usual | None) -> Iterator[tuple[FactValue, float]]:
    """What fits of that which a fact may be; else the value that is told, where it is a single one."""
    shares = value.shares if isinstance(value, Usual) else () if value is None else ((value, 1.0),)
    fitting = [(each, share) for each, share in shares if test.fits(each)]
    yield from fitting or [(each, 1.0) for each in test.values if len(test.values) == 1]


def parse_span(text: str) -> Span | None:
    """The span in ``"< 65"``, ``">= 3"`` or ``"50..80"``; None where the text is no such thing."""
    if match := _SPAN.fullmatch(text):
        return Span(least=float(match[1]), most=float(match[2]))
    if match := _COMPARISON.fullmatch(text):
        sign, number = match[1], float(match[2])
        if sign[0] == "<":
            return Span(most=number, below_most=sign == "<")
        return Span(least=number, above_least=sign == ">")
    return None


def may_overlap(one: Condition, other: Condition) -> bool:
    """False only where some fact would have to be two different things at once."""
    theirs = {test.fact: test for test in other.tests}
    return all(_meet(test, theirs[test.fact]) for test in one.tests if test.fact in theirs)


def _meet(one: Test, other: Test) -> bool:
    if one.span and other.span:
        return _spans_meet(one.span, other.span)
    if not one.span and not other.span:
        return not set(one.values).isdisjoint(other.values)
    spanned, listed = (one, other) if one.span else (other, one)
    return any(spanned.holds({spanned.fact: value}) for value in listed.values)


def _spans_meet(one: Span, other: Span) -> bool:
    low, high = (one, other) if one.most <= other.least else (other, one)
    if low.most == high.least:
        return not (low.below_most or high.above_least)
    return low.most > high.least
