"""Which cases confirm a rule on trial, and how many it takes until it is settled. Age never settles one."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Protocol

from diagnose.casebook.case import Case
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Cured
from diagnose.dialogue.saving import unknown_ids
from diagnose.dialogue.session import Session
from diagnose.knowledge.model import Knowledge, Rule
from diagnose.knowledge.shop import Shop

ENOUGH = 3  # cases, besides those the rule was learnt from
MOST = 200  # that are looked for


class Confirming(Protocol):
    """Anything that can tell which cases confirm a rule."""

    def confirmations(self, rule: Rule) -> list[str]:
        """Ids of cases, the earliest first, without those that the rule was learnt from."""


@dataclass(frozen=True, slots=True)
class InCases:
    """The cases of a casebook as confirmations. ``cases`` gives them all anew at every call, in the order of time."""

    knowledge: Knowledge
    shop: Shop
    cases: Callable[[], Iterable[Case]]

    def confirmations(self, rule: Rule) -> list[str]:
        found: list[str] = []
        for case in self._of(rule):
            if len(found) < MOST and not is_named(case.id, rule.learned_from):
                found.append(case.id)
        return found

    def _of(self, rule: Rule) -> Iterator[Case]:
        start = Consultation(self.knowledge, self.shop, Session())
        fixes = {fix.id: fix.cures for fix in self.knowledge.fixes.values()}
        return (case for case in self.cases() if confirms(start, case, rule, fixes))


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


def is_named(case: str, names: Iterable[str]) -> bool:
    """Whether a case goes by one of some names: its id, or the beginning or end of it (four digits or more)."""
    return any(case == name or (len(name) >= 4 and (case.startswith(name) or case.endswith(name))) for name in names)


def confirmed(rule: Rule, cases: Confirming | None) -> list[str]:
    """The names of all cases that confirm a rule: those written down with it, then further ones of the casebook."""
    written = [name for name in rule.confirmed_by if name not in rule.learned_from]
    counted = cases.confirmations(rule) if cases else []
    return [*written, *(case for case in counted if not is_named(case, written))]
