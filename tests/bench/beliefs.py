"""All posteriors, ours beside pyAgrum's at its best: how fast, how far apart, and how wide ours can go.

Networks are drawn by a seeded generator: priors .005 to .1, leaks .005 to .03, strengths .1 to .95, and a fixed
number of causes to a finding. What is seen hangs together: each finding shares a cause with those before it.
pyAgrum keeps one engine for each network, has evidence replaced in place, is asked only for the causes linked
to it, and runs on one thread, which is no slower for it here; ours keeps the finding's links and starts from
nothing else each time, and gives every cause. Times are medians over the same draws of evidence. With few causes
to a finding pyAgrum's cliques stay small and it keeps up to within a factor of ten or twenty at 14 seen (MODEST);
with more they outgrow it, first in time, then in memory (FULL).
"""

import resource
import tracemalloc
from collections.abc import Sequence
from dataclasses import dataclass, field
from multiprocessing import get_context
from multiprocessing.connection import Connection
from random import Random
from statistics import median
from time import perf_counter
from typing import TypeAlias

from diagnose.reasoning.beliefs import WIDEST, believe
from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.network import Network
from tests.bench.rows import Row
from tests.reasoning.networks import furthest, plain
from tests.reasoning.peer_pyagrum import agrum
from tests.reasoning.precise import DIGITS, precisely

Case: TypeAlias = tuple[str, ...]  # the findings seen
Answers: TypeAlias = list[tuple[float, list[float]]]  # seconds, and the posteriors of the linked causes

DRAWS = 15  # of evidence, for each number of findings seen
REPEATS = 3  # of ours, for each draw
PATIENCE = 60.0  # seconds that pyAgrum gets for the draws of one number of findings
ROOM = 8  # GiB that it may take
AGREES = 1e-12
QUICK, SMALL = 0.5, 1024  # seconds and MiB at the greatest width


@dataclass(frozen=True, slots=True)
class Size:
    """``faster``: how many times faster ours must be, by number of findings seen."""

    causes: int
    findings: int
    each: int  # causes to a finding
    faster: dict[int, float] = field(default_factory=dict)

    def __str__(self) -> str:
        return f"{self.causes} × {self.findings}, {self.each} causes to a finding"


MODEST = {1: 5.0, 3: 5.0, 6: 5.0, 14: 5.0}
FULL = {1: 5.0, 3: 5.0, 6: 5.0, 14: 100.0}
SIZES = (
    Size(60, 30, 6, MODEST),
    Size(60, 30, 9, FULL),
    Size(60, 30, 60, FULL),
    Size(1000, 500, 6, MODEST),
    Size(1000, 500, 12, FULL),
    Size(1000, 500, 20, {14: 100.0}),
)


def network(size: Size) -> Network:
    return plain(Random(size.each), size.causes, size.findings, size.each, (0.005, 0.1), (0.005, 0.03), (0.1, 0.95))


def draws(net: Network, seen: int) -> list[Case]:
    random = Random(seen)
    return [_case(random, net, seen) for _ in range(DRAWS)]


def _case(random: Random, net: Network, seen: int) -> Case:
    """Findings each of which shares a cause with those before it, as far as there are any."""
    left = random.sample(sorted(net.defects), len(net.defects))
    case = [left.pop()]
    touched = set(net.defects[case[0]].links)
    while len(case) < seen:
        near = next((name for name in left if touched & set(net.defects[name].links)), left[0])
        left.remove(near)
        case.append(near)
        touched |= set(net.defects[near].links)
    return tuple(case)


def linked(net: Network, case: Case) -> list[int]:
    return sorted({i for name in case for i in net.defects[name].links})


def ours(net: Network, cases: Sequence[Case]) -> Answers:
    believe(net, Evidence(seen=cases[0]))  # whatever is imported on the way
    answers = []
    for case in cases:
        seconds = []
        for _ in range(REPEATS):
            start = perf_counter()
            beliefs = believe(net, Evidence(seen=case))
            seconds.append(perf_counter() - start)
        answers.append((median(seconds), [beliefs.present[i] for i in linked(net, case)]))
    return answers


def theirs(net: Network, cases: Sequence[Case]) -> tuple[Answers, str]:
    """pyAgrum's answers, as far as it got, and what stopped it: it runs in a process of its own."""
    spawning = get_context("spawn")
    here, there = spawning.Pipe(duplex=False)
    process = spawning.Process(target=_ask_agrum, args=(net, cases, there))
    process.start()
    there.close()
    answers: Answers = []
    stopped = f"none within {PATIENCE:.0f} s"
    deadline = None
    try:
        while here.poll(PATIENCE if deadline is None else max(0.0, deadline - perf_counter())):
            answer = here.recv()
            if answer is None:  # set up: the clock starts
                deadline = perf_counter() + PATIENCE
            else:
                answers.append(answer)
    except EOFError:
        stopped = f"none within {ROOM} GiB"
    process.terminate()
    process.join()
    return answers, stopped


def _ask_agrum(net: Network, cases: Sequence[Case], pipe: Connection) -> None:
    import pyagrum as gum

    resource.setrlimit(resource.RLIMIT_AS, (ROOM << 30, ROOM << 30))
    engine = gum.LazyPropagation(agrum(net))
    engine.setNumberOfThreads(1)
    pipe.send(None)
    for case in cases:
        targets = [net.causes[i] for i in linked(net, case)]
        start = perf_counter()
        engine.eraseAllEvidence()
        engine.eraseAllTargets()
        for cause in targets:
            engine.addTarget(cause)
        for name in case:
            engine.addEvidence(name, 1)
        try:
            engine.makeInference()
        except Exception:  # out of memory comes in several guises
            return
        posteriors = [engine.posterior(cause)[1] for cause in targets]
        pipe.send((perf_counter() - start, posteriors))


def compared(size: Size) -> list[Row]:
    """One row for each number of findings seen, and one for how far the two are apart at most."""
    net = network(size)
    rows, apart, answered = [], 0.0, 0
    for seen, limit in size.faster.items():
        cases = draws(net, seen)
        own = ours(net, cases)
        other, stopped = theirs(net, cases)
        apart = max([apart, *(furthest(a, b) for (_, a), (_, b) in zip(own, other, strict=False))])
        answered += len(other)
        rows.append(_speed(f"{size}; {seen} seen", own, other, stopped, limit))
    if answered:
        name = f"{size}: furthest from pyAgrum's posteriors"
        rows.append(Row(name, f"{apart:.1e}", f"at most {AGREES:.0e}", apart <= AGREES))
    return rows


def _speed(name: str, own: Answers, other: Answers, stopped: str, limit: float) -> Row:
    mine = median(seconds for seconds, _ in own)
    if not other:
        return Row(name, f"{1e3 * mine:.2f} ms; pyAgrum: {stopped}", f"at least {limit:.0f} times faster", True)
    others = median(seconds for seconds, _ in other)
    measured = f"{1e3 * mine:.2f} ms; pyAgrum {1e3 * others:.3g} ms, {others / mine:.3g} times ours"
    return Row(name, measured, f"at least {limit:.0f} times faster", others >= limit * mine)


def precise(size: Size) -> list[Row]:
    """Where pyAgrum has no answer: how far ours is from the signed sum in many digits."""
    net = network(size)
    rows = []
    for seen in size.faster:
        evidence = Evidence(seen=draws(net, seen)[0])
        apart = furthest(believe(net, evidence).present, precisely(net, evidence)[0])
        name = f"{size}; {seen} seen: furthest from {DIGITS}-digit arithmetic"
        rows.append(Row(name, f"{apart:.1e}", f"at most {AGREES:.0e}", apart <= AGREES))
    return rows


def widest() -> list[Row]:
    """What the greatest exact width takes where every cause touches all findings that are open."""
    rows = []
    for width in (WIDEST, WIDEST + 1):
        seconds, mebibytes = _in_a_process_of_its_own(width)
        limit = f"at most {QUICK} s and {SMALL} MiB" if width == WIDEST else ""
        measured = f"{seconds:.2f} s, {mebibytes} MiB"
        kept = seconds <= QUICK and mebibytes <= SMALL
        what = "the greatest that is exact" if width == WIDEST else "one more"
        rows.append(Row(f"60 causes on each of {width} findings ({what})", measured, limit, kept if limit else None))
    return rows


def _in_a_process_of_its_own(width: int) -> tuple[float, int]:
    with get_context("spawn").Pool(1) as pool:
        return pool.apply(_at_width, (width,))


def _at_width(width: int) -> tuple[float, int]:
    """Median seconds, and the most memory that the beliefs take, in MiB."""
    net = plain(Random(width), 60, width, 60)
    evidence = Evidence(seen=tuple(net.defects))
    believe(net, Evidence(seen=evidence.seen[:9]))  # imports numpy
    seconds = []
    for _ in range(5):
        start = perf_counter()
        believe(net, evidence, widest=width)
        seconds.append(perf_counter() - start)
    tracemalloc.start()  # slows things down, so not while the clock runs
    believe(net, evidence, widest=width)
    return median(seconds), tracemalloc.get_traced_memory()[1] >> 20


def run() -> list[Row]:
    """Takes some minutes, most of them pyAgrum's."""
    rows = [row for size in SIZES for row in compared(size)]
    return [*rows, *precise(SIZES[2]), *widest()]
