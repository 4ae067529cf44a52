"""The same rules with other numbers: every chance moved up or down in log-odds, to see what hangs on them."""

from collections.abc import Mapping
from dataclasses import replace
from math import exp
from random import Random

from diagnose.reasoning.network import LEAST_LEAK, FindingNode, Network, scaled

A_STEP = 1.0  # in log-odds: "likely" becomes "almost always" or "even"; about what two careful people differ by


def shaken(net: Network, random: Random, by: float = A_STEP) -> Network:
    """The network with each of its numbers ``by`` log-odds higher or lower, as chance has it. What is impossible, or
    certain, stays so."""

    def moved(chance: float) -> float:
        odds = exp(by if random.random() < 0.5 else -by)
        return chance * odds / (1.0 - chance + chance * odds)

    def all_moved(nodes: Mapping[str, FindingNode]) -> dict[str, FindingNode]:
        return {name: _moved(node) for name, node in nodes.items()}

    def _moved(node: FindingNode) -> FindingNode:
        links = {cause: scaled([moved(chance) for chance in link]) for cause, link in node.links.items()}
        leak = scaled([max(LEAST_LEAK, moved(chance)) for chance in node.leak])
        return FindingNode(node.id, leak, links, node.outcomes, node.wrong)

    return replace(
        net,
        priors=tuple([moved(chance) for chance in net.priors]),
        defects=all_moved(net.defects),
        checks=all_moved(net.checks),
        cures={fix: {cause: moved(cure) for cause, cure in cures.items()} for fix, cures in net.cures.items()},
    )
