"""What is predicted, by hand; that the score is proper; and that neither side knows more than the dialogue does."""

from datetime import UTC, datetime
from math import exp, log

import numpy as np
import pytest

from diagnose.casebook.case import Case
from diagnose.casebook.learning.calibration import calibration, mean_of
from diagnose.casebook.learning.scoring import Forecaster, first_sight
from diagnose.dialogue.moves import Answered, Cured, HandedOver, Move, Pressed, Saw, TriedFix
from diagnose.dialogue.session import Session
from diagnose.knowledge.loading import load
from diagnose.reasoning.beliefs import believe
from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.network import network
from tests.casebook.learning.harbour import Harbour

KNOWLEDGE = load()
ITEM = "tea-towel-polyester"


def case(*moves: Move) -> Case:
    return Case(id="0" * 32, ended=datetime(2026, 2, 3, tzinfo=UTC), session=Session((Pressed(ITEM), *moves)))


def test_the_first_sight_ends_with_the_first_answer_or_fix() -> None:
    told = case(Saw(("faint-colour",)), Answered("probe-the-platen", "reads-low"), Saw(("ghosting",)))
    assert first_sight(told) == Evidence(seen=("faint-colour",))


def test_the_log_score_of_an_answer_is_the_log_of_its_chance() -> None:
    forecaster, check = Forecaster(KNOWLEDGE), KNOWLEDGE.checks["probe-the-platen"]
    scores = []
    for outcome in check.outcomes:
        forecast = forecaster.forecast(case(Saw(("faint-colour",)), Answered(check.id, outcome.id), HandedOver()))
        assert forecast is not None
        assert forecast.cures == ()
        scores.append(forecast.log_score)
    assert sum(map(exp, scores)) == pytest.approx(1.0, abs=1e-12)


def test_the_chance_of_a_cure_and_of_none_are_one() -> None:
    forecaster = Forecaster(KNOWLEDGE)
    worked = forecaster.forecast(case(Saw(("faint-colour",)), Cured("set-heat-by-probe")))
    failed = forecaster.forecast(case(Saw(("faint-colour",)), TriedFix("set-heat-by-probe", "same"), HandedOver()))
    assert worked is not None and failed is not None  # noqa: PT018
    assert worked.cures == ((pytest.approx(exp(worked.log_score)), True),)
    assert failed.cures == ((pytest.approx(worked.cures[0][0]), False),)


def test_a_second_fix_is_predicted_with_what_the_first_one_taught() -> None:
    moves = (Saw(("faint-colour",)), TriedFix("set-heat-by-probe", "same"), Answered("probe-the-platen", "reads-low"))
    forecast = Forecaster(KNOWLEDGE).forecast(case(*moves, Cured("set-heat-by-probe")))
    assert forecast is not None
    assert [came for _, came in forecast.cures] == [False, True]
    assert all(0.0 < chance < 1.0 for chance, _ in forecast.cures)


def test_cases_that_say_nothing_new_are_not_predicted() -> None:
    forecaster = Forecaster(KNOWLEDGE)
    assert forecaster.forecast(case(Saw(("faint-colour",)), HandedOver())) is None
    assert forecaster.forecast(case(HandedOver())) is None


def test_ids_of_another_time_are_passed_over() -> None:
    forecaster = Forecaster(KNOWLEDGE)
    known = forecaster.forecast(case(Saw(("faint-colour",)), Answered("probe-the-platen", "reads-low")))
    odd = forecaster.forecast(
        case(
            Saw(("faint-colour", "no-longer-known")),
            Answered("probe-the-platen", "reads-low"),
            Answered("no-longer-known", "x"),
            TriedFix("no-longer-known", "", ("faint-colour",)),
        )
    )
    assert known is not None and odd is not None  # noqa: PT018
    assert odd.log_score == pytest.approx(known.log_score)


def test_the_true_numbers_have_the_best_score() -> None:
    """Where all that is seen is told and every number is known, no other numbers do better on average."""
    harbour = Harbour(KNOWLEDGE, seed=5, tells=60.0, uneven=0.0, spread=0.8, causes=1.5)
    cases = list(harbour.cases(120))
    shipped, true = (Forecaster(knowledge) for knowledge in (KNOWLEDGE, harbour.truth))
    gained = [t.log_score - s.log_score for c in cases if (t := true.forecast(c)) and (s := shipped.forecast(c))]
    assert mean_of(gained).low > 0.0


def test_the_score_is_that_of_the_beliefs() -> None:
    net = network(KNOWLEDGE, KNOWLEDGE.items[ITEM].listed)
    told = case(Saw(("faint-colour",)), Answered("probe-the-platen", "reads-low"))
    forecast = Forecaster(KNOWLEDGE).forecast(told)
    before, after = (believe(net, each).log_evidence for each in (Evidence(seen=("faint-colour",)), told.evidence))
    assert forecast is not None
    assert forecast.log_score == pytest.approx(after - before)
    assert log(1e-6) < forecast.log_score < 0.0


@pytest.mark.parametrize("size", [50, 200, 1000])
def test_a_perfect_forecaster_is_off_by_as_much_as_chance_makes_it(size: int) -> None:
    """With chances spread evenly, a bin of size / 10 forecasts is off by sqrt(2 / pi) standard errors on average, and
    the mean of sqrt(p (1 - p)) is pi / 8: together sqrt(2 / pi) * pi / 8 * sqrt(10 / size) = .991 / sqrt(size)."""
    random = np.random.default_rng(size)
    means, inside = [], 0
    for _ in range(6):
        chances = random.random(size)
        found = calibration([*chances], [*(random.random(size) < chances)])
        assert found.usual < found.most < 2.0 * found.usual
        means.append(found.usual)
        inside += found.error <= found.most
    assert np.mean(means) == pytest.approx(0.991 / size**0.5, rel=0.05)
    assert inside >= 4  # 95 of 100 are


def test_an_overconfident_forecaster_is_found_out() -> None:
    random = np.random.default_rng(1)
    chances = random.random(300)
    shrunk = np.clip(3.0 * (chances - 0.5) + 0.5, 0.01, 0.99)
    found = calibration([*shrunk], [*(random.random(300) < chances)])
    assert found.error > found.most


def test_an_interval_holds_the_mean_and_is_the_same_each_time() -> None:
    gained = [*np.random.default_rng(2).normal(0.2, 1.0, 200)]
    one, other = mean_of(gained), mean_of(gained)
    assert one == other
    assert one.low < one.mean < one.high
    assert one.high - one.low == pytest.approx(2 * 1.96 / 200**0.5, rel=0.15)
    assert not one.worse
