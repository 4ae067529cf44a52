"""Which cases confirm a rule, check or fix on trial, and how many it takes to settle it. Age never settles one."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Protocol, TypeAlias

from diagnose.casebook.case import Case
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Answered, Cured
from diagnose.dialogue.saving import unknown_ids
from diagnose.dialogue.session import Session
from diagnose.knowledge.model import Check, Fix, Knowledge, Rule
from diagnose.knowledge.shop import Shop

ENOUGH = 3  # cases, besides those the rule was learnt from
MOST = 200  # that are looked for
OnTrial: TypeAlias = Rule | Check | Fix


class Confirming(Protocol):
    """Anything that can tell which cases confirm a rule, a check or a fix."""

    def confirmations(self, one: OnTrial) -> list[str]:
        """Ids of cases, the earliest first, without those that a rule was learnt from."""


@dataclass(frozen=True, slots=True)
class InCases:
    """The cases of a casebook as confirmations. ``cases`` gives them all anew at every call, in the order of time."""

    knowledge: Knowledge
    shop: Shop
    cases: Callable[[], Iterable[Case]]

    def confirmations(self, one: OnTrial) -> list[str]:
        found: list[str] = []
        for case in self._of(one):
            if len(found) < MOST and not is_named(case.id, learned_from(one)):
                found.append(case.id)
        return found

    def _of(self, one: OnTrial) -> Iterator[Case]:
        if isinstance(one, Fix):
            return (case for case in self.cases() if case.cured_by == one.id)
        if isinstance(one, Check):
            return (case for case in self.cases() if led_to_the_cure(one, case, self.knowledge))
        start = Consultation(self.knowledge, self.shop, Session())
        fixes = {fix.id: fix.cures for fix in self.knowledge.fixes.values()}
        return (case for case in self.cases() if confirms(start, case, one, fixes))


def confirms(start: Consultation, case: Case, rule: Rule, fixes: Mapping[str, Mapping[str, object]]) -> bool:
    """Whether the rule's cause came first in a case that showed its defect, and a fix for that cause cured it. What
    cured it is left out in saying which came first: a fix that worked may have put something else right."""
    if rule.cause not in fixes.get(case.cured_by, {}) or rule.defect not in case.session.evidence.seen:
        return False
    if unknown_ids(case.session, start.knowledge):
        return False
    before = start.then(Session(tuple(move for move in case.session.moves if not isinstance(move, Cured))))
    first = before.suspects[:1]
    return rule.condition.may_hold(before.job) and bool(first) and first[0].cause == rule.cause


def led_to_the_cure(check: Check, case: Case, knowledge: Knowledge) -> bool:
    """Whether what a check showed in a case speaks for a cause that the fix which cured it puts right."""
    fix = knowledge.fixes.get(case.cured_by)
    outcomes = {outcome.id: outcome for outcome in check.outcomes}
    answers = [move.outcome for move in case.session.moves if isinstance(move, Answered) and move.check == check.id]
    shown = {cause for answer in answers if answer in outcomes for cause in outcomes[answer].shows}
    return fix is not None and bool(shown & set(fix.cures))


def learned_from(one: OnTrial) -> tuple[str, ...]:
    """The cases that a rule was learnt from; none for a check or a fix."""
    return one.learned_from if isinstance(one, Rule) else ()


def is_named(case: str, names: Iterable[str]) -> bool:
    """Whether a case goes by one of some names: its id, or the beginning or end of it (four digits or more)."""
    return any(case == name or (len(name) >= 4 and (case.startswith(name) or case.endswith(name))) for name in names)


def confirmed(one: OnTrial, cases: Confirming | None) -> list[str]:
    """The names of all cases that confirm a rule, a check or a fix: those written down with it, then further ones of
    the casebook."""
    written = [name for name in one.confirmed_by if name not in learned_from(one)]
    counted = cases.confirmations(one) if cases else []
    return [*written, *(case for case in counted if not is_named(case, written))]
