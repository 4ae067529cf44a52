"""Single numbers that a shop's cases have taught, laid over entries by their ids: everything else of an entry stays."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Protocol, TypeVar

from diagnose.knowledge.conditions import ALWAYS, Condition
from diagnose.knowledge.model import Cause, Chance, Check, Defect, Fix, Outcome, Rule, Shape
from diagnose.problems import Place

CASES = "this shop's cases"
E = TypeVar("E")


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnedCause:
    """``turns_up`` and ``shapes`` take the place of the cause's own; None leaves them."""

    turns_up: Chance | None = None
    shapes: tuple[Shape, ...] | None = None
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnedRule:
    """How surely the rule for a cause and a defect brings it on. ``condition``: the rule's own, where there are several
    for the two."""

    cause: str
    defect: str
    brings: Chance
    condition: Condition = ALWAYS
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnedCheck:
    """``shows``: by outcome and cause. ``minutes``: None leaves them."""

    shows: Mapping[str, Mapping[str, Chance]] = field(default_factory=dict)
    minutes: float | None = None
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnedFix:
    """``cures``: by cause. ``minutes``: None leaves them."""

    cures: Mapping[str, Chance] = field(default_factory=dict)
    minutes: float | None = None
    place: Place


@dataclass(frozen=True, slots=True)
class Learned:
    """What was learnt, by id."""

    causes: Mapping[str, LearnedCause] = field(default_factory=dict)
    rules: tuple[LearnedRule, ...] = ()
    checks: Mapping[str, LearnedCheck] = field(default_factory=dict)
    fixes: Mapping[str, LearnedFix] = field(default_factory=dict)


class Entries(Protocol):
    """A layer, or the whole knowledge."""

    @property
    def causes(self) -> Mapping[str, Cause]: ...
    @property
    def defects(self) -> Mapping[str, Defect]: ...
    @property
    def checks(self) -> Mapping[str, Check]: ...
    @property
    def fixes(self) -> Mapping[str, Fix]: ...


@dataclass(frozen=True, slots=True)
class Laid:
    """The entries with the learnt numbers in place."""

    causes: dict[str, Cause]
    defects: dict[str, Defect]
    checks: dict[str, Check]
    fixes: dict[str, Fix]


def lay(entries: Entries, learned: Learned) -> Laid:
    """The entries with what was learnt. What leads nowhere is passed over (``astray`` finds it)."""
    causes, checks, fixes = dict(entries.causes), dict(entries.checks), dict(entries.fixes)
    defects = dict(entries.defects)
    causes |= {key: _cause(causes[key], new) for key, new in learned.causes.items() if key in causes}
    checks |= {key: _check(checks[key], new) for key, new in learned.checks.items() if key in checks}
    fixes |= {key: _fix(fixes[key], new) for key, new in learned.fixes.items() if key in fixes}
    by_defect: dict[str, list[LearnedRule]] = {}
    for rule in learned.rules:
        by_defect.setdefault(rule.defect, []).append(rule)
    defects |= {key: _defect(defects[key], new) for key, new in by_defect.items() if key in defects}
    return Laid(causes, defects, checks, fixes)


def astray(entries: Entries, learned: Learned) -> Iterator[tuple[Place, str]]:
    """Every learnt number that belongs to nothing, and what it is about."""
    for cause, learnt in learned.causes.items():
        if cause not in entries.causes:
            yield learnt.place, f'cause "{cause}"'
    for rule in learned.rules:
        defect = entries.defects.get(rule.defect)
        if not any(_same(known, rule) for known in (defect.rules if defect else ())):
            yield rule.place, f'rule from "{rule.cause}" to "{rule.defect}"'
    for check, of_check in learned.checks.items():
        known = {o.id: o.shows for o in entries.checks[check].outcomes} if check in entries.checks else {}
        for outcome, shows in of_check.shows.items():
            yield from _lost(of_check.place, f'outcome "{outcome}" of "{check}"', shows, known.get(outcome, {}))
        if check not in entries.checks:
            yield of_check.place, f'check "{check}"'
    for fix, of_fix in learned.fixes.items():
        if fix not in entries.fixes:
            yield of_fix.place, f'fix "{fix}"'
        else:
            yield from _lost(of_fix.place, f'fix "{fix}"', of_fix.cures, entries.fixes[fix].cures)


def _lost(
    place: Place, what: str, learnt: Mapping[str, Chance], known: Mapping[str, Chance]
) -> Iterator[tuple[Place, str]]:
    yield from ((place, f'{what} with the cause "{cause}"') for cause in learnt if cause not in known)


def _with_cases(basis: tuple[str, ...]) -> tuple[str, ...]:
    return basis if CASES in basis else (*basis, CASES)


def _cause(cause: Cause, learnt: LearnedCause) -> Cause:
    return replace(
        cause,
        turns_up=learnt.turns_up or cause.turns_up,
        shapes=cause.shapes if learnt.shapes is None else learnt.shapes,
        basis=_with_cases(cause.basis),
    )


def _check(check: Check, learnt: LearnedCheck) -> Check:
    outcomes = tuple([_outcome(each, learnt.shows.get(each.id, {})) for each in check.outcomes])
    minutes = check.minutes if learnt.minutes is None else learnt.minutes
    return replace(check, outcomes=outcomes, minutes=minutes, basis=_with_cases(check.basis))


def _outcome(outcome: Outcome, learnt: Mapping[str, Chance]) -> Outcome:
    return replace(outcome, shows=outcome.shows | {c: chance for c, chance in learnt.items() if c in outcome.shows})


def _fix(fix: Fix, learnt: LearnedFix) -> Fix:
    cures = fix.cures | {cause: chance for cause, chance in learnt.cures.items() if cause in fix.cures}
    minutes = fix.minutes if learnt.minutes is None else learnt.minutes
    return replace(fix, cures=cures, minutes=minutes, basis=_with_cases(fix.basis))


def _defect(defect: Defect, learnt: Sequence[LearnedRule]) -> Defect:
    return replace(defect, rules=tuple([_rule(rule, learnt) for rule in defect.rules]))


def _rule(rule: Rule, learnt: Sequence[LearnedRule]) -> Rule:
    mine = next((each for each in learnt if _same(rule, each)), None)
    return replace(rule, brings=mine.brings, basis=_with_cases(rule.basis)) if mine else rule


def _same(rule: Rule, learnt: LearnedRule) -> bool:
    if rule.cause != learnt.cause:
        return False
    return not learnt.condition.tests or written(rule.condition) == written(learnt.condition)


def written(condition: Condition) -> frozenset[tuple[str, str]]:
    """What tells conditions apart: each fact with what it must be, as written."""
    return frozenset((test.fact, test.written) for test in condition.tests)
