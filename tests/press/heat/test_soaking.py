"""Heat in a stack against a textbook: F. P. Incropera, D. P. DeWitt, Fundamentals of Heat and Mass Transfer."""

from collections.abc import Sequence
from math import inf, log

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.press.heat.layers import Platen, Slab, ThermalMaterial
from diagnose.press.heat.soaking import ROOM, Moment, soak, steamed, step, times
from diagnose.press.heat.stack import Stack, stacked

HOLDS = Platen(capacity=inf)  # never dips
PLAIN = ThermalMaterial(conductivity=1.0, density=1000.0, heat_capacity=1000.0)  # diffuses 1e-6 m²/s
SLAB = Slab(PLAIN, 0.01)
WET = ThermalMaterial(conductivity=0.07, density=400.0, heat_capacity=1280.0, regain=0.085)
PAPER = ThermalMaterial(conductivity=0.18, density=930.0, heat_capacity=1340.0, regain=0.06)
FOAM = ThermalMaterial(conductivity=0.12, density=750.0, heat_capacity=1000.0)
DISPLAY, START = 120.0, 20.0


def held(stack: Stack, temperatures: Sequence[float]) -> float:
    """Heat in the cells, steam that has left included, in J/m² above 0 °C."""
    cells = zip(stack.stores, stack.waters, temperatures[1:], strict=True)
    return sum(store * degrees + water * steamed(degrees) for store, water, degrees in cells)


def slab(contact: float, fineness: int = 8, material: ThermalMaterial = PLAIN, thickness: float = 0.01) -> Stack:
    """A slab heated on one face through a contact, with nothing lost at the other."""
    return stacked(HOLDS, (), (Slab(material, thickness),), contact, fineness, to_room=0.0)


def left(stack: Stack, moment: Moment) -> float:
    """The share of the step in temperature that the far face, half a cell on, still lacks."""
    near, far = moment.temperatures[-2:]
    face = far + (far - near) / 8.0  # flat at the face, as a parabola
    return (DISPLAY - face) / (DISPLAY - START)


@pytest.mark.parametrize(("fourier", "known"), [(0.1, 0.94931), (0.2, 0.77231), (0.5, 0.37078), (1.0, 0.10798)])
def test_a_slab_with_its_face_held_hot(fourier: float, known: float) -> None:
    """The series for a slab whose other face is insulated."""
    stack = slab(0.0)
    last = soak(stack, DISPLAY, fourier * 100.0, START, stride=0.02)[-1]
    assert left(stack, last) == pytest.approx(known, abs=2e-4)


@pytest.mark.parametrize(
    ("biot", "zeta", "first"), [(0.1, 0.3111, 1.0161), (1.0, 0.8603, 1.1191), (10.0, 1.4289, 1.2620)]
)
def test_a_slab_through_a_contact(biot: float, zeta: float, first: float) -> None:
    """Its first term: the eigenvalue from how fast what is left dies away, the factor from how much there is."""
    stack = slab(0.01 / biot)
    early, late = 1.5 / zeta**2 * 100.0, 2.5 / zeta**2 * 100.0
    moments = soak(stack, DISPLAY, late, START, stride=0.01)
    one = left(stack, min(moments, key=lambda moment: abs(moment.time - early)))
    then = min((moment.time for moment in moments), key=lambda time: abs(time - early))
    other = left(stack, moments[-1])
    found = (log(one / other) / (late - then) * 100.0) ** 0.5
    assert found == pytest.approx(zeta, rel=3e-4)
    assert other == pytest.approx(first * 2.718281828459045 ** (-(zeta**2) * late / 100.0), rel=2e-3)


def test_a_pipe_wall_warmed_from_inside() -> None:
    """Example 5.4: 40 mm of steel from -20 °C, oil at 60 °C by 500 W/(m² K), after 8 minutes."""
    steel = ThermalMaterial(conductivity=63.9, density=7832.0, heat_capacity=434.0)
    stack = slab(1 / 500.0, 40, steel, 0.04)
    last = soak(stack, 60.0, 480.0, -20.0, stride=0.04)[-1]
    assert last.temperatures[-1] == pytest.approx(43.0, abs=0.15)
    assert stack.links[0] * (last.temperatures[0] - last.temperatures[1]) == pytest.approx(7.3e3, rel=0.01)
    assert 3.14159 * last.crossed == pytest.approx(2.73e7, rel=0.01)


def test_frost_in_the_ground() -> None:
    """Example 5.6: soil of 20 °C whose face falls to -15 °C freezes to 0.68 m in 60 days."""
    soil = ThermalMaterial(conductivity=0.52, density=2050.0, heat_capacity=1840.0)
    stack = slab(0.0, 20, soil, 4.0)
    cell = 4.0 / len(stack.stores)
    last = soak(stack, -15.0, 60 * 86400.0, 20.0)[-1]
    depth = crossing([cell * (place + 0.5) for place in range(len(stack.stores))], last.temperatures[1:], 0.0)
    assert depth == pytest.approx(0.677, abs=0.004)


def test_a_thermocouple_bead() -> None:
    """Example 5.1: 0.706 mm of metal in gas of 200 °C by 400 W/(m² K) reads 199 °C after 5.2 s (from 25 °C)."""
    stack = Stack(HOLDS, (8500.0 * 400.0 * 7.06e-4 / 6.0,), (0.0,), (400.0, 0.0), 0, 1.0)
    moments = soak(stack, 200.0, 8.0, 25.0, stride=0.02)
    read = crossing([each.time for each in moments], [-each.temperatures[1] for each in moments], -199.0)
    assert read == pytest.approx(5.16, abs=0.03)


@pytest.mark.parametrize(
    ("name", "of", "known"),
    [
        ("fibreboard", (0.18, 800.0, 1700.0), 195.6),
        ("glass", (1.0, 2500.0, 750.0), 188.4),
        ("ceramic", (1.3, 2300.0, 840.0), 186.7),
        ("stainless steel", (17.0, 7900.0, 460.0), 149.0),
    ],
)
def test_aluminium_laid_on_another_body(name: str, of: tuple[float, float, float], known: float) -> None:
    """Two thick bodies meet at a temperature that their effusivities share out (values of EN 12524)."""
    aluminium = Slab(ThermalMaterial(conductivity=160.0, density=2800.0, heat_capacity=880.0), 0.15)
    other = Slab(ThermalMaterial(conductivity=of[0], density=of[1], heat_capacity=of[2]), 0.15 if of[0] > 10 else 0.03)
    stack = stacked(HOLDS, (aluminium,), (other,), 0.0, 60)
    metal = stack.dye
    now = Moment(0.0, (200.0,) * (metal + 1) + (20.0,) * (len(stack.stores) - metal))
    for time in times(5.0):
        now = step(stack, 200.0, now, time - now.time)
    assert now.at_dye(stack) == pytest.approx(known, abs=0.4), name


@settings(max_examples=25, deadline=None)
@given(
    setting=st.floats(150.0, 215.0),
    dwell=st.floats(1.0, 400.0),
    thick=st.floats(0.1e-3, 5e-3),
    contact=st.floats(1e-5, 1e-3),
    capacity=st.floats(3e3, 1e5),
)
def test_no_heat_is_lost_or_made(setting: float, dwell: float, thick: float, contact: float, capacity: float) -> None:
    """What the heater and the platen gave is in the cells, in steam or in the room; and nothing is hotter than the
    platen was set, or colder than the room."""
    platen = Platen(capacity=capacity)
    stack = stacked(platen, (Slab(PAPER, 1e-4),), (Slab(WET, thick), Slab(FOAM, 8e-3)), contact)
    moments = soak(stack, setting, dwell)
    last = moments[-1]
    near = 1e-9 * last.crossed
    gained = held(stack, last.temperatures) - held(stack, moments[0].temperatures)
    assert gained + last.lost == pytest.approx(last.crossed, abs=near)
    assert last.heated - capacity * (last.temperatures[0] - setting) == pytest.approx(last.crossed, abs=near)
    assert all(ROOM - 1e-9 <= t <= setting + 1e-9 for moment in moments for t in moment.temperatures)


@pytest.mark.parametrize("regain", [0.0, 0.085], ids=["dry", "damp"])
def test_halving_the_steps_quarters_the_error(regain: float) -> None:
    """Second order in time, boiling included."""
    cloth = ThermalMaterial(conductivity=0.07, density=400.0, heat_capacity=1280.0, regain=regain)
    stack = stacked(Platen(), (Slab(PAPER, 1e-4),), (Slab(cloth, 5e-4), Slab(FOAM, 8e-3)), 2e-4)
    moments = {stride: soak(stack, 200.0, 15.0, stride=stride)[-1] for stride in (0.08, 0.04, 0.02, 0.005)}
    errors = [abs(moments[stride].crossed - moments[0.005].crossed) for stride in (0.08, 0.04, 0.02)]
    assert errors[0] / errors[1] == pytest.approx(4.0, rel=0.3)
    assert errors[1] / errors[2] == pytest.approx(4.0, rel=0.3)
    assert errors[0] < 1e-3 * moments[0.005].crossed


def test_halving_the_cells_quarters_the_error() -> None:
    """Second order in space."""
    found = [left(stack := slab(1e-3, fineness), soak(stack, DISPLAY, 30.0, START, 0.02)[-1]) for fineness in (1, 2, 4)]
    finest = left(stack := slab(1e-3, 24), soak(stack, DISPLAY, 30.0, START, 0.02)[-1])
    errors = [abs(each - finest) for each in found]
    assert errors[0] / errors[1] == pytest.approx(4.0, rel=0.25)
    assert errors[1] / errors[2] == pytest.approx(4.0, rel=0.25)


def test_water_holds_cloth_near_boiling_until_it_is_gone() -> None:
    dry = ThermalMaterial(conductivity=WET.conductivity, density=WET.density, heat_capacity=WET.heat_capacity)
    found = []
    for cloth in (dry, WET):
        stack = stacked(HOLDS, (Slab(FOAM, 2e-4),), (Slab(cloth, 2e-3),), 2e-4, to_room=0.0)
        moments = soak(stack, 200.0, 300.0)
        found.append(crossing([each.time for each in moments], [-each.temperatures[-1] for each in moments], -120.0))
        gained = held(stack, moments[-1].temperatures) - held(stack, moments[0].temperatures)
        sensible = sum(store * (t - ROOM) for store, t in zip(stack.stores, moments[-1].temperatures[1:], strict=True))
        assert gained - sensible == pytest.approx(sum(stack.waters), rel=1e-9, abs=1e-6)
    assert found[1] > found[0] + 5.0


def test_the_steps_end_where_they_should() -> None:
    for end in (0.05, 0.1, 7.0, 60.0, 420.0):
        ends = list(times(end))
        assert ends[-1] == end
        assert ends == sorted(set(ends))
    assert list(times(0.0)) == []


def crossing(places: Sequence[float], values: Sequence[float], goal: float) -> float:
    """Where values that fall, or rise, past a goal meet it, straight between points."""
    for before in range(len(places) - 1):
        one, other = values[before], values[before + 1]
        if (one - goal) * (other - goal) <= 0.0 and one != other:
            return places[before] + (places[before + 1] - places[before]) * (goal - one) / (other - one)
    raise AssertionError("never crossed")
