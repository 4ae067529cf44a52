"""From gauge to platen."""

import pytest

from diagnose.press.pressure import Cylinders, force, gauge_for, meeting, over

EIGHTY = Cylinders(gauge=600.0, bore=0.08)


def test_gauge_pressure_is_not_platen_pressure() -> None:
    """Pressure times area: 80 mm at 6 bar push with 3016 N, which is 15.1 kPa over 40 × 50 cm."""
    assert force(EIGHTY) == pytest.approx(3016.0, abs=0.5)
    assert over(force(EIGHTY), (0.4, 0.5)) == pytest.approx(15.1, abs=0.05)


def test_a_small_item_carries_it_all() -> None:
    assert meeting((0.4, 0.5), (0.2, 0.2)) == (0.2, 0.2)
    assert meeting((0.4, 0.5), (0.2, 0.9)) == (0.2, 0.5), "what sticks out carries nothing"
    assert meeting((0.4, 0.5), None) == (0.4, 0.5)


def test_back_to_the_gauge() -> None:
    two = Cylinders(gauge=250.0, bore=0.05, count=2)
    assert gauge_for(over(force(two), (0.3, 0.2)), (0.3, 0.2), 0.05, 2) == pytest.approx(250.0)
