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

A_LITTLE = 0.5  # in log-odds: 70 % becomes 59 or 79 %, about as far as two careful people differ
AS_GOOD = 1.05  # a step that costs at most a twentieth more than the best is as good
TIMES = 200  # rule sets


@dataclass(frozen=True, slots=True)
class Steadiness:
    """In how many of ``all`` shaken rule sets the step is the very ``best``, and in how many as ``good`` as that."""

    best: int
    good: int
    all: int


def steadiness(
    net: Network, evidence: Evidence, desk: Desk, advice: Advice, *, times: int = TIMES, far: Far = unheard
) -> Steadiness:
    """How far the step that is advised hangs on the numbers. The same evidence always gives the same answer."""
    found = [_otherwise(net, evidence, desk, number) for number in paced(range(times), far)]
    best = sum([(other.kind, other.id) == (advice.kind, advice.id) for other in found])
    return Steadiness(best, sum([_as_good(other, advice) for other in found]), times)


def _otherwise(net: Network, evidence: Evidence, desk: Desk, number: int) -> Advice:
    other = shaken(net, Random(f"shaken {number}"), A_LITTLE)
    return advise(other, believe(other, evidence), evidence, desk)


def _as_good(other: Advice, advice: Advice) -> bool:
    """Whether a step is as good as the best by other rules."""
    own = [
        each.cost
        for each in other.options
        if (each.kind, each.step.id if each.step else "") == (advice.kind, advice.id)
    ]
    return bool(own) and own[0] <= other.options[0].cost * AS_GOOD


def shaken(net: Network, random: Random, by: float) -> Network:
    """The network with each of its numbers so much higher or lower in log-odds, as chance has it. What is impossible,
    or certain, stays so."""
    up = exp(by)

    def moved(chance: float) -> float:
        odds = up if random.random() < 0.5 else 1.0 / up
        return chance * odds / (1.0 - chance + chance * odds)

    def nodes(known: Mapping[str, FindingNode]) -> Iterator[tuple[str, FindingNode]]:
        for name, node in known.items():
            links = {cause: scaled([moved(chance) for chance in link]) for cause, link in node.links.items()}
            leak = scaled([max(LEAST_LEAK, moved(chance)) for chance in node.leak])
            yield name, FindingNode(node.id, leak, links, node.outcomes, node.wrong)

    return replace(
        net,
        priors=tuple([moved(chance) for chance in net.priors]),
        defects=dict(nodes(net.defects)),
        checks=dict(nodes(net.checks)),
        cures={fix: {cause: moved(cure) for cause, cure in cures.items()} for fix, cures in net.cures.items()},
    )
