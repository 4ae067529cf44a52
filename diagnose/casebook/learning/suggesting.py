"""Rules worth writing: what cured against all rules, and rules that hold much more often under one condition.

A cure *confirms* a cause where the fix that made everything good puts right just one cause that a rule connects with
what was left; it is *out of line* where none of the causes it puts right is connected with any of it. Suggestions are
counts of such cases, not of what the network believes: they speak for themselves, and name the cases.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from math import sqrt

from diagnose.casebook.case import Case
from diagnose.casebook.learning.jobs import Jobs, Wiring
from diagnose.casebook.learning.material import CaseSource
from diagnose.knowledge.conditions import FactValue, Job
from diagnose.knowledge.model import Knowledge, Rule

LEAST = 4  # cases that a suggestion rests on; with fewer there is none
SURE = 2.576  # standard deviations: intervals that hold 99 %, since many conditions are looked at
SHOWN = 1.96
NAMED = 12  # cases that a suggestion names


@dataclass(frozen=True, slots=True)
class Proportion:
    """``held`` of ``cases``; ``low`` and ``high``: Wilson's interval (E. B. Wilson, 1927) that holds 95 %."""

    held: int
    cases: int
    low: float
    high: float

    @classmethod
    def of(cls, held: int, cases: int, deviations: float = SHOWN) -> "Proportion":
        return cls(held, cases, *wilson(held, cases, deviations))


def wilson(held: int, cases: int, deviations: float) -> tuple[float, float]:
    """The interval for a chance of which ``held`` of ``cases`` were seen."""
    if not cases:
        return 0.0, 1.0
    share, square = held / cases, deviations**2
    middle = (share + square / (2 * cases)) / (1 + square / cases)
    half = deviations * sqrt(share * (1 - share) / cases + square / (4 * cases**2)) / (1 + square / cases)
    return max(0.0, middle - half), min(1.0, middle + half)


@dataclass(frozen=True, slots=True)
class NewRule:
    """Cures out of line: ``fix`` made ``defect`` go away ``share.held`` times, of so many that it cured at all; no rule
    leads from any of ``causes``, which it puts right, to that defect."""

    fix: str
    causes: tuple[str, ...]
    defect: str
    share: Proportion
    cases: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NewCondition:
    """Of cases with the cause confirmed, the share with the defect: where ``fact`` is ``value``, and elsewhere."""

    cause: str
    defect: str
    fact: str
    value: FactValue
    there: Proportion
    elsewhere: Proportion
    cases: tuple[str, ...]


@dataclass(slots=True)
class _Group:
    """Patterns that belong together: how many cases, and one of each pattern."""

    count: int = 0
    patterns: list[str] = field(default_factory=list)

    def add(self, case: Case, count: int) -> None:
        self.count += count
        self.patterns.append(case.id)


@dataclass(slots=True)
class Counted:
    """What the patterns come to. ``out_of_line``: by fix and defect; ``cured``: by fix; ``confirmed``: by cause, the
    job, the defects seen, and the pattern with its count."""

    out_of_line: dict[tuple[str, str], _Group] = field(default_factory=dict)
    cured: dict[str, int] = field(default_factory=dict)
    confirmed: dict[str, list[tuple[Job, frozenset[str], str, int]]] = field(default_factory=dict)

    def add(self, case: Case, number: int, jobs: Jobs) -> None:
        """Count the cure of a case that stands for so many."""
        job = jobs.job(case)
        wiring = jobs.wiring(job)
        if case.cured_by in wiring.cures:
            _count(self, case, number, job, wiring)


def _count(counted: Counted, case: Case, number: int, job: Job, wiring: Wiring) -> None:
    fix, evidence = case.cured_by, case.session.evidence
    left = [defect for defect in evidence.left if defect in wiring.defects]
    if not left:
        return
    counted.cured[fix] = counted.cured.get(fix, 0) + number
    linked = {cause for defect in left for cause, _ in wiring.defects[defect].links}
    right = [cause for cause, _ in wiring.cures[fix] if cause in linked]
    if not right:
        for defect in left:
            counted.out_of_line.setdefault((fix, defect), _Group()).add(case, number)
    elif len(right) == 1:
        name = wiring.causes[right[0]]
        counted.confirmed.setdefault(name, []).append((job, frozenset(evidence.seen), case.id, number))


def suggested_rules(counted: Counted, knowledge: Knowledge, book: CaseSource) -> list[NewRule]:
    """The most cases first."""
    found = []
    for (fix, defect), group in counted.out_of_line.items():
        if group.count >= LEAST:
            share = Proportion.of(group.count, counted.cured[fix])
            causes = tuple(knowledge.fixes[fix].cures)
            found.append(NewRule(fix, causes, defect, share, named(group.patterns, book)))
    return sorted(found, key=lambda rule: (-rule.share.held, rule.fix, rule.defect))


def named(patterns: Sequence[str], book: CaseSource) -> tuple[str, ...]:
    """The first so many ids of the cases of some patterns, the earliest first."""
    ids: set[str] = set()
    for pattern in sorted(patterns)[:NAMED]:
        ids.update(book.alike(pattern)[:NAMED])
    return tuple(sorted(ids)[:NAMED])


def suggested_conditions(counted: Counted, knowledge: Knowledge, book: CaseSource) -> list[NewCondition]:
    """For each rule the condition that sets it apart most, if any does beyond doubt; the widest gap first."""
    found = []
    for defect in knowledge.defects.values():
        for rule in defect.rules:
            conditions = list(_conditions(rule, counted, knowledge, book))
            if conditions:
                found.append(max(conditions, key=_gap))
    return sorted(found, key=lambda one: (-_gap(one), one.cause, one.defect))


def _gap(condition: NewCondition) -> float:
    return condition.there.low - condition.elsewhere.high


def _conditions(rule: Rule, counted: Counted, knowledge: Knowledge, book: CaseSource) -> Iterator[NewCondition]:
    asked = {test.fact for test in rule.condition.tests}
    confirmed = [each for each in counted.confirmed.get(rule.cause, ()) if rule.condition.may_hold(each[0])]
    values = {
        (fact, value)
        for job, _, _, _ in confirmed
        for fact, value in job.items()
        if isinstance(value, str | bool) and fact not in asked and fact in knowledge.facts
    }
    for fact, value in sorted(values, key=str):
        there = [each for each in confirmed if each[0].get(fact) == value]
        elsewhere = [each for each in confirmed if fact in each[0] and each[0][fact] != value]
        if _much_more(rule.defect, there, elsewhere):
            patterns = [pattern for _, seen, pattern, _ in there if rule.defect in seen]
            yield NewCondition(
                rule.cause, rule.defect, fact, value,
                _share(rule.defect, there, SHOWN), _share(rule.defect, elsewhere, SHOWN), named(patterns, book),
            )  # fmt: skip


Confirmed = Sequence[tuple[Job, frozenset[str], str, int]]


def _much_more(defect: str, there: Confirmed, elsewhere: Confirmed) -> bool:
    one, other = _share(defect, there, SURE), _share(defect, elsewhere, SURE)
    return one.held >= LEAST and other.cases >= LEAST and one.low > other.high


def _share(defect: str, cases: Confirmed, deviations: float) -> Proportion:
    held = sum(number for _, seen, _, number in cases if defect in seen)
    return Proportion.of(held, sum(number for _, _, _, number in cases), deviations)
