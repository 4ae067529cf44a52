"""A pile of layers cut into cells: what each holds, what leads from one to the next, where the dye lies."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from diagnose.press.heat.layers import Platen, Slab

LATENT = 2256.47e3  # J/kg: water to steam at 100 °C (IAPWS-95)
WATER_HEAT = 4.2e3  # J/(kg K): liquid water, 20 to 100 °C (IAPWS-95, rounded)
TO_ROOM = 10.0  # W/(m² K): still air and radiation at the far face. From memory.
THIN = 0.3e-3  # m: a layer below this is one cell
METAL = 10.0  # W/(m K): what conducts more is of one heat throughout
PAD, DEEP = 0.15, 2e-3  # W/(m K) and m: what conducts less and is thicker is a soft pad
EACH, MOST_CELLS = 1e-3, 8  # m: what is neither has two cells and one more for each of these, up to so many
FINEST, GROWTH = 0.3e-3, 1.5  # a pad's first cell in metres, and how much thicker each next one is


@dataclass(frozen=True, slots=True)
class Stack:
    """Cells from the platen down. ``stores``: J/(m² K) of each, ``waters``: J/m² to boil its water off, ``links``:
    W/(m² K) into each from what lies above it, and at the end from the last to the room. The dye lies in the link
    into cell ``dye``, ``lean`` of the way (0..1 of the temperature step) from the cell above to it."""

    platen: Platen
    stores: tuple[float, ...]
    waters: tuple[float, ...]
    links: tuple[float, ...]
    dye: int
    lean: float


def stacked(
    platen: Platen,
    above: Sequence[Slab],
    below: Sequence[Slab],
    contact: float,
    fineness: int = 1,
    to_room: float = TO_ROOM,
) -> Stack:
    """The layers ``above`` the dye and those ``below`` it, from the platen down, with a ``contact`` resistance (m²K/W)
    at every face. ``fineness`` multiplies the number of cells."""
    stores: list[float] = []
    waters: list[float] = []
    links: list[float] = []
    resistance, lean = 0.0, 0.0  # from the middle of the last cell to its lower face
    dye = len([None for layer in above for _ in cells(layer, fineness)])
    for layer in (*above, *below):
        made = layer.material
        for place, thickness in enumerate(cells(layer, fineness)):
            half = 0.5 * thickness / made.conductivity
            gap = contact if place == 0 else 0.0
            if len(links) == dye:
                lean = (resistance + 0.5 * gap) / (resistance + gap + half)
            links.append(1.0 / (resistance + gap + half))
            mass = made.density * thickness
            stores.append(mass * (made.heat_capacity + made.regain * WATER_HEAT))
            waters.append(mass * made.regain * LATENT)
            resistance = half
    links.append(1.0 / (resistance + 1.0 / to_room) if to_room else 0.0)
    return Stack(platen, tuple(stores), tuple(waters), tuple(links), dye, lean)


def cells(layer: Slab, fineness: int = 1) -> list[float]:
    """The thicknesses of a layer's cells: one for a sheet, finer at the top of a soft pad, which warms from there."""
    made, thickness = layer.material, layer.thickness
    if thickness <= THIN or made.conductivity > METAL:
        count, growth = 1, 1.0
    elif made.conductivity > PAD or thickness < DEEP:
        count, growth = min(MOST_CELLS, 2 + ceil(thickness / EACH)), 1.0
    else:
        count, growth = 1, GROWTH
        while FINEST * (GROWTH**count - 1.0) / (GROWTH - 1.0) < thickness:
            count += 1
    if fineness > 1:
        count, growth = count * fineness, growth ** (1.0 / fineness)
    parts = [growth**place for place in range(count)]
    whole = sum(parts)
    return [thickness * part / whole for part in parts]
