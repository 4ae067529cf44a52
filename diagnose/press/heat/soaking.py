"""Heat soaking through a stack in time: one dimension, finite volumes, an implicit method of the second order.

Each step has two stages of a singly diagonally implicit Runge-Kutta method (L-stable: a sudden contact does not ring).
Water is a store of heat that fills as a cell passes 100 °C (enthalpy method), so that what crossed the platen is
always found again in the cells, in steam or in the room. Plain loops over lists: it is carried over to the browser.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import inf, sqrt

from diagnose.press.heat.layers import Platen
from diagnose.press.heat.stack import Stack

GAMMA = 1.0 - 1.0 / sqrt(2.0)
BOILS, HALF_WIDTH = 100.0, 5.0  # °C: water leaves between 95 and 105
FIRST, STRIDE = 0.1, 0.08  # s, and the length of a step as a share of the time gone by
LAST = 1.001  # times its usual length: a last step is rather a little longer than followed by a sliver
ROOM = 20.0  # °C
CLOSE = 1e-7  # J/m²: where Newton's method is done
MOST_TURNS = 60


@dataclass(frozen=True, slots=True)
class Moment:
    """Where things stand: time (s), the temperatures (°C) of platen and cells, and what has crossed so far (J/m²)
    from the heater, from the platen into the stack and from the stack to the room."""

    time: float
    temperatures: tuple[float, ...]
    heated: float = 0.0
    crossed: float = 0.0
    lost: float = 0.0

    def at_dye(self, stack: Stack) -> float:
        """°C where the dye lies."""
        above, below = self.temperatures[stack.dye : stack.dye + 2]
        return above + (below - above) * stack.lean


class Unsettled(ArithmeticError):
    """Newton's method found no temperatures for a step."""


def steamed(temperature: float) -> float:
    """The share of a cell's water that is gone at a temperature, 0 to 1."""
    place = (temperature - BOILS) / (2.0 * HALF_WIDTH) + 0.5
    return 0.0 if place <= 0.0 else 1.0 if place >= 1.0 else place * place * (3.0 - 2.0 * place)


def steaming(temperature: float) -> float:
    """How fast that share grows, for each K."""
    place = (temperature - BOILS) / (2.0 * HALF_WIDTH) + 0.5
    return 0.0 if place <= 0.0 or place >= 1.0 else 3.0 * place * (1.0 - place) / HALF_WIDTH


def heater(platen: Platen, short: float) -> tuple[float, float]:
    """W/m² of a heater whose platen is ``short`` K below its set heat, and its slope."""
    if short <= 0.0:
        return 0.0, 0.0
    part = short + platen.band
    return platen.power * short / part, platen.power * platen.band / (part * part)


def start(stack: Stack, platen: float, room: float = ROOM) -> Moment:
    """The press closes: a hot platen, and all else as warm as the room."""
    return Moment(0.0, (platen, *(room for _ in stack.stores)))


def times(end: float, stride: float = STRIDE, first: float = FIRST) -> Iterator[float]:
    """The ends of the steps up to a time in seconds: short at first, then growing with the time gone by."""
    time = 0.0
    while time < end:
        step = max(first, stride * time)
        time = end if time + LAST * step >= end else time + step
        yield time


def soak(stack: Stack, setting: float, end: float, room: float = ROOM, stride: float = STRIDE) -> list[Moment]:
    """Everything from the closing of the press to its opening at ``end`` (s), with the platen set to ``setting`` °C."""
    moments = [start(stack, setting, room)]
    for time in times(end, stride, FIRST * stride / STRIDE):
        moments.append(step(stack, setting, moments[-1], time - moments[-1].time, room))
    return moments


def step(stack: Stack, setting: float, now: Moment, length: float, room: float = ROOM) -> Moment:
    """The moment ``length`` seconds later. Where Newton's method goes to and fro over a bend, two steps of half the
    length settle, for each sets out nearer to where it leads."""
    try:
        return _stepped(stack, setting, now, length, room)
    except Unsettled:
        halfway = step(stack, setting, now, 0.5 * length, room)
        return step(stack, setting, halfway, 0.5 * length, room)


def _stepped(stack: Stack, setting: float, now: Moment, length: float, room: float) -> Moment:
    part = GAMMA * length
    held_now = _held_each(stack, now.temperatures)
    middle = _settle(stack, setting, held_now, now.temperatures, part, room)
    carried = (1.0 - GAMMA) / GAMMA
    held_then = _held_each(stack, middle)
    known = [old + carried * (new - old) for old, new in zip(held_now, held_then, strict=True)]
    after = _settle(stack, setting, known, middle, part, room)
    weighed = ((length - part, middle), (part, after))
    return Moment(
        now.time + length,
        tuple(after),
        now.heated + sum(weight * heater(stack.platen, setting - t[0])[0] for weight, t in weighed),
        now.crossed + sum(weight * stack.links[0] * (t[0] - t[1]) for weight, t in weighed),
        now.lost + sum(weight * stack.links[-1] * (t[-1] - room) for weight, t in weighed),
    )


def _held_each(stack: Stack, temperatures: Sequence[float]) -> list[float]:
    """Heat in the platen and in each cell, J/m². A platen that never dips counts 0."""
    capacity = stack.platen.capacity
    heat = [capacity * temperatures[0] if capacity < inf else 0.0]
    for store, water, degrees in zip(stack.stores, stack.waters, temperatures[1:], strict=True):
        heat.append(store * degrees + water * steamed(degrees) if water else store * degrees)
    return heat


def _settle(
    stack: Stack, setting: float, known: Sequence[float], guess: Sequence[float], part: float, room: float
) -> list[float]:
    """The temperatures at which held(T) = known + part × (what flows in at T): Newton's method."""
    temperatures = list(guess)
    for _ in range(MOST_TURNS):
        temperatures, off = _turn(stack, setting, known, temperatures, part, room)
        if off < CLOSE:
            return temperatures
    raise Unsettled("the heat flow did not settle")


def _turn(
    stack: Stack, setting: float, known: Sequence[float], old: list[float], part: float, room: float
) -> tuple[list[float], float]:
    """One turn of Newton's method: the new temperatures, and by how much the line misses the curve (J/m²)."""
    stores, waters, links, platen = stack.stores, stack.waters, stack.links, stack.platen
    count = len(stores)
    if platen.capacity < inf:
        gives, slope = heater(platen, setting - old[0])
        down = part * links[0]
        pivot = platen.capacity + part * slope + down
        value = (known[0] + part * (gives + slope * old[0])) / pivot
    else:
        slope, down, pivot, value = 0.0, 0.0, 1.0, setting
    ratios, values = [down / pivot], [value]
    upper = part * links[0]
    for place in range(count):
        lower = part * links[place + 1]
        store, right = stores[place], known[place + 1]
        if water := waters[place]:
            degrees = old[place + 1]
            rate = water * steaming(degrees)
            store += rate
            right += rate * degrees - water * steamed(degrees)
        pivot = store + upper * (1.0 - ratios[place]) + lower
        value = (right + upper * values[place] + (lower * room if place == count - 1 else 0.0)) / pivot
        values.append(value)
        ratios.append(lower / pivot)
        upper = lower
    for place in range(count - 1, -1, -1):
        values[place] += ratios[place] * values[place + 1]
    return values, _missed(stack, setting, part, old, values)


def _missed(stack: Stack, setting: float, part: float, old: list[float], new: list[float]) -> float:
    """The largest gap between curve and line, in J/m². A cell that would leap over the boiling point is held on it,
    from where Newton's method cannot leap back."""
    gives, slope = heater(stack.platen, setting - old[0])
    off = abs(part * (heater(stack.platen, setting - new[0])[0] - gives + slope * (new[0] - old[0])))
    for place, water in enumerate(stack.waters, 1):
        if not water:
            continue
        before, after = old[place], new[place]
        if (before - BOILS) * (after - BOILS) < 0.0:
            new[place] = BOILS
            off = inf
        else:
            off = max(off, abs(water * (steamed(after) - steamed(before) - steaming(before) * (after - before))))
    return off
