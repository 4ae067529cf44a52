"""Learning predicts better, soon, and never much worse: a shop whose numbers differ from the shipped ones.

The whole measurement, with more shops and up to 500 cases, is ``./dev bench learning``.
"""

import pytest

from diagnose.casebook.learning.calibration import mean_of
from diagnose.casebook.learning.jobs import Jobs
from diagnose.casebook.learning.material import Gathering
from diagnose.casebook.learning.numbers import parameters
from diagnose.casebook.learning.prequential import PredictedPair, compared, predicted
from diagnose.knowledge.loading import load
from tests.casebook.learning.harbour import Harbour

KNOWLEDGE = load()


def pairs(harbour: Harbour, count: int) -> list[PredictedPair]:
    jobs = Jobs(KNOWLEDGE, parameters(KNOWLEDGE))
    return list(predicted(list(harbour.cases(count)), Gathering(jobs), jobs, lots=8))


@pytest.mark.slow
@pytest.mark.parametrize("seed", [11, 12, 13])
def test_better_by_a_hundred_cases_and_never_worse(seed: int) -> None:
    found = pairs(Harbour(KNOWLEDGE, seed), 100)
    gained = [pair.after.log_score - pair.before.log_score for pair in found]
    assert mean_of(gained).better
    assert not any(mean_of(gained[:count]).worse for count in (10, 20, 50))


def test_the_first_lot_is_predicted_by_the_numbers_as_they_are() -> None:
    found = pairs(Harbour(KNOWLEDGE, seed=2), 20)
    assert all(pair.before == pair.after for pair in found[:8])
    assert any(pair.before != pair.after for pair in found[-8:])


def test_each_case_is_predicted_before_it_is_learnt() -> None:
    """Other cases afterwards change nothing of what was predicted before."""
    jobs = Jobs(KNOWLEDGE, parameters(KNOWLEDGE))
    cases, others = list(Harbour(KNOWLEDGE, seed=2).cases(30)), list(Harbour(KNOWLEDGE, seed=3).cases(10))
    one = list(predicted(cases, Gathering(jobs), jobs, lots=3))
    other = list(predicted([*cases[:20], *others], Gathering(jobs), jobs, lots=3))
    assert one[:18] == other[:18]


def test_taking_the_newest_off_is_never_having_had_them() -> None:
    jobs = Jobs(KNOWLEDGE, parameters(KNOWLEDGE))
    cases = list(Harbour(KNOWLEDGE, seed=4).cases(40))
    fresh, used = Gathering(jobs), Gathering(jobs)
    for case in cases[:30]:
        fresh.add(case, 1.0)
    for case in cases:
        used.add(case, 1.0)
    for case in cases[30:]:
        used.add(case, -1.0)
    one, other = (list(predicted(cases[30:], gathering, jobs, lots=1)) for gathering in (fresh, used))
    for mine, theirs in zip(one, other, strict=True):
        assert mine.after.log_score == pytest.approx(theirs.after.log_score, abs=1e-9)


def test_nothing_to_compare_is_said() -> None:
    found = compared([])
    assert (found.cases, found.cures, found.log_score.mean) == (0, 0, 0.0)
