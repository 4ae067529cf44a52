"""The vapour pressure against the rows of Landolt-Börnstein IV/20 that the library ``chemicals`` carries."""

from math import exp

import pytest
from chemicals import vapor_pressure

from diagnose.press.dye.vapour import KELVIN, STEEPNESS, haste

RED_60 = "17418-58-5"
OTHERS = ("2872-48-2", "2475-44-7", "7576-65-0")  # Red 11, Blue 14, Yellow 54: solids


@pytest.fixture(scope="module", autouse=True)
def _loaded() -> None:
    vapor_pressure.load_vapor_pressure_dfs()


def test_the_slope_is_the_published_one() -> None:
    row = vapor_pressure.Psat_data_Landolt_Antoine.loc[RED_60]
    assert pytest.approx((STEEPNESS, 0.0), rel=1e-5) == (row.B, row.C)
    assert (row.Tmin, row.Tmax) == (453.0, 524.0)
    assert exp(row.A - row.B / (200.0 + KELVIN)) == pytest.approx(23.70, abs=0.01)
    assert pytest.approx(142.0, abs=0.5) == STEEPNESS * 8.314462618e-3


def test_it_lies_in_the_middle() -> None:
    slopes = [vapor_pressure.Psub_data_Landolt_Antoine.loc[number].B for number in OTHERS]
    assert min(slopes) < STEEPNESS < max(slopes)


def test_the_corrupt_row_is_not_taken() -> None:
    """The table's row for solid Red 60 says that it takes less heat to leave the solid than the liquid."""
    row = vapor_pressure.Psub_data_Landolt_Antoine.loc[RED_60]
    assert row.B < 0.2 * STEEPNESS, "if this is mended one day, take the row"


def test_how_steep_the_heat_helps() -> None:
    """Red 60: 1.885 times from 385 to 400 °F, 2.109 times from 200 to 210 °C."""
    assert haste((400 - 32) / 1.8, (385 - 32) / 1.8) == pytest.approx(1.885, abs=0.002)
    assert haste(210.0, 200.0) == pytest.approx(2.109, abs=0.002)
    assert haste(193.0, 193.0) == 1.0
