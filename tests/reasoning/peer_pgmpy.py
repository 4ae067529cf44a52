"""The same networks in pgmpy, for a third opinion. It takes seconds to load: whoever asks it does so, and not whoever
collects the tests."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.network import Network

if TYPE_CHECKING:
    from pgmpy.factors.discrete import TabularCPD
    from pgmpy.inference import VariableElimination

ALWAYS = "always there"


def ask_pgmpy(net: Network, evidence: Evidence) -> list[float]:
    """Posteriors of all causes; the leak of a defect is a parent that is always there."""
    from pgmpy.factors.discrete import NoisyORCPD
    from pgmpy.inference import VariableElimination
    from pgmpy.models import DiscreteBayesianNetwork

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


def _pgmpy_root(name: str, chance: float) -> "TabularCPD":
    from pgmpy.factors.discrete import TabularCPD

    names: dict[str, Sequence[str]] = {name: ["True", "False"]}
    return TabularCPD(name, 2, [[chance], [1.0 - chance]], state_names=names)


def _pgmpy_posterior(elimination: "VariableElimination", cause: str, given: dict[str, str]) -> float:
    factor = elimination.query([cause], evidence=given, show_progress=False)
    return float(factor.get_value(**{cause: "True"}))
