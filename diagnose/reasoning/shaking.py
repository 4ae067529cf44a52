"""The same rules with other numbers: every chance moved up or down in log-odds, to see what hangs on them."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from math import exp
from random import Random

from diagnose.pace import Far, paced, unheard
from diagnose.reasoning.beliefs import believe
from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.network import LEAST_LEAK, FindingNode, Network, scaled
from diagnose.reasoning.planning import Advice, Desk, advise

A_STEP = 1.0  # in log-odds: "likely" becomes "very likely" or "even"; about as far as two careful people differ
UP = exp(A_STEP)
TIMES = 200  # rule sets


@dataclass(frozen=True, slots=True)
class Steadiness:
    """In how many of ``all`` shaken rule sets the next step is the ``same``."""

    same: int
    all: int


def steadiness(
    net: Network, evidence: Evidence, desk: Desk, advice: Advice, *, times: int = TIMES, far: Far = unheard
) -> Steadiness:
    """How far the step that is advised hangs on the numbers. The same evidence always gives the same answer."""
    steps = (_step(net, evidence, desk, number) for number in paced(range(times), far))
    return Steadiness(sum([step == (advice.kind, advice.id) for step in steps]), times)


def _step(net: Network, evidence: Evidence, desk: Desk, number: int) -> tuple[str, str]:
    other = shaken(net, Random(f"shaken {number}"))
    found = advise(other, believe(other, evidence), evidence, desk)
    return found.kind, found.id


def shaken(net: Network, random: Random) -> Network:
    """The network with each of its numbers a step higher or lower in log-odds, as chance has it. What is impossible,
    or certain, stays so."""
    return replace(
        net,
        priors=tuple([_moved(chance, random) for chance in net.priors]),
        defects=dict(_nodes(net.defects, random)),
        checks=dict(_nodes(net.checks, random)),
        cures={fix: {cause: _moved(cure, random) for cause, cure in cures.items()} for fix, cures in net.cures.items()},
    )


def _nodes(nodes: Mapping[str, FindingNode], random: Random) -> Iterator[tuple[str, FindingNode]]:
    for name, node in nodes.items():
        links = {cause: scaled([_moved(one, random) for one in link]) for cause, link in node.links.items()}
        leak = scaled([max(LEAST_LEAK, _moved(chance, random)) for chance in node.leak])
        yield name, FindingNode(node.id, leak, links, node.outcomes, node.wrong)


def _moved(chance: float, random: Random) -> float:
    odds = UP if random.random() < 0.5 else 1.0 / UP
    return chance * odds / (1.0 - chance + chance * odds)
