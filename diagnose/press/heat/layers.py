"""What lies between platen and bed: materials, layers of them, the platen itself, and how well two faces touch."""

from dataclasses import dataclass

USUAL_PRESSURE = 30.0  # kPa over the item: a medium press by hand
CONTACT = 2e-4  # m²K/W between two faces at the usual pressure: some five micrometres of air. An assumption.
SOFTNESS = 0.5  # how the gap closes: resistance goes with pressure to the power of minus this. An assumption.
LEAST_PRESSURE = 0.5  # kPa: the weight of the platen alone


@dataclass(frozen=True, slots=True, kw_only=True)
class ThermalMaterial:
    """``conductivity`` W/(m K), ``density`` kg/m³, ``heat_capacity`` J/(kg K) when dry, ``regain`` kg of water for
    each kg of dry stuff in the air of a workshop."""

    conductivity: float
    density: float
    heat_capacity: float
    regain: float = 0.0


@dataclass(frozen=True, slots=True)
class Slab:
    """A material of some thickness, in metres."""

    material: ThermalMaterial
    thickness: float


@dataclass(frozen=True, slots=True)
class Platen:
    """The hot side, over the area that the item covers: how much heat it holds (J/(m² K)), the most its heater gives
    (W/m²), and how far below the set heat that heater falls to half its most (K). ``capacity`` of infinity: a platen
    that never dips."""

    capacity: float = 50e3
    power: float = 20e3
    band: float = 2.0


USUAL_PLATEN = Platen()


def contact_resistance(pressure: float, tightness: float = 1.0) -> float:
    """m²K/W between two faces under a pressure in kPa. Half of it is gone at four times the pressure: contact
    matters, and crushing adds little."""
    closing: float = (USUAL_PRESSURE / max(pressure, LEAST_PRESSURE)) ** SOFTNESS
    return CONTACT / tightness * closing
