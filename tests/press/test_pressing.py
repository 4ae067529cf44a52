"""An item under the press: what holds for any, whatever the numbers."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.press.heat.layers import Slab, ThermalMaterial
from diagnose.press.pressing import (
    HOTTEST,
    Body,
    PressSettings,
    Unreachable,
    dose_of,
    dwell_for,
    press,
    temperature_for,
    wanted,
)

PAPER = ThermalMaterial(conductivity=0.18, density=930.0, heat_capacity=1340.0, regain=0.06)
CLOTH = ThermalMaterial(conductivity=0.065, density=400.0, heat_capacity=1030.0, regain=0.03)
CLAY = ThermalMaterial(conductivity=1.3, density=2300.0, heat_capacity=840.0)
FOAM = ThermalMaterial(conductivity=0.12, density=750.0, heat_capacity=1000.0)
USUAL = PressSettings(temperature=198.0, dwell=60.0)
TOWEL = Body(
    item=(Slab(CLOTH, 5e-4),),
    sheet=Slab(PAPER, 1e-4),
    cover=Slab(PAPER, 6e-5),
    under=(Slab(FOAM, 8e-3),),
    reference=USUAL,
)
TILE = replace(
    TOWEL, item=(Slab(CLAY, 6e-3),), reference=PressSettings(temperature=200.0, dwell=330.0), through_back=True
)


def test_its_usual_settings_give_what_it_wants() -> None:
    for body in (TOWEL, TILE):
        result = press(body, body.reference)
        assert result.over == 1.0
        assert result.dose == wanted(body)
        assert result.share == pytest.approx(0.95)
        assert result.peak < body.reference.temperature


@settings(max_examples=15, deadline=None)
@given(temperature=st.floats(180.0, 215.0), over=st.floats(0.3, 3.0), sheets=st.integers(0, 3))
def test_the_dwell_for_a_dose_gives_it(temperature: float, over: float, sheets: int) -> None:
    asked = replace(USUAL, temperature=temperature, cover_sheets=sheets)
    found = dwell_for(TOWEL, asked, over)
    assert dose_of(TOWEL, replace(asked, dwell=found)) / wanted(TOWEL) == pytest.approx(over, rel=3e-3)


def test_the_heat_for_a_dwell_gives_it() -> None:
    asked = replace(USUAL, dwell=45.0)
    found = temperature_for(TOWEL, asked)
    assert found > USUAL.temperature
    assert press(TOWEL, replace(asked, temperature=found)).over == pytest.approx(1.0, abs=0.01)


def test_what_no_press_gives_is_said() -> None:
    with pytest.raises(Unreachable, match="not within an hour"):
        dwell_for(TOWEL, replace(USUAL, temperature=120.0))
    with pytest.raises(Unreachable, match=f"{HOTTEST:.0f}"):
        temperature_for(TOWEL, replace(USUAL, dwell=1.0))
    with pytest.raises(Unreachable, match="less than"):
        temperature_for(TOWEL, replace(USUAL, dwell=3000.0), 0.2)


@settings(max_examples=10, deadline=None)
@given(temperature=st.floats(170.0, 210.0), dwell=st.floats(5.0, 120.0))
def test_more_heat_more_time_and_fewer_sheets_give_more(temperature: float, dwell: float) -> None:
    asked = PressSettings(temperature=temperature, dwell=dwell)
    base = dose_of(TOWEL, asked)
    more = (
        replace(asked, temperature=temperature + 3.0),
        replace(asked, dwell=dwell + 2.0),
        replace(asked, cover_sheets=0),
        replace(asked, offset=3.0),
        replace(asked, pressure=90.0),
        replace(asked, pre_press=8.0),
    )
    assert all(dose_of(TOWEL, each) > base for each in more)


@settings(max_examples=10, deadline=None)
@given(temperature=st.floats(170.0, 210.0), dwell=st.floats(5.0, 120.0))
def test_the_band_holds_the_share(temperature: float, dwell: float) -> None:
    asked = PressSettings(temperature=temperature, dwell=dwell)
    result = press(TOWEL, asked)
    low, high = result.share_band
    assert 0.0 <= low < result.share < high <= 1.0
    probed = press(TOWEL, replace(asked, offset_spread=1.0))
    assert probed.share_band[1] - probed.share_band[0] < high - low, "a probe narrows the band"


def test_a_platen_that_stands_low_is_as_one_set_low() -> None:
    low = press(TOWEL, replace(USUAL, offset=-8.0))
    assert low == press(TOWEL, replace(USUAL, temperature=USUAL.temperature - 8.0))
    assert low.over < 0.6


def test_the_same_tile_takes_longer_through_its_back() -> None:
    face = replace(TILE, through_back=False, wanted=wanted(TILE))
    assert dwell_for(face, TILE.reference) < dwell_for(TILE, TILE.reference) - 30.0
    thick = replace(TILE, item=(Slab(CLAY, 9e-3),), wanted=wanted(TILE))
    assert dwell_for(thick, TILE.reference) > dwell_for(TILE, TILE.reference) + 60.0
