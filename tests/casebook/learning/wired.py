"""Random networks as the learner sees them, and what enumeration expects of everything hidden."""


from diagnose.casebook.learning.jobs import Finding, Wiring
from diagnose.casebook.learning.numbers import Cure, Link, Parameters, Turn
from diagnose.reasoning.network import Network, Node

ALIVE = 99


def wired(net: Network) -> tuple[Parameters, Wiring]:
    """Every number of the network as a parameter of its own."""
    turns = {Turn(cause): prior for cause, prior in zip(net.causes, net.priors, strict=True)}
    nodes = {**net.defects, **net.checks}
    links = {Link(n.id, net.causes[i]): link for n in nodes.values() for i, link in n.links.items()}
    cures = {Cure(f, net.causes[i]): chance for f, cured in net.cures.items() for i, chance in cured.items()}
    numbers = Parameters.of(turns, links, cures)

    def finding(node: Node) -> Finding:
        return Finding(
            node.leak, node.outcomes, tuple((i, numbers.at[Link(node.id, net.causes[i])]) for i in node.links)
        )

    wiring = Wiring(
        net.causes,
        tuple(range(len(net.causes))),
        {d: finding(node) for d, node in net.defects.items()},
        {k: finding(node) for k, node in net.checks.items()},
        {f: tuple((i, numbers.at[Cure(f, net.causes[i])]) for i in cured) for f, cured in net.cures.items()},
    )
    return numbers, wiring
