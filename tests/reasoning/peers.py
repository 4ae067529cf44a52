"""The same networks in pyAgrum and in pgmpy, for a second and a third opinion."""

from collections.abc import Sequence
from itertools import product

import pyagrum as gum
from pgmpy.factors.discrete import NoisyORCPD, TabularCPD
from pgmpy.inference import VariableElimination
from pgmpy.models import DiscreteBayesianNetwork

from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.network import Network, Node

ALWAYS = "always there"


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


def _agrum_check(bn: gum.BayesNet, net: Network, name: str, node: Node) -> None:
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


def ask_pgmpy(net: Network, evidence: Evidence) -> list[float]:
    """Posteriors of all causes; the leak of a defect is a parent that is always there."""
    edges = [(net.causes[i], name) for name, node in net.defects.items() for i in node.links]
    leaks = [(f"{ALWAYS} {name}", name) for name in net.defects]
    model = DiscreteBayesianNetwork(edges + leaks)
    model.add_nodes_from(cause for cause in net.causes if cause not in model)
    for cause, prior in zip(net.causes, net.priors, strict=True):
        model.add_cpds(_pgmpy_root(cause, prior))
    for (always, name), node in zip(leaks, net.defects.values(), strict=True):
        model.add_cpds(_pgmpy_root(always, 1.0))
        strengths = [node.leak[0], *(link[0] for link in node.links.values())]
        model.add_cpds(NoisyORCPD(name, strengths, [always, *(net.causes[i] for i in node.links)]))
    given = {**dict.fromkeys(evidence.seen, "True"), **dict.fromkeys(evidence.not_seen, "False")}
    elimination = VariableElimination(model)
    return [_pgmpy_posterior(elimination, cause, given) for cause in net.causes]


def _pgmpy_root(name: str, chance: float) -> TabularCPD:
    names: dict[str, Sequence[str]] = {name: ["True", "False"]}
    return TabularCPD(name, 2, [[chance], [1.0 - chance]], state_names=names)


def _pgmpy_posterior(elimination: VariableElimination, cause: str, given: dict[str, str]) -> float:
    factor = elimination.query([cause], evidence=given, show_progress=False)
    return float(factor.get_value(**{cause: "True"}))
