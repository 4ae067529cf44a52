"""All posteriors, ours beside pyAgrum's at its best: how fast, how far apart, and how wide we can go.

Networks are drawn by a seeded generator: priors .005 to .1, leaks .005 to .03, strengths .1 to .95, and a fixed
number of causes to a finding. pyAgrum keeps one engine for each network, has evidence replaced in place, is
asked only for the causes linked to it, and runs on one thread, which is quicker for it here; ours starts from
nothing each time and gives every cause. Times are medians over the same draws of evidence.
"""

import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from multiprocessing import get_context
from multiprocessing.queues import SimpleQueue
from random import Random
from statistics import median
from time import perf_counter

import pyagrum as gum

from diagnose.reasoning.beliefs import WIDEST, believe
from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.factors import factors
from diagnose.reasoning.network import Network
from diagnose.reasoning.sweep import plan
from tests.bench.rows import Row

SEEN = (1, 3, 6, 14)  # findings seen at a time
DRAWS = 15  # of evidence, for each number of findings seen
PATIENCE = 60.0  # seconds that pyAgrum gets for one number of findings
AGREES = 1e-12
FASTER = {1: 5.0, 3: 5.0, 6: 5.0, 14: 100.0}
QUICK, SMALL = 0.5, 1024.0  # seconds and MiB at the greatest width


@dataclass(frozen=True, slots=True)
class Size:
    causes: int
    findings: int
    each: int  # causes to a finding

    def __str__(self) -> str:
        return f"{self.causes} × {self.findings}, {self.each} causes to a finding"


SPARSE = Size(60, 30, 6)
LARGE = Size(1000, 500, 8)
DENSE = Size(60, 30, 60)  # every cause brings on every finding: no table of such a finding fits a memory


@dataclass(frozen=True, slots=True)
class Times:
    """Seconds by draw, and the posteriors of the linked causes by draw."""

    seconds: list[float]
    posteriors: list[dict[str, float]]


def network(size: Size) -> Network:
    random = Random(size.causes * size.each)
    names = [f"c{i}" for i in range(size.causes)]
    return Network.of(
        {name: random.uniform(0.005, 0.1) for name in names},
        {
            f"f{j}": (
                random.uniform(0.005, 0.03),
                {name: random.uniform(0.1, 0.95) for name in random.sample(names, size.each)},
            )
            for j in range(size.findings)
        },
    )


def draws(net: Network, seen: int) -> list[tuple[str, ...]]:
    """What is seen, time after time: findings that hang together, as they would in one case."""
    random = Random(seen)
    return [_case(random, net, seen) for _ in range(DRAWS)]


def _case(random: Random, net: Network, seen: int) -> tuple[str, ...]:
    """Findings that share causes with those before them, as far as there are any."""
    left = sorted(net.defects)
    random.shuffle(left)
    case = [left.pop()]
    touched = set(net.defects[case[0]].links)
    while len(case) < seen:
        near = next((name for name in left if touched & set(net.defects[name].links)), left[0])
        left.remove(near)
        case.append(near)
        touched |= set(net.defects[near].links)
    return tuple(case)


def linked(net: Network, seen: Sequence[str]) -> list[str]:
    return sorted({net.causes[i] for name in seen for i in net.defects[name].links})


def ours(net: Network, cases: Sequence[tuple[str, ...]]) -> Times:
    believe(net, Evidence(seen=cases[0]))  # whatever is imported on the way
    seconds, posteriors = [], []
    for seen in cases:
        start = perf_counter()
        beliefs = believe(net, Evidence(seen=seen))
        seconds.append(perf_counter() - start)
        posteriors.append({cause: beliefs.present[net.index[cause]] for cause in linked(net, seen)})
    return Times(seconds, posteriors)


def theirs(net: Network, cases: Sequence[tuple[str, ...]], answer: "SimpleQueue[tuple[float, dict[str, float]]]") -> None:
    """pyAgrum on the cases, one answer after the other; runs in a process of its own, which may be ended."""
    engine = gum.LazyPropagation(_agrum(net))
    engine.setNumberOfThreads(1)
    for number, seen in enumerate((cases[0], *cases)):
        targets = linked(net, seen)
        start = perf_counter()
        engine.eraseAllEvidence()
        engine.eraseAllTargets()
        for cause in targets:
            engine.addTarget(cause)
        for name in seen:
            engine.addEvidence(name, 1)
        engine.makeInference()
        found = {cause: engine.posterior(cause)[1] for cause in targets}
        if number:  # the first is to warm up
            answer.put((perf_counter() - start, found))
    
    
def _agrum(net: Network) -> gum.BayesNet:
    bn = gum.BayesNet()
    for name, prior in zip(net.causes, net.priors, strict=True):
        bn.add(gum.LabelizedVariable(name, name, 2))
        bn.cpt(name).fillWith([1.0 - prior, prior])
    for name, node in net.defects.items():
        bn.addNoisyORNet(gum.LabelizedVariable(name, name, 2), node.leak[0])
        for i, link in node.links.items():
            bn.addWeightedArc(net.causes[i], name, link[0])
    return bn
