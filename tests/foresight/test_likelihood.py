"""The likelihood of a figure: normal curves, widened by the error, and never beyond a stated most."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.foresight.likelihood import MOST, density, ratio
from diagnose.knowledge.measures import Hump, Speaks

COOL = Speaks((Hump(-9.0, 4.0),), (Hump(0.0, 2.5, 0.94), Hump(0.0, 15.0, 0.06)))


def test_the_curve_is_the_normal_one() -> None:
    # The standard normal density at 0 and at 1: 0.398942 and 0.241971 in any table.
    assert density(0.0, (Hump(0.0, 0.6),), 0.8) == pytest.approx(0.398942, abs=1e-6)
    assert density(2.0, (Hump(1.0, 0.6),), 0.8) == pytest.approx(0.241971, abs=1e-6)


def test_the_error_widens_a_curve_in_quadrature() -> None:
    norm = pytest.importorskip("scipy.stats").norm  # comes with pgmpy
    for value in (-20.0, -8.0, 0.0, 3.0):
        mixed = 0.94 * norm.pdf(value, 0, 10.25**0.5) + 0.06 * norm.pdf(value, 0, 229**0.5)
        assert density(value, COOL.otherwise, 2.0) == pytest.approx(mixed, rel=1e-12)


def test_by_hand() -> None:
    """A gap of -8 K read with an error of 2 K: 0.0870 against 0.00654."""
    assert ratio(-8.0, COOL, 2.0) == pytest.approx(13.3, abs=0.05)


@given(value=st.floats(-1e4, 1e4), error=st.floats(0.1, 50))
def test_no_figure_speaks_more_surely_than_the_stated_most(value: float, error: float) -> None:
    assert 1 / MOST <= ratio(value, COOL, error) <= MOST
    assert 1 / MOST <= ratio(value, Speaks(COOL.otherwise, COOL.there), error) <= MOST


def test_the_most_is_reached() -> None:
    tight = Speaks((Hump(-9.0, 0.5),), (Hump(0.0, 0.5),))
    assert ratio(-9.0, tight, 0.1) == MOST
    assert ratio(0.0, tight, 0.1) == 1 / MOST


@given(value=st.floats(-30, 30))
def test_a_worse_instrument_says_less_at_the_middle_of_either_curve(value: float) -> None:
    assert abs(ratio(-9.0, COOL, 30.0) - 1.0) < abs(ratio(-9.0, COOL, 2.0) - 1.0)
    assert ratio(value, COOL, 1e6) == pytest.approx(1.0, abs=1e-3)


def test_what_lies_where_neither_curve_reaches_says_nothing() -> None:
    assert ratio(1e6, Speaks((Hump(0.0, 1.0),), (Hump(1.0, 1.0),)), 0.1) == 1.0
