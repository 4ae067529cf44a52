"""Learning from a casebook: how long it takes for 10,000, 100,000 and a million cases, and what it is worth.

The cases are those of made-up shops (``tests/casebook/learning/harbour.py``) whose numbers differ from the shipped
ones: drawn from the shop's own numbers, with the same checks after the same sights and the likeliest fixes after the
answers, as a dialogue has them, so that patterns come again and again as they do in life.

*Speed.* A SQLite casebook is filled: each distinct pattern goes in as a case of its own through the store; the cases
that show the same as one already there are copied beside it by the database, which is not measured. Then, in a process
of its own, the clock runs from opening the book to the numbers: patterns grouped and counted by the database,
entered on sheets, and learnt in two processes. Memory is the greatest resident size of both together, by the system's
own account.

*Worth.* For several shops, cases are predicted in time order before they are learnt
(``casebook/learning/prequential``), paired with the shipped numbers. By 100 cases the log
score must be better beyond doubt (95 % intervals by bootstrap), and at no count worse beyond doubt.
"""

import sqlite3
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from datetime import timedelta
from functools import cache
from itertools import islice
from multiprocessing import active_children, get_context
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter
from typing import Any, NamedTuple

from diagnose.casebook.case import TIME, Case
from diagnose.casebook.learning.calibration import mean_of
from diagnose.casebook.learning.jobs import Jobs
from diagnose.casebook.learning.learning import learn
from diagnose.casebook.learning.material import Gathering
from diagnose.casebook.learning.numbers import parameters
from diagnose.casebook.learning.prequential import compared, predicted
from diagnose.casebook.learning.sharing import sharing
from diagnose.casebook.store.casebook import open_book
from diagnose.casebook.store.seals import seal
from diagnose.dialogue.session import Session
from diagnose.knowledge.loading import load
from diagnose.knowledge.model import Knowledge
from tests.bench.rows import Row
from tests.casebook.learning.harbour import FIRST, PRESSES, Harbour

SIZES = (10_000, 100_000, 1_000_000)
SECONDS, MEBIBYTES = 60.0, 1024
LINEAR = 1.5  # times the cost of a case, at the next size
SHOPS = 6
COUNTS = (10, 20, 50, 100, 200, 500)


# --- speed ---


class Taken(NamedTuple):
    """``patterns``: distinct ones. ``steps``: of expectation-maximisation, in all."""

    patterns: int
    seconds: float
    mebibytes: int
    steps: int


@cache
def _knowledge() -> Knowledge:
    return load()


def fill(path: Path, sizes: tuple[int, ...]) -> Iterator[int]:
    """Fill a casebook up to each of the sizes in turn; yields once it is that full."""
    made = 0
    with ProcessPoolExecutor(2, mp_context=get_context("spawn")) as pool:
        for size in sizes:
            half = (size - made) // 2
            drawn = list(pool.map(_drawn, (2 * size, 2 * size + 1), (half, size - made - half)))
            _copy(path, drawn[0] + drawn[1], made)
            made = size
            yield size


def _drawn(part: int, count: int) -> list[tuple[str, Session]]:
    harbour = Harbour(_knowledge(), seed=1)
    told = islice(harbour.stories(part), count)
    return [(PRESSES[number % 2], Session(moves)) for number, (_, moves) in enumerate(told)]


def _copy(path: Path, told: list[tuple[str, Session]], made: int) -> None:
    """One case of each new pattern through the store, the others beside them."""
    groups: dict[tuple[str, str], list[int]] = {}
    for number, (press, session) in enumerate(told):
        groups.setdefault((press, repr(session)), []).append(number)
    firsts = [numbers[0] for numbers in groups.values()]
    with open_book(path) as book:
        book.add(_case(made + number, *told[number]) for number in firsts)
    with sqlite3.connect(path) as connection:
        connection.row_factory = sqlite3.Row
        for numbers in groups.values():
            first = connection.execute("select * from cases where id = ?", (_id(made + numbers[0]),)).fetchone()
            copies = (_sealed({**first, "id": _id(made + n), "ended": _ended(made + n)}) for n in numbers[1:])
            connection.executemany(f"insert into cases values ({','.join('?' * len(first))})", copies)
    connection.close()


def _sealed(row: dict[str, Any]) -> list[Any]:
    return [*(row | {"digest": seal(row, {})}).values()]


def _case(number: int, press: str, session: Session) -> Case:
    return Case(id=_id(number), ended=FIRST + timedelta(minutes=number), session=session, press=press)


def _id(number: int) -> str:
    return f"{number:032x}"


def _ended(number: int) -> str:
    return (FIRST + timedelta(minutes=number)).strftime(TIME)


def learnt_from(path: Path) -> Taken:
    """Learn from the book, and what that took. To be run in a process of its own."""
    knowledge = _knowledge()
    before = perf_counter()
    jobs = Jobs(knowledge, parameters(knowledge))
    patterns = 0
    with open_book(path) as book, sharing(jobs) as gathering:
        for case, count in book.patterns():
            gathering.add(case, float(count))
            patterns += 1
        learnt = learn(gathering.done(), jobs.parameters)
        seconds = perf_counter() - before
        kibibytes = sum(_most(process) for process in ("self", *(str(child.pid) for child in active_children())))
    steps = sum(len(climb.fitted.climbed) - 1 for climb in learnt.climbs)
    return Taken(patterns, seconds, kibibytes >> 10, steps)


def _most(process: str) -> int:
    """The greatest resident size of a process so far, in KiB. What ``getrusage`` tells will not do: a process begins
    there with the size of the one that started it, here the bench with all its cases."""
    status = Path(f"/proc/{process}/status").read_text(encoding="utf-8")
    return int(status.partition("VmHWM:")[2].split()[0])


def speed(sizes: tuple[int, ...] = SIZES) -> Iterator[Row]:
    """One row for each size, and how the cost of a case grows."""
    with TemporaryDirectory() as folder:
        path, before = Path(folder) / "casebook.sqlite3", 0.0
        for size in fill(path, sizes):
            with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as pool:
                taken = pool.submit(learnt_from, path).result()
            each = taken.seconds / size
            measured = f"{taken.seconds:.1f} s, {taken.mebibytes} MiB; {taken.patterns:,} patterns, {taken.steps} steps"
            kept = taken.seconds <= SECONDS and taken.mebibytes <= MEBIBYTES
            yield Row(f"learn from {size:,} cases", measured, f"at most {SECONDS:.0f} s and {MEBIBYTES} MiB", kept)
            if before:
                ok = each <= LINEAR * before
                yield Row(
                    f"a case at {size:,}", f"{each / before:.2f} times a case at a tenth", f"at most {LINEAR}", ok
                )
            before = each


# --- worth ---


def gains(seed: int) -> list[Row]:
    """What learning gains in one shop, case by case in time order."""
    jobs = Jobs(_knowledge(), parameters(_knowledge()))
    cases = list(Harbour(_knowledge(), seed).cases(max(COUNTS)))
    pairs = list(predicted(cases, Gathering(jobs), jobs, lots=50))
    gained = [pair.after.log_score - pair.before.log_score for pair in pairs]
    rows = []
    for count in COUNTS:
        found = mean_of(gained[:count])
        ok = found.better if count >= 100 else not found.worse
        limit = "better beyond doubt" if count >= 100 else "not worse beyond doubt"
        measured = f"{found.mean:+.3f} nats a case ({found.low:+.3f} to {found.high:+.3f})"
        rows.append(Row(f"shop {seed}, first {count} cases: log score", measured, limit, ok))
    whole = compared(pairs)
    brier, before, after = whole.brier, whole.before, whole.after
    measured = f"{brier.mean:+.4f} ({brier.low:+.4f} to {brier.high:+.4f})"
    rows.append(Row(f"shop {seed}: squared error saved, chance of a cure", measured, "not worse", not brier.worse))
    null = f"a perfect forecaster {after.usual:.3f}, to {after.most:.3f}"
    measured = f"{before.error:.3f} before, {after.error:.3f} after; {null}"
    rows.append(Row(f"shop {seed}: calibration error, chance of a cure", measured))
    return rows


def run() -> Iterator[Row]:
    """Takes some ten minutes on two cores, most of them to make up the million cases."""
    with ProcessPoolExecutor(2, mp_context=get_context("spawn")) as pool:
        for rows in pool.map(gains, range(21, 21 + SHOPS)):
            yield from rows
    yield from speed()
