"""Cells of a stack: nothing of a layer is lost in cutting it, and the dye lies between sheet and item."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from iapws import IAPWS95

from diagnose.press.heat.layers import USUAL_PRESSURE, Platen, Slab, ThermalMaterial, contact_resistance
from diagnose.press.heat.stack import LATENT, WATER_HEAT, cells, stacked

PAPER = ThermalMaterial(conductivity=0.18, density=930.0, heat_capacity=1340.0, regain=0.06)
CLOTH = ThermalMaterial(conductivity=0.07, density=400.0, heat_capacity=1280.0)


@given(thickness=st.floats(1e-5, 0.05), conductivity=st.floats(0.03, 200.0), fineness=st.integers(1, 4))
def test_cells_make_up_their_layer(thickness: float, conductivity: float, fineness: int) -> None:
    material = ThermalMaterial(conductivity=conductivity, density=1000.0, heat_capacity=1000.0)
    cut = cells(Slab(material, thickness), fineness)
    assert sum(cut) == pytest.approx(thickness, rel=1e-12)
    assert cut == sorted(cut)
    assert len(cut) <= 20 * fineness


def test_what_leads_and_what_is_held() -> None:
    stack = stacked(Platen(), (Slab(PAPER, 1e-4),), (Slab(CLOTH, 1e-4),), 3e-4, to_room=0.0)
    assert stack.dye == 1
    assert stack.links == pytest.approx((1 / (3e-4 + 0.5e-4 / 0.18), 1 / (0.5e-4 / 0.18 + 3e-4 + 0.5e-4 / 0.07), 0.0))
    assert stack.lean == pytest.approx((0.5e-4 / 0.18 + 1.5e-4) * stack.links[1])
    assert stack.stores == pytest.approx((0.093 * (1340 + 0.06 * WATER_HEAT), 0.04 * 1280))
    assert stack.waters == pytest.approx((0.093 * 0.06 * LATENT, 0.0))


def test_water_as_iapws_has_it() -> None:
    """IAPWS-95: 2256.47 kJ/kg at 100 °C; from water of 20 °C to steam, 2591.6 kJ/kg."""
    steam, water, cold = IAPWS95(T=373.15, x=1), IAPWS95(T=373.15, x=0), IAPWS95(T=293.15, P=0.101325)
    assert pytest.approx(1e3 * (steam.h - water.h), rel=2e-4) == LATENT
    assert pytest.approx(1e3 * (steam.h - cold.h), rel=1e-3) == 80 * WATER_HEAT + LATENT


def test_contact_gains_less_and_less() -> None:
    light, usual, firm = (contact_resistance(pressure) for pressure in (10.0, USUAL_PRESSURE, 90.0))
    assert light > usual > firm > 0.0
    assert light - usual > usual - firm
    assert contact_resistance(0.0) == contact_resistance(0.1), "the platen's own weight is always there"
    assert contact_resistance(USUAL_PRESSURE, 2.0) == pytest.approx(usual / 2)
