"""Suggestions: from which count on, with which interval, and naming which cases."""

from datetime import UTC, datetime, timedelta

import pytest

from diagnose.casebook.case import Case
from diagnose.casebook.learning.jobs import Jobs
from diagnose.casebook.learning.numbers import parameters
from diagnose.casebook.learning.suggesting import (
    LEAST,
    Counted,
    NewCondition,
    NewRule,
    suggested_conditions,
    suggested_rules,
    wilson,
)
from diagnose.dialogue.moves import Cured, Pressed, Saw
from diagnose.dialogue.session import Session
from diagnose.knowledge.loading import load
from tests.casebook.learning.shelved import Shelved

KNOWLEDGE = load()
TOWEL, TILE = "tea-towel-polyester", "ceramic-tile"
FIX, OUT_OF_LINE = "set-heat-by-probe", "crooked-placement"


def case(number: int, item: str, saw: tuple[str, ...], fix: str) -> Case:
    ended = datetime(2026, 3, 1, tzinfo=UTC) + timedelta(hours=number)
    return Case(id=f"{number:032x}", ended=ended, session=Session((Pressed(item), Saw(saw), Cured(fix))))


def suggested(cases: list[Case]) -> tuple[list[NewRule], list[NewCondition]]:
    book, counted = Shelved.of(cases), Counted()
    jobs = Jobs(KNOWLEDGE, parameters(KNOWLEDGE))
    for one, count in book.patterns():
        counted.add(one, count, jobs)
    return suggested_rules(counted, KNOWLEDGE, book), suggested_conditions(counted, KNOWLEDGE, book)


def test_the_fix_and_the_defect_of_these_tests_are_not_connected() -> None:
    causes = set(KNOWLEDGE.fixes[FIX].cures)
    assert not causes & {rule.cause for rule in KNOWLEDGE.defects[OUT_OF_LINE].rules}
    assert causes & {rule.cause for rule in KNOWLEDGE.defects["faint-colour"].rules}


@pytest.mark.parametrize("count", range(1, LEAST + 2))
def test_a_cure_out_of_line_is_suggested_from_the_stated_number_of_cases_on(count: int) -> None:
    cases = [case(number, TOWEL, (OUT_OF_LINE,), FIX) for number in range(count)]
    cases += [case(100 + number, TOWEL, ("faint-colour",), FIX) for number in range(6)]
    rules, _ = suggested(cases)
    assert bool(rules) == (count >= LEAST)
    if rules:
        assert (rules[0].fix, rules[0].defect) == (FIX, OUT_OF_LINE)
        assert (rules[0].share.held, rules[0].share.cases) == (count, count + 6)
        assert rules[0].cases == tuple(f"{number:032x}" for number in range(count))


def test_a_cure_in_line_suggests_nothing() -> None:
    assert suggested([case(number, TOWEL, ("faint-colour",), FIX) for number in range(20)]) == ([], [])


def _rule_with_two_defects() -> tuple[str, str, str]:
    """A fix for one cause, and two defects that this cause brings on, on towels and tiles alike."""
    for fix in KNOWLEDGE.fixes.values():
        if len(fix.cures) == 1 and not fix.condition.tests:
            (cause,) = fix.cures
            defects = [
                d.id for d in KNOWLEDGE.defects.values() for r in d.rules if r.cause == cause and not r.condition.tests
            ]
            if len(defects) >= 2:
                return fix.id, defects[0], defects[1]
    raise AssertionError


def test_a_condition_under_which_a_rule_holds_much_more_often() -> None:
    fix, always, sometimes = _rule_with_two_defects()
    cases = [case(number, TOWEL, tuple(sorted((always, sometimes))), fix) for number in range(12)]
    cases += [case(100 + number, TILE, (always,), fix) for number in range(12)]
    _, conditions = suggested(cases)
    found = next(one for one in conditions if one.defect == sometimes)
    assert (found.there.held, found.there.cases) == (12, 12)
    assert (found.elsewhere.held, found.elsewhere.cases) == (0, 12)
    assert found.there.low > found.elsewhere.high
    assert found.cases == tuple(f"{number:032x}" for number in range(12))
    towel, tile = KNOWLEDGE.items[TOWEL].facts, KNOWLEDGE.items[TILE].facts
    assert towel[found.fact] == found.value != tile[found.fact]


def test_a_difference_that_chance_may_have_made_is_not_suggested() -> None:
    fix, always, sometimes = _rule_with_two_defects()
    cases = [case(number, TOWEL, tuple(sorted((always, sometimes))), fix) for number in range(4)]
    cases += [case(100 + number, TILE, (always,), fix) for number in range(2)]
    assert suggested(cases)[1] == []


def test_wilsons_interval() -> None:
    """8 of 10 at 95 %: the textbook's .490 to .943 (E. B. Wilson, 1927)."""
    assert wilson(8, 10, 1.96) == pytest.approx((0.490, 0.943), abs=1e-3)
    assert wilson(0, 0, 1.96) == (0.0, 1.0)
