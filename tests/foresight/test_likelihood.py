"""The likelihood of a figure: bands between marks, seen through the error, and never beyond a stated most."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.foresight.likelihood import MOST, likelihood, ratio
from diagnose.knowledge.entry import Chance
from diagnose.knowledge.loading import load
from diagnose.knowledge.measures import UNITS, Mark, Measure, Speaks, held
from diagnose.problems import Place

KNOWLEDGE = load()
EDGES, BANDS = (3.0, 6.0), ((0.1, 0.9), (0.2, 0.07), (0.7, 0.03))
SPOKEN = [(measure.id, cause) for measure in KNOWLEDGE.readings.values() for cause in measure.speaks]


def test_with_a_true_instrument_a_band_says_what_its_chances_say() -> None:
    said = [likelihood(out, EDGES, BANDS, 1e-6) for out in (-50.0, 0.0, 4.0, 9.0, 500.0)]
    assert said == pytest.approx([1 / 9, 1 / 9, 20 / 7, 70 / 3, 70 / 3], abs=1e-5)


def test_on_a_mark_a_figure_is_as_likely_within_as_beyond_by_hand() -> None:
    """Half of the outer band and half of the inner: (0.1 + 0.9) / (0.9 + 0.1) halves, and 0.9 to 0.05 / 2."""
    assert likelihood(3.0, (3.0,), ((0.1, 0.95), (0.9, 0.05)), 2.0) == pytest.approx(1.0)
    assert likelihood(3.0, (3.0,), ((0.2, 0.9), (0.8, 0.1)), 2.0) == pytest.approx(1.0)


def test_the_error_is_that_of_a_logistic_curve() -> None:
    """One standard deviation past a mark, 1 / (1 + exp(-pi / sqrt 3)) = 0.8598 of the true values lie beyond it; and
    scipy says the same."""
    logistic = pytest.importorskip("scipy.stats").logistic  # comes with pgmpy
    beyond = logistic.cdf(2.0, scale=2.0 * 3**0.5 / 3.141592653589793)
    assert beyond == pytest.approx(0.8598, abs=1e-4)
    found = likelihood(5.0, (3.0,), ((0.1, 0.95), (0.9, 0.05)), 2.0)
    assert found == pytest.approx((0.9 * beyond + 0.1 * (1 - beyond)) / (0.05 * beyond + 0.95 * (1 - beyond)), abs=1e-6)


@given(out=st.floats(-1e4, 1e4), error=st.floats(0.1, 50))
def test_no_figure_speaks_more_surely_than_the_stated_most(out: float, error: float) -> None:
    assert 1 / MOST <= likelihood(out, EDGES, ((0.0, 0.9), (0.2, 0.1), (0.8, 0.0)), error) <= MOST


def test_the_most_is_reached() -> None:
    assert likelihood(9.0, (3.0,), ((0.0, 1.0), (1.0, 0.0)), 0.1) == MOST
    assert likelihood(-9.0, (3.0,), ((0.0, 1.0), (1.0, 0.0)), 0.1) == 1 / MOST


@given(out=st.floats(-30, 30))
def test_a_worse_instrument_says_less(out: float) -> None:
    assert abs(likelihood(12.0, EDGES, BANDS, 30.0) - 1.0) < abs(likelihood(12.0, EDGES, BANDS, 2.0) - 1.0)
    assert likelihood(out, (3.0,), ((0.1, 0.95), (0.9, 0.05)), 1e6) == pytest.approx(1.0, abs=1e-3)


chances = st.lists(st.floats(0.001, 1.0), min_size=2, max_size=4)


@given(there=chances, steps=st.lists(st.floats(0.01, 20), min_size=3, max_size=3), error=st.floats(0.01, 30))
def test_whatever_the_error_a_figure_further_out_never_speaks_less(
    there: list[float], steps: list[float], error: float
) -> None:
    """For any bands that speak the more the further out they lie."""
    whole = sum(there)
    weights = [part * 3.0**-place for place, part in enumerate(there)]
    bands = [(part / whole, weight / sum(weights)) for part, weight in zip(there, weights, strict=True)]
    ends = [sum(steps[: place + 1]) for place in range(len(there) - 1)]
    said = [likelihood(0.25 * out, ends, bands, error) for out in range(-80, 400)]
    assert all(later >= earlier for earlier, later in pairwise(said))


@pytest.mark.parametrize(("measure", "cause"), SPOKEN)
def test_the_further_off_the_more_it_speaks(measure: str, cause: str) -> None:
    """Every measure and every cause, over every gap that an instrument can show, within the way that speaks for it."""
    reading = KNOWLEDGE.readings[measure]
    way = -1.0 if reading.speaks[cause].under else 1.0
    grid = [way * 0.002 * step for step in range(-5000, 2000)] + [way * 0.25 * step for step in range(16, 1000)]
    if reading.speaks[cause].either:
        grid = [value for value in grid if value >= 0.0]
    said = [ratio(value, reading, cause) for value in grid]
    assert all(later >= earlier for earlier, later in pairwise(said))
    assert said[0] < 1 < said[-1]


def test_a_share_more_or_less_is_the_logarithm_of_the_quotient() -> None:
    assert held("dwell-gap", -50.0) == pytest.approx(-0.693147, abs=1e-6)
    assert held("platen-gap", -50.0) == -50.0
    assert set(UNITS) == set(KNOWLEDGE.readings)


def test_either_way_counts_alike() -> None:
    marks = (Mark(5.0, Chance(0.5), Chance(0.1)),)
    measure = Measure(
        id="set-gap",
        title="",
        place=Place("", 0, 0),
        how=(),
        minutes=1.0,
        error=1.0,
        speaks={"x": Speaks(either=marks)},
    )
    assert ratio(-7.0, measure, "x") == ratio(7.0, measure, "x") > 1 > ratio(0.0, measure, "x")
