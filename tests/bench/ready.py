"""How long it takes to look a job over before the press, and to find where to begin with new goods."""

from collections.abc import Callable
from statistics import median
from time import perf_counter

from diagnose.cli.shop import shelf
from diagnose.foresight.dosing import Set
from diagnose.foresight.job import Job
from diagnose.foresight.ladder import Goods, ladder
from diagnose.foresight.ready import readiness
from diagnose.knowledge.shop import Rates
from tests.bench.rows import Row

LOOKED, RECKONED = 0.5, 1.0  # s


def run(repeats: int = 10) -> list[Row]:
    """A job without and with settings told; a ladder."""
    known = shelf.knowledge()
    tile = known.items["ceramic-tile"]
    set_so = Set(temperature=196.0, dwell=200.0, offset=-6.0, cover_sheets=2)
    return [
        _row("ready, nothing told", lambda: readiness(Job(item=tile), known, Rates()), LOOKED, repeats),
        _row("ready, settings told", lambda: readiness(Job(item=tile, set=set_so), known, Rates()), LOOKED, repeats),
        _row("ladder for a thicker tile", lambda: ladder(Goods(like=tile, thickness=9e-3), known), RECKONED, repeats),
    ]


def _row(name: str, call: Callable[[], object], most: float, repeats: int) -> Row:
    took = median(_time(call) for _ in range(repeats))
    return Row(name, f"{took * 1e3:.0f} ms", f"at most {most * 1e3:.0f} ms", took <= most)


def _time(call: Callable[[], object]) -> float:
    started = perf_counter()
    call()
    return perf_counter() - started
