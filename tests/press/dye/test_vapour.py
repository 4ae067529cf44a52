"""Vapour pressures against the rows of Landolt-Börnstein IV/20 that the library ``chemicals`` carries."""

import pytest
from chemicals import vapor_pressure

from diagnose.press.dye.vapour import BLUE_14, DYES, MEASURE, RED_11, RED_60, YELLOW_54, Dye, haste

LIQUID = "Psat_data_Landolt_Antoine"
SOLID = "Psub_data_Landolt_Antoine"
ROWS = {
    RED_60: (LIQUID, "17418-58-5"),
    RED_11: (SOLID, "2872-48-2"),
    BLUE_14: (SOLID, "2475-44-7"),
    YELLOW_54: (SOLID, "7576-65-0"),
}


@pytest.fixture(scope="module", autouse=True)
def _loaded() -> None:
    vapor_pressure.load_vapor_pressure_dfs()


@pytest.mark.parametrize("dye", DYES, ids=lambda dye: dye.name)
def test_the_constants_are_the_published_ones(dye: Dye) -> None:
    table, number = ROWS[dye]
    row = getattr(vapor_pressure, table).loc[number]
    assert (dye.a, dye.b, dye.c) == pytest.approx((row.A, row.B, row.C), rel=1e-5)
    assert (dye.least, dye.most) == (row.Tmin, row.Tmax)


def test_pressures_at_press_heat() -> None:
    """Re-computed from the rows: 23.70 and 24.8 Pa at 200 °C."""
    assert RED_60.pressure(200.0) == pytest.approx(23.70, abs=0.01)
    assert RED_11.pressure(200.0) == pytest.approx(24.8, abs=0.05)


def test_the_corrupt_row_is_not_taken() -> None:
    """The table's row for solid Red 60 says that it takes less heat to leave the solid than the liquid."""
    row = vapor_pressure.Psub_data_Landolt_Antoine.loc["17418-58-5"]
    solid = Dye("as the row has it", row.A, row.B, row.Tmin, row.Tmax)
    assert solid.energy() < 0.2 * RED_60.energy(), "if this is mended one day, take the row"
    assert all(dye.energy() > 130.0 for dye in DYES)


def test_how_steep_the_heat_helps() -> None:
    """Red 60: 1.885 times from 385 to 400 °F, 2.109 times from 200 to 210 °C."""
    assert MEASURE is RED_60
    assert haste((400 - 32) / 1.8, (385 - 32) / 1.8) == pytest.approx(1.885, abs=0.002)
    assert haste(210.0, 200.0) == pytest.approx(2.109, abs=0.002)
    assert haste(193.0, 193.0) == 1.0
