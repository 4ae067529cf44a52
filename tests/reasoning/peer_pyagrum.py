"""The same networks in pyAgrum, for a second opinion."""

from itertools import product

import pyagrum as gum

from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.network import FindingNode, Network


def agrum(net: Network) -> gum.BayesNet:
    """Leak kept apart from the strengths (F. J. Diez): pyAgrum's ``addNoisyORNet``."""
    bn = _agrum_causes(net)
    for name, node in net.defects.items():
        bn.addNoisyORNet(_yes_no(name), node.leak[0])
        for i, link in node.links.items():
            bn.addWeightedArc(net.causes[i], name, link[0])
    for name, node in net.checks.items():
        _agrum_check(bn, net, name, node)
    return bn


def agrum_with_leak_included(net: Network) -> gum.BayesNet:
    """Strengths that include the leak (M. Henrion): pyAgrum's ``addNoisyORCompound``, with q' = 1 - (1-q)(1-l)."""
    bn = _agrum_causes(net)
    for name, node in net.defects.items():
        leak = node.leak[0]
        bn.addNoisyORCompound(_yes_no(name), leak)
        for i, link in node.links.items():
            bn.addWeightedArc(net.causes[i], name, 1.0 - (1.0 - link[0]) * (1.0 - leak))
    return bn


def _agrum_causes(net: Network) -> gum.BayesNet:
    bn = gum.BayesNet()
    for name, prior in zip(net.causes, net.priors, strict=True):
        bn.add(_yes_no(name))
        bn.cpt(name).fillWith([1.0 - prior, prior])
    return bn


def _yes_no(name: str) -> gum.LabelizedVariable:
    return gum.LabelizedVariable(name, name, 2)


def _agrum_check(bn: gum.BayesNet, net: Network, name: str, node: FindingNode) -> None:
    """The noisy-MAX of a check, its table written out: level by level from the chances of staying below."""
    levels = len(node.outcomes)
    bn.add(gum.LabelizedVariable(name, name, levels))
    for i in node.links:
        bn.addArc(net.causes[i], name)
    for states in product((0, 1), repeat=len(node.links)):
        below = []
        for level in range(levels):
            chance = sum((1.0 - sum(node.leak), *node.leak)[: level + 1])
            for there, link in zip(states, node.links.values(), strict=True):
                chance *= sum((1.0 - sum(link), *link)[: level + 1]) if there else 1.0
            below.append(chance)
        row = [chance - lower for chance, lower in zip(below, (0.0, *below), strict=False)]
        bn.cpt(name)[{net.causes[i]: there for i, there in zip(node.links, states, strict=True)}] = row


def ask_agrum(bn: gum.BayesNet, net: Network, evidence: Evidence) -> tuple[list[float], float]:
    """Posteriors of all causes and the probability of the evidence."""
    engine = gum.LazyPropagation(bn)
    for d in evidence.seen:
        engine.addEvidence(d, 1)
    for d in evidence.not_seen:
        engine.addEvidence(d, 0)
    for check, (outcome, _) in evidence.answers.items():
        engine.addEvidence(check, net.checks[check].outcomes.index(outcome))
    engine.makeInference()
    chance = engine.evidenceProbability() if engine.nbrEvidence() else 1.0
    return [engine.posterior(cause)[1] for cause in net.causes], chance
