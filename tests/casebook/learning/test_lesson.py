"""The whole lesson, from a book in memory and from real casebooks; in one process and in two."""

from dataclasses import replace

import numpy as np
import pytest

from diagnose.casebook.learning.jobs import Jobs
from diagnose.casebook.learning.learning import learn
from diagnose.casebook.learning.lesson import patterns, take_lesson
from diagnose.casebook.learning.material import Gathering
from diagnose.casebook.learning.numbers import KNOWN, TurnUp, parameters
from diagnose.casebook.learning.sharing import sharing
from diagnose.casebook.learning.times import timed
from diagnose.casebook.learning.weights import LEAST_OF_A_KIND, MINUTES
from diagnose.casebook.store.casebook import Casebook
from diagnose.knowledge.conditions import Usual
from diagnose.knowledge.learned import with_numbers
from diagnose.knowledge.loading import load
from diagnose.knowledge.model import Chance, Knowledge
from diagnose.knowledge.numbers import Learned
from diagnose.knowledge.shop import Known, Press, Shop
from tests.casebook.learning.harbour import Harbour
from tests.casebook.learning.shelved import Shelved

KNOWLEDGE = load()


def test_no_cases_teach_nothing() -> None:
    lesson = take_lesson(Shelved(), KNOWLEDGE)
    assert (lesson.kept, lesson.cases, lesson.changes, lesson.minutes) == (0, 0, (), ())
    learned = lesson.learned
    assert learned == Learned()


def test_a_real_casebook_teaches_what_the_same_cases_in_a_list_do(book: Casebook) -> None:
    cases = list(Harbour(KNOWLEDGE, seed=6).cases(30))
    book.add(cases)
    found, wanted = take_lesson(book, KNOWLEDGE), take_lesson(Shelved.of(cases), KNOWLEDGE)
    assert found.cases == 30
    assert found.learned == wanted.learned
    assert [(each.step, each.new) for each in found.minutes] == [(each.step, each.new) for each in wanted.minutes]
    assert found.compared.log_score.mean == pytest.approx(wanted.compared.log_score.mean, abs=1e-9)


def test_what_was_learnt_before_is_no_starting_point() -> None:
    """The cases are still in the book: held to numbers they taught, they would count twice."""
    book = Shelved.of(Harbour(KNOWLEDGE, seed=6).cases(30))
    once = take_lesson(book, KNOWLEDGE)
    again = take_lesson(book, with_numbers(KNOWLEDGE, once.learned))
    assert again.learned == once.learned
    assert [change.old for change in again.changes] == [change.old for change in once.changes]


def test_cases_that_a_shipped_rule_came_from_are_not_used_again() -> None:
    cases = list(Harbour(KNOWLEDGE, seed=7).cases(12))
    knowledge = _with_learned_from(KNOWLEDGE, cases[3].id)
    kept, without = Shelved.of(cases), Shelved.of([case for case in cases if case is not cases[3]])
    assert sum(count for _, count in patterns(kept, knowledge)) == 11
    assert take_lesson(kept, knowledge).learned.causes == take_lesson(without, KNOWLEDGE).learned.causes


def _with_learned_from(knowledge: Knowledge, case_id: str) -> Knowledge:
    defect = knowledge.defects["ghosting"]
    rules = (replace(defect.rules[0], learned_from=(case_id,)), *defect.rules[1:])
    return replace(knowledge, defects={**knowledge.defects, "ghosting": replace(defect, rules=rules)})


def test_two_processes_learn_what_one_does() -> None:
    cases = list(Harbour(KNOWLEDGE, seed=8).cases(60))
    jobs = Jobs(KNOWLEDGE, parameters(KNOWLEDGE))
    alone = Gathering(jobs)
    with sharing(jobs) as shared:
        for case in cases:
            alone.add(case, 2.0)
            shared.add(case, 2.0)
        assert shared.cases == alone.cases == 120.0
        one, two = learn(alone.done(), jobs.parameters), learn(shared.done(), jobs.parameters)
    assert one.turns_up == two.turns_up
    for name in ("turns_up", "links", "cures"):
        assert np.allclose(getattr(one.numbers, name), getattr(two.numbers, name), atol=1e-9)


def test_kinds_of_jobs_get_numbers_of_their_own_only_where_their_cases_tell() -> None:
    harbour = Harbour(KNOWLEDGE, seed=9)
    jobs = Jobs(KNOWLEDGE, parameters(KNOWLEDGE))
    few, many = Gathering(jobs), Gathering(jobs)
    for case in harbour.cases(LEAST_OF_A_KIND - 1):
        few.add(case, 1.0)
        many.add(case, 20.0)
    assert not any(turn.family for turn in learn(few.done(), jobs.parameters).turns_up)
    learnt = learn(many.done(), jobs.parameters)
    own = [turn for turn in learnt.turns_up if turn.family]
    assert own
    at = {turn: place for place, turn in enumerate(learnt.turns_up)}
    overall = [learnt.numbers.turns_up[at[TurnUp(turn.cause, turn.shape)]] for turn in own]
    assert max(abs(np.log(learnt.numbers.turns_up[at[turn]] / o)) for turn, o in zip(own, overall, strict=True)) > 0.3


def test_minutes_are_shrunk_to_the_shipped_ones() -> None:
    check = KNOWLEDGE.checks["probe-the-platen"]
    (found,) = timed(KNOWLEDGE, {check.id: (int(MINUTES), check.minutes + 8.0, 1.0), "no-longer-known": (9, 3.0, 0.0)})
    assert found.new == pytest.approx(check.minutes + 4.0)
    assert timed(KNOWLEDGE, {check.id: (1, check.minutes, 0.0)}) == []
    assert timed(KNOWLEDGE, {check.id: (1000, 0.0, 0.0)})[0].new == 0.5


COOL = Known(cause="platen-runs-cool", turns_up=Chance(0.6), note="runs 6 °C cool at the left rear corner")
TWO_PRESSES = Shop(
    presses={
        "by-the-window": Press(id="by-the-window", title="By the window", known=(COOL,)),
        "by-the-door": Press(id="by-the-door", title="By the door", facts={"press.kind": "clamshell"}),
    }
)


def test_what_is_known_of_a_press_is_taken_as_it_is() -> None:
    jobs = Jobs.of(KNOWLEDGE, TWO_PRESSES)
    cases = [case for case in Harbour(KNOWLEDGE, seed=12).cases(40) if case.press == "by-the-window"]
    gathering = Gathering(jobs)
    for case in cases:
        gathering.add(case, 5.0)
    learnt = learn(gathering.done(), jobs.parameters)
    at = {turn: place for place, turn in enumerate(learnt.turns_up)}
    known = TurnUp("platen-runs-cool", KNOWN, press="by-the-window")
    assert learnt.numbers.turns_up[at[known]] == 0.6
    usual = at[TurnUp("platen-runs-cool")]
    assert learnt.numbers.turns_up[usual] == jobs.parameters.shipped.turns_up[usual]  # no case spoke of it
    assert not any(turn.cause == "platen-runs-cool" and turn.family for turn in learnt.turns_up)


def test_the_job_is_the_item_as_listed_on_the_press_of_the_dialogue() -> None:
    case = next(case for case in Harbour(KNOWLEDGE, seed=12).cases(9) if case.press == "by-the-door")
    item = KNOWLEDGE.items[case.session.item].listed
    assert isinstance(item["press.kind"], Usual)
    job = Jobs.of(KNOWLEDGE, TWO_PRESSES).job(case)
    assert job == {**item, "press.kind": "clamshell", "press.name": "by-the-door"}
    assert Jobs.of(KNOWLEDGE, Shop()).job(case) == item
