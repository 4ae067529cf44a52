"""Single numbers that a shop's cases have taught, laid over entries by their ids: everything else of an entry stays."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any, TypeAlias

from diagnose.knowledge.conditions import Condition
from diagnose.knowledge.model import Cause, Chance, Check, Defect, Entries, Fix, Knowledge, Outcome, Rule
from diagnose.knowledge.numbers import Learned, LearnedCause, LearnedCheck, LearnedFix, LearnedRule
from diagnose.problems import Place

CASES = "this shop's cases"
_Subject: TypeAlias = tuple[str, str, frozenset[tuple[str, str]] | None]  # a defect, a cause, a condition as written


def laid(entries: Entries, learned: Learned) -> dict[str, Any]:
    """By kind, the entries with what was learnt. What leads nowhere is passed over (``astray`` finds it)."""
    causes, checks, fixes = dict(entries.causes), dict(entries.checks), dict(entries.fixes)
    defects = dict(entries.defects)
    causes |= {key: _cause(causes[key], new) for key, new in learned.causes.items() if key in causes}
    checks |= {key: _check(checks[key], new) for key, new in learned.checks.items() if key in checks}
    fixes |= {key: _fix(fixes[key], new) for key, new in learned.fixes.items() if key in fixes}
    for step, learnt in learned.minutes.items():
        if step in checks:
            checks[step] = replace(checks[step], minutes=learnt.minutes, basis=_with_cases(checks[step].basis))
        if step in fixes:
            fixes[step] = replace(fixes[step], minutes=learnt.minutes, basis=_with_cases(fixes[step].basis))
    by_defect: dict[str, list[LearnedRule]] = {}
    for rule in learned.rules:
        by_defect.setdefault(rule.defect, []).append(rule)
    defects |= {key: _defect(defects[key], new) for key, new in by_defect.items() if key in defects}
    return {"causes": causes, "defects": defects, "checks": checks, "fixes": fixes}


def with_numbers(knowledge: Knowledge, learned: Learned) -> Knowledge:
    """The knowledge with the learnt numbers laid over it."""
    before = (*knowledge.unlearned, numbers_before(knowledge, learned))
    return replace(knowledge, **laid(knowledge, learned), unlearned=before)


def unlearned(knowledge: Knowledge) -> Knowledge:
    """The knowledge as it is without what the shop's cases have taught."""
    for before in reversed(knowledge.unlearned):
        knowledge = replace(knowledge, **laid(knowledge, before), unlearned=())
    return knowledge


def numbers_before(entries: Entries, learned: Learned) -> Learned:
    """The numbers that these learnt ones take the place of."""
    causes, checks, fixes = entries.causes, entries.checks, entries.fixes
    rules = _indexed(entries, learned)
    return Learned(
        causes={
            key: LearnedCause(turns_up=causes[key].turns_up, shapes=causes[key].shapes, place=learnt.place)
            for key, learnt in learned.causes.items()
            if key in causes
        },
        rules=tuple(
            replace(learnt, brings=rule.brings, condition=rule.condition)
            for learnt in learned.rules
            for rule in rules.get(_wanted(learnt), ())
        ),
        checks={
            key: LearnedCheck(shows={o.id: o.shows for o in checks[key].outcomes}, place=learnt.place)
            for key, learnt in learned.checks.items()
            if key in checks
        },
        fixes={
            key: LearnedFix(cures=fixes[key].cures, place=learnt.place)
            for key, learnt in learned.fixes.items()
            if key in fixes
        },
        minutes={
            key: replace(learnt, minutes=checks[key].minutes if key in checks else fixes[key].minutes)
            for key, learnt in learned.minutes.items()
            if key in checks or key in fixes
        },
    )


def _indexed(entries: Entries, learned: Learned) -> dict[_Subject, list[Rule]]:
    """The rules of the defects that were learnt about, each under its cause alone and with its condition."""
    found: dict[_Subject, list[Rule]] = defaultdict(list)
    for defect in {rule.defect for rule in learned.rules} & set(entries.defects):
        for rule in entries.defects[defect].rules:
            found[defect, rule.cause, None].append(rule)
            found[defect, rule.cause, written(rule.condition)].append(rule)
    return dict(found)


def _wanted(learnt: LearnedRule) -> _Subject:
    """What a learnt number is indexed under: without a condition it is of every rule for its cause."""
    return learnt.defect, learnt.cause, written(learnt.condition) if learnt.condition.tests else None


def astray(entries: Entries, learned: Learned) -> Iterator[tuple[Place, str]]:
    """Every learnt number that belongs to nothing, and what it is about."""
    for cause, learnt in learned.causes.items():
        if cause not in entries.causes:
            yield learnt.place, f'cause "{cause}"'
    rules = _indexed(entries, learned)
    for rule in learned.rules:
        if _wanted(rule) not in rules:
            yield rule.place, f'rule from "{rule.cause}" to "{rule.defect}"'
    for check, of_check in learned.checks.items():
        known = {o.id: o.shows for o in entries.checks[check].outcomes} if check in entries.checks else {}
        for outcome, shows in of_check.shows.items():
            yield from _lost(of_check.place, f'outcome "{outcome}" of "{check}"', shows, known.get(outcome, {}))
        if check not in entries.checks:
            yield of_check.place, f'check "{check}"'
    for fix, of_fix in learned.fixes.items():
        if fix in entries.fixes:
            yield from _lost(of_fix.place, f'fix "{fix}"', of_fix.cures, entries.fixes[fix].cures)
        else:
            yield of_fix.place, f'fix "{fix}"'
    for step, taking in learned.minutes.items():
        if step not in entries.checks and step not in entries.fixes:
            yield taking.place, f'check or fix "{step}"'


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
    return replace(check, outcomes=outcomes, basis=_with_cases(check.basis))


def _outcome(outcome: Outcome, learnt: Mapping[str, Chance]) -> Outcome:
    return replace(outcome, shows={cause: learnt.get(cause, chance) for cause, chance in outcome.shows.items()})


def _fix(fix: Fix, learnt: LearnedFix) -> Fix:
    cures = {cause: learnt.cures.get(cause, chance) for cause, chance in fix.cures.items()}
    return replace(fix, cures=cures, basis=_with_cases(fix.basis))


def _defect(defect: Defect, learnt: Sequence[LearnedRule]) -> Defect:
    first: dict[_Subject, tuple[int, LearnedRule]] = {}
    for number, each in enumerate(learnt):
        first.setdefault(_wanted(each), (number, each))
    return replace(defect, rules=tuple([_rule(rule, first) for rule in defect.rules]))


def _rule(rule: Rule, learnt: Mapping[_Subject, tuple[int, LearnedRule]]) -> Rule:
    """The rule with the number learnt about it; of several, the first."""
    keys = (rule.defect, rule.cause, None), (rule.defect, rule.cause, written(rule.condition))
    mine = min((learnt[key] for key in keys if key in learnt), key=lambda pair: pair[0], default=None)
    return replace(rule, brings=mine[1].brings, basis=_with_cases(rule.basis)) if mine else rule


def same_rule(rule: Rule, learnt: LearnedRule) -> bool:
    """Whether the learnt number is that rule's."""
    if rule.cause != learnt.cause:
        return False
    return not learnt.condition.tests or written(rule.condition) == written(learnt.condition)


def written(condition: Condition) -> frozenset[tuple[str, str]]:
    """What tells conditions apart: each fact with what it must be, as written."""
    return frozenset((test.fact, test.written) for test in condition.tests)
