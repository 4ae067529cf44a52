"""What a casebook teaches, all in one: numbers, whether they predict better, minutes, suggestions."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from diagnose.casebook.case import Case
from diagnose.casebook.learning.applying import Applying
from diagnose.casebook.learning.changes import ChanceChange, changes
from diagnose.casebook.learning.jobs import Jobs
from diagnose.casebook.learning.learning import learn
from diagnose.casebook.learning.material import CaseSource, Gathering
from diagnose.casebook.learning.numbers import NO_SHOP
from diagnose.casebook.learning.prequential import LOTS, NEWEST, Compared, compared, predicted
from diagnose.casebook.learning.sharing import SharedGathering, sharing
from diagnose.casebook.learning.suggesting import (
    Counted,
    NewCondition,
    NewRule,
    suggested_conditions,
    suggested_rules,
)
from diagnose.casebook.learning.times import Timed, timed
from diagnose.knowledge.learned import unlearned
from diagnose.knowledge.model import SHIPPED, Knowledge
from diagnose.knowledge.numbers import Learned
from diagnose.knowledge.shop import Shop
from diagnose.pace import Far, part, unheard

LARGE = 50_000  # cases: from here on two processes share the work
READ, LEARNT = 0.35, 0.6  # of the work with a large casebook: the share that is done by then
OFTEN_UP_TO = 5_000  # cases: beyond, the newest are predicted in a single lot


@dataclass(frozen=True, slots=True)
class Lesson:
    """``learned``: what would be written. ``cases``: how many could be learnt from, of ``kept`` in the book."""

    kept: int
    cases: int
    learned: Learned
    changes: tuple[ChanceChange, ...]
    minutes: tuple[Timed, ...]
    compared: Compared
    rules: tuple[NewRule, ...]
    conditions: tuple[NewCondition, ...]


def take_lesson(book: CaseSource, knowledge: Knowledge, shop: Shop = NO_SHOP, far: Far = unheard) -> Lesson:
    """Learn from the whole book. Numbers learnt before are left aside: the cases they came from are in the book."""
    knowledge, kept = unlearned(knowledge), book.count()
    jobs, counted = Jobs.of(knowledge, shop), Counted()
    with _gathering(jobs, kept) as gathering:
        read = 0
        for case, count in patterns(book, knowledge):
            gathering.add(case, float(count))
            counted.add(case, count, jobs)
            read += max(0, count)
            far(READ * read / kept)
        learnt = learn(gathering.done(), jobs.parameters, far=part(far, READ, LEARNT))
        scores = _scores(book, gathering, jobs, kept, part(far, LEARNT, 1.0))
    minutes = timed(knowledge, book.times())
    applying = Applying(knowledge, jobs.parameters, learnt, {each.step: each.new for each in minutes})
    learned = applying.learned()
    return Lesson(
        kept=kept,
        cases=round(learnt.cases),
        learned=learned,
        changes=tuple(changes(applying, learned)),
        minutes=tuple(minutes),
        compared=scores,
        rules=tuple(suggested_rules(counted, knowledge, book)),
        conditions=tuple(suggested_conditions(counted, knowledge, book)),
    )


@contextmanager
def _gathering(jobs: Jobs, cases: int) -> Iterator[Gathering | SharedGathering]:
    if cases < LARGE:
        yield Gathering(jobs)
        return
    with sharing(jobs) as shared:
        yield shared


def patterns(book: CaseSource, knowledge: Knowledge) -> Iterator[tuple[Case, int]]:
    """The book's patterns, with the cases taken off that what ships was learnt from: they have been counted."""
    yield from book.patterns()
    for case_id in used(knowledge):
        case = book.get(case_id)
        if case is not None:
            yield case, -1


def used(knowledge: Knowledge) -> list[str]:
    """The ids of the cases that shipped rules name as those they came from."""
    rules = [rule for defect in knowledge.defects.values() for rule in defect.rules if rule.origin == SHIPPED]
    return sorted({case for rule in rules for case in rule.learned_from})


def _scores(book: CaseSource, gathering: Gathering | SharedGathering, jobs: Jobs, kept: int, far: Far) -> Compared:
    """How the newest cases are predicted by what those before them teach."""
    barred = set(used(jobs.knowledge))
    newest = [case for case in reversed(book.newest(NEWEST)) if case.id not in barred]
    if kept <= NEWEST:
        return compared(list(predicted(newest, Gathering(jobs), jobs, LOTS, far)))
    for case in newest:
        gathering.add(case, -1.0)
    return compared(list(predicted(newest, gathering, jobs, LOTS if kept <= OFTEN_UP_TO else 1, far)))
