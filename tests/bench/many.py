"""Heat soaking through many stacks at once, and the doses: the same method as ``soaking``, in arrays.

All stacks of a call have the same number of cells. An axis of arrays is named by its letter in the docstrings: steps
t, cells c (the platen first), stacks s.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from diagnose.press.dye.dose import FLAT
from diagnose.press.dye.vapour import KELVIN, STEEPNESS
from diagnose.press.heat.soaking import BOILS, CLOSE, GAMMA, HALF_WIDTH, MOST_TURNS, ROOM, times
from diagnose.press.heat.stack import Stack

Array = npt.NDArray[np.float64]
TOGETHER = 1000  # stacks at a time: their arrays stay in the processor's own memory, which halves the time


@dataclass(frozen=True, slots=True)
class _Piles:
    """The stacks as arrays: (c, s) for cells, (s) for platens. Links: into each cell, and to the room."""

    stores: Array
    waters: Array
    links: Array
    capacity: Array
    power: Array
    band: Array
    setting: Array


def soak_many(
    stacks: Sequence[Stack], settings: Sequence[float], ends: Sequence[float], room: float = ROOM
) -> tuple[Array, Array]:
    """Times (t, s) and temperatures at the dye (t, s). A stack whose press opened early stays as it was then."""
    last = np.asarray(ends, dtype=float)
    grid = np.array([0.0, *times(float(last.max()))])
    clock = np.minimum(grid[:, None], last[None, :])
    parts = [slice(begin, begin + TOGETHER) for begin in range(0, len(stacks), TOGETHER)]
    found = [_soak(stacks[part], settings[part], clock[:, part], room) for part in parts]
    return clock, np.concatenate(found, axis=1)


def _soak(stacks: Sequence[Stack], settings: Sequence[float], clock: Array, room: float) -> Array:
    piles, column = _piles(stacks, settings), np.arange(len(stacks))
    now = np.full((len(piles.stores) + 1, len(stacks)), room)
    now[0] = piles.setting
    dye = np.array([stack.dye for stack in stacks])
    lean = np.array([stack.lean for stack in stacks])
    at_dye = np.empty_like(clock)
    for place in range(len(clock)):
        if place:
            now = _step(piles, now, clock[place] - clock[place - 1], room)
        above, below = now[dye, column], now[dye + 1, column]
        at_dye[place] = above + (below - above) * lean
    return at_dye


def _piles(stacks: Sequence[Stack], settings: Sequence[float]) -> _Piles:
    if len({len(stack.stores) for stack in stacks}) != 1:
        raise ValueError("stacks of one call have the same number of cells")

    def rows(values: Any) -> Array:
        return np.ascontiguousarray(np.array(list(values), dtype=float).T)

    return _Piles(
        stores=rows(stack.stores for stack in stacks),
        waters=rows(stack.waters for stack in stacks),
        links=rows(stack.links for stack in stacks),
        capacity=rows(min(stack.platen.capacity, 1e15) for stack in stacks),
        power=rows(stack.platen.power for stack in stacks),
        band=rows(stack.platen.band for stack in stacks),
        setting=np.asarray(settings, dtype=float),
    )


def _step(piles: _Piles, now: Array, length: Array, room: float) -> Array:
    part = GAMMA * length
    held = _held(piles, now)
    middle = _settle(piles, held, now, part, room)
    known = held + (1.0 - GAMMA) / GAMMA * (_held(piles, middle) - held)
    return _settle(piles, known, middle, part, room)


def _held(piles: _Piles, now: Array) -> Array:
    cells = piles.stores * now[1:] + piles.waters * _steamed(now[1:])
    return np.concatenate([(piles.capacity * now[0])[None, :], cells])


def _settle(piles: _Piles, known: Array, guess: Array, part: Array, room: float) -> Array:
    old = guess
    for _ in range(MOST_TURNS):
        new = _turn(piles, known, old, part, room)
        leaps = (piles.waters > 0.0) & ((old[1:] - BOILS) * (new[1:] - BOILS) < 0.0)
        new[1:][leaps] = BOILS
        slope = piles.waters * _steaming(old[1:])
        off = np.abs(piles.waters * (_steamed(new[1:]) - _steamed(old[1:])) - slope * (new[1:] - old[1:]))
        short, was = piles.setting - new[0], piles.setting - old[0]
        gives, bent = _heater(piles, was)
        missed = np.abs(part * (_heater(piles, short)[0] - gives - bent * (short - was)))
        if not leaps.any() and off.max() < CLOSE and missed.max() < CLOSE:
            return new
        old = new
    raise ArithmeticError("the heat flow did not settle")


def _turn(piles: _Piles, known: Array, old: Array, part: Array, room: float) -> Array:
    """One turn of Newton's method for all stacks: elimination downwards, then back up."""
    links = piles.links
    gives, slope = _heater(piles, piles.setting - old[0])
    steam = piles.waters * _steaming(old[1:])
    stores = piles.stores + steam
    right = known[1:] + steam * old[1:] - piles.waters * _steamed(old[1:])
    upper = part * links[0]
    pivot = piles.capacity + part * slope + upper
    values, ratios = np.empty_like(old), np.empty_like(old)
    values[0] = (known[0] + part * (gives + slope * old[0])) / pivot
    ratios[0] = upper / pivot
    count = len(stores)
    for place in range(count):
        lower = part * links[place + 1]
        pivot = stores[place] + upper * (1.0 - ratios[place]) + lower
        flows = right[place] + upper * values[place]
        values[place + 1] = (flows + lower * room if place == count - 1 else flows) / pivot
        ratios[place + 1] = lower / pivot
        upper = lower
    for place in range(count - 1, -1, -1):
        values[place] += ratios[place] * values[place + 1]
    return values


def _heater(piles: _Piles, short: Array) -> tuple[Array, Array]:
    cold = np.maximum(short, 0.0)
    whole = cold + piles.band
    return piles.power * cold / whole, np.where(short > 0.0, piles.power * piles.band / (whole * whole), 0.0)


def _steamed(degrees: Array) -> Array:
    place = np.clip((degrees - BOILS) / (2.0 * HALF_WIDTH) + 0.5, 0.0, 1.0)
    return place * place * (3.0 - 2.0 * place)


def _steaming(degrees: Array) -> Array:
    place = np.clip((degrees - BOILS) / (2.0 * HALF_WIDTH) + 0.5, 0.0, 1.0)
    return 3.0 * place * (1.0 - place) / HALF_WIDTH


def doses(clock: Array, at_dye: Array, reference: float, steepness: float = STEEPNESS) -> Array:
    """Equivalent seconds at ``reference`` °C of each column of temperatures (°C) over its times (s)."""
    powers = steepness * (1.0 / (reference + KELVIN) - 1.0 / (at_dye + KELVIN))
    rates, ratios = np.exp(powers), np.diff(powers, axis=0)
    flat = np.abs(ratios) < FLAT
    means = np.where(flat, 0.5 * (rates[1:] + rates[:-1]), np.diff(rates, axis=0) / np.where(flat, 1.0, ratios))
    total: Array = (np.diff(clock, axis=0) * means).sum(axis=0)
    return total
