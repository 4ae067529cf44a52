"""Rules on trial, the cases that confirm them, and how they are settled."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from diagnose.casebook.case import Case
from diagnose.casebook.proposing.confirming import ENOUGH, InCases, confirmed, is_named
from diagnose.casebook.proposing.draft import Draft
from diagnose.casebook.proposing.entries import entries
from diagnose.casebook.proposing.laying import lay
from diagnose.casebook.proposing.promoting import promoted, trial_rule
from diagnose.dialogue.moves import Answered, Cured, Move, Pressed, Saw
from diagnose.dialogue.session import Session
from diagnose.knowledge.model import Knowledge, Rule
from diagnose.knowledge.shop import Shop
from diagnose.knowledge.trial import rests_on_trial, trial_rules
from diagnose.problems import PressloreError
from tests.casebook.proposing.conftest import SMALLEST, known

CAUSE = "piece-comes-cold-from-store"
SEEN: tuple[Move, ...] = (Pressed("tea-towel", {}), Saw(("faint-colour",)), Answered("feel-piece", "colder-than-room"))
FIXED = (*SEEN, Cured("bring-pieces-overnight"))


@pytest.fixture
def after(draft: Draft, knowledge: Knowledge, shop: Path) -> Knowledge:
    for file in lay(entries(draft, knowledge, "2026-11-25"), shop):
        file.save()
    return known(SMALLEST, shop)


@pytest.fixture
def rule(after: Knowledge) -> Rule:
    return trial_rule(after, "faint-colour", CAUSE)


def case(number: int, moves: Iterable[Move]) -> Case:
    return Case(id=f"{number:032x}", ended=datetime(2026, 12, number, tzinfo=UTC), session=Session(tuple(moves)))


def counted(knowledge: Knowledge, rule: Rule, *cases: Case) -> list[str]:
    return InCases(knowledge, Shop(), lambda: cases).confirmations(rule)


def test_a_case_confirms_where_the_cause_came_first_and_its_fix_cured(after: Knowledge, rule: Rule) -> None:
    assert counted(after, rule, case(1, FIXED)) == [case(1, ()).id]


@pytest.mark.parametrize(
    "moves",
    [
        SEEN,
        (*SEEN, Cured("press-longer")),
        (Pressed("tea-towel", {}), Saw(("faint-colour",)), Cured("bring-pieces-overnight")),
        (Pressed("gone", {}), Saw(("gone",)), Cured("bring-pieces-overnight")),
        (Pressed("", {"item.polyester": 10.0}), *FIXED[1:]),
    ],
    ids=["not cured", "by another fix", "the cause did not come first", "of what is not known", "another job"],
)
def test_other_cases_do_not(after: Knowledge, rule: Rule, moves: tuple[Move, ...]) -> None:
    assert counted(after, rule, case(1, moves)) == []


def test_cases_that_it_was_learnt_from_do_not_count(after: Knowledge, rule: Rule) -> None:
    learnt = replace(rule, learned_from=(case(1, ()).id[-8:],))
    assert counted(after, learnt, case(1, FIXED), case(2, FIXED)) == [case(2, ()).id]


def test_cases_written_down_and_counted_are_counted_once(after: Knowledge, rule: Rule) -> None:
    noted = replace(rule, confirmed_by=(case(2, ()).id[-8:], "card-7"))
    cases = InCases(after, Shop(), lambda: [case(1, FIXED), case(2, FIXED)])
    assert confirmed(noted, cases) == [case(2, ()).id[-8:], "card-7", case(1, ()).id]


def test_names_of_cases() -> None:
    assert is_named("abcdef0123", ["abcd"])
    assert is_named("abcdef0123", ["0123"])
    assert not is_named("abcdef0123", ["abc", "cdef"])


def test_a_rule_on_trial_marks_its_cause_until_it_is_settled(after: Knowledge, rule: Rule, shop: Path) -> None:
    assert [each.cause for _, each in trial_rules(after)] == [CAUSE]
    assert rests_on_trial(after, CAUSE)
    assert not rests_on_trial(after, "dwell-short")
    promoted(rule, ["one", "two"], shop).save()
    noted = trial_rule(known(SMALLEST, shop), "faint-colour", CAUSE)
    assert (noted.status, noted.confirmed_by) == ("trial", ("one", "two"))
    before = (shop / "rules" / "faint-colour.yaml").read_text().splitlines()
    file = promoted(noted, ["one", "two", "three"], shop)
    file.save()
    changed = set(file.text().splitlines()) - set(before)
    assert changed == {"    status: settled", "    confirmed-by: [one, two, three]"}
    assert not rests_on_trial(known(SMALLEST, shop), CAUSE)
    assert ENOUGH == 3


@pytest.mark.parametrize(
    ("cause", "words"),
    [("dwell-short", "is settled already"), ("dwell-shrt", "no rule says that dwell-shrt")],
)
def test_what_cannot_be_settled(after: Knowledge, cause: str, words: str) -> None:
    with pytest.raises(PressloreError, match=words):
        trial_rule(after, "faint-colour", cause)
