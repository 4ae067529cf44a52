"""How fast heat is reckoned, beside a general solver on the same stack, and how near the two come."""

from collections.abc import Sequence
from statistics import median
from time import perf_counter

import numpy as np
from scipy.integrate import solve_ivp

from diagnose.cli.shop import shelf
from diagnose.foresight.pressing import body_of, usual_settings
from diagnose.press.dye.dose import dose
from diagnose.press.heat.soaking import ROOM, heater, soak, steaming
from diagnose.press.heat.stack import Stack
from diagnose.press.pressing import stack_of
from tests.bench.many import doses, soak_many
from tests.bench.rows import Row

ITEMS = ("tea-towel-65-35", "ceramic-tile", "mug", "hardboard-coaster")
ONE, SWEEP, NEAR = 5e-3, 3.0, 0.01  # s, s, share of the dose
MANY = 10_000


def run(repeats: int = 30) -> list[Row]:
    """One stack of several kinds, its distance from a general method, and a sweep of ten thousand."""
    rows = []
    for name in ITEMS:
        item = shelf.knowledge().items[name]
        body, settings = body_of(item, shelf.knowledge()), usual_settings(item)
        pile = stack_of(body, settings)
        took = median(_time(lambda p=pile, s=settings: soak(p, s.temperature, s.dwell)) for _ in range(repeats))
        rows.append(Row(f"heat, one press: {name}", f"{took * 1e3:.1f} ms", f"at most {ONE * 1e3:.0f} ms", took <= ONE))
        started = perf_counter()
        clock, at_dye = dense(pile, settings.temperature, settings.dwell)
        slow = perf_counter() - started
        rows.append(Row(f"the same by scipy's BDF, dense: {name}", f"{slow * 1e3:.0f} ms"))
        moments = soak(pile, settings.temperature, settings.dwell)
        ours = dose([m.time for m in moments], [m.at_dye(pile) for m in moments], settings.temperature)
        off = abs(ours / dose(clock, at_dye, settings.temperature) - 1.0)
        rows.append(Row(f"dose against scipy's: {name}", f"{off:.2%}", f"at most {NEAR:.0%}", off <= NEAR))
    return [*rows, _sweep()]


def _sweep() -> Row:
    item = shelf.knowledge().items["tea-towel-65-35"]
    body, usual = body_of(item, shelf.knowledge()), usual_settings(item)
    settings = np.linspace(usual.temperature - 20, usual.temperature + 10, MANY)
    ends = np.linspace(20.0, 90.0, MANY)
    started = perf_counter()
    piles = [stack_of(body, usual, tightness=0.5 + place / MANY) for place in range(MANY)]
    clock, at_dye = soak_many(piles, list(settings), list(ends))
    doses(clock, at_dye, usual.temperature)
    took = perf_counter() - started
    return Row(f"heat, a sweep of {MANY:,} stacks", f"{took:.2f} s", f"at most {SWEEP:.0f} s", took <= SWEEP)


def dense(pile: Stack, setting: float, end: float) -> tuple[Sequence[float], Sequence[float]]:
    """Times and temperatures at the dye by a general method at a tight tolerance, on the same cells."""
    stores, waters, links = (np.array(each) for each in (pile.stores, pile.waters, pile.links))

    def flow(_: float, now: np.ndarray) -> np.ndarray:
        into = links * (now - np.append(now[1:], ROOM))
        steam = np.array([steaming(degrees) for degrees in now[1:]])
        cells = (into[:-1] - into[1:]) / (stores + waters * steam)
        return np.concatenate([[(heater(pile.platen, setting - now[0])[0] - into[0]) / pile.platen.capacity], cells])

    begin = np.array([setting, *(ROOM for _ in stores)])
    found = solve_ivp(flow, (0.0, end), begin, method="BDF", rtol=1e-8, atol=1e-8)
    at_dye = found.y[pile.dye] + (found.y[pile.dye + 1] - found.y[pile.dye]) * pile.lean
    return list(found.t), list(at_dye)


def _time(work: object) -> float:
    started = perf_counter()
    work()  # type: ignore[operator]
    return perf_counter() - started
