"""Doses and shares of full colour."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.press.dye.dose import AT_WANTED, dose, log_mean, over_for, share

GAS = 8.314462618e-3  # kJ/(mol K)
COOLER, HOTTER = (385 - 32) / 1.8, (400 - 32) / 1.8


@pytest.mark.parametrize(("energy", "seconds"), [(60.0, 45.9), (100.0, 38.4), (140.0, 32.1)])
def test_a_minute_at_385_is_less_at_400(energy: float, seconds: float) -> None:
    """Arrhenius, re-computed: the same dose as 60 s at 385 °F (196 °C), held at 400 °F (204 °C)."""
    for_one = dose([0.0, 1.0], [HOTTER, HOTTER], COOLER, energy / GAS)
    assert 60.0 / for_one == pytest.approx(seconds, abs=0.1)


def test_steady_heat_counts_second_for_second() -> None:
    assert dose([0.0, 10.0, 60.0], [196.0] * 3, 196.0) == pytest.approx(60.0)


def test_cutting_a_straight_rise_finer_hardly_changes_it() -> None:
    coarse = dose([0.0, 10.0], [180.0, 200.0], 200.0)
    fine = dose([place / 100 for place in range(1001)], [180.0 + place / 50 for place in range(1001)], 200.0)
    assert coarse == pytest.approx(fine, rel=0.02)


@given(one=st.floats(1e-6, 1e3), ratio=st.floats(0.5, 2.0))
def test_the_mean_lies_between(one: float, ratio: float) -> None:
    mean = log_mean(one, one * ratio)
    assert min(one, one * ratio) * (1 - 1e-12) <= mean <= max(one, one * ratio) * (1 + 1e-12)
    assert mean <= 0.5 * one * (1 + ratio) * (1 + 1e-9)


def test_shares() -> None:
    assert share(0.0) == 0.0
    assert share(1.0) == pytest.approx(AT_WANTED)
    assert share(2.0) == pytest.approx(1.0 - 0.05**2)
    assert [over_for(share(over)) for over in (0.2, 1.0, 2.5)] == pytest.approx([0.2, 1.0, 2.5])
    assert share(50.0) <= 1.0
