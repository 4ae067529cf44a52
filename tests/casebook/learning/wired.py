"""Random networks as the learner sees them."""

from collections.abc import Iterable

from diagnose.casebook.case import Case
from diagnose.casebook.learning.jobs import FindingLinks, Jobs, Wiring, known
from diagnose.casebook.learning.material import Gathering, Tabled
from diagnose.casebook.learning.numbers import Cure, Link, Parameters, TurnUp
from diagnose.casebook.learning.sheets import LinkLists, Sheet, SheetEntry, width
from diagnose.casebook.learning.tables import Nets, SheetTable, table
from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.network import FindingNode, Network


def wired(net: Network) -> tuple[Parameters, Wiring]:
    """Every number of the network as a parameter of its own."""
    turns = {TurnUp(cause): prior for cause, prior in zip(net.causes, net.priors, strict=True)}
    nodes = {**net.defects, **net.checks}
    links = {Link(n.id, net.causes[i]): link for n in nodes.values() for i, link in n.links.items()}
    cures = {Cure(f, net.causes[i]): chance for f, cured in net.cures.items() for i, chance in cured.items()}
    numbers = Parameters.of(turns, links, cures)

    def finding(node: FindingNode) -> FindingLinks:
        return FindingLinks.of(node, [(i, numbers.at[Link(node.id, net.causes[i])]) for i in node.links])

    wiring = Wiring(
        net.causes,
        tuple(range(len(net.causes))),
        {d: finding(node) for d, node in net.defects.items()},
        {k: finding(node) for k, node in net.checks.items()},
        {f: tuple((i, numbers.at[Cure(f, net.causes[i])]) for i in cured) for f, cured in net.cures.items()},
    )
    return numbers, wiring


def tables(cases: Iterable[tuple[Evidence, float]], parameters: Parameters, wiring: Wiring) -> list[SheetTable]:
    """The cases, each with how many it stands for, entered on sheets."""
    links = LinkLists()
    sheets: dict[int, Sheet] = {}
    for evidence, count in cases:
        told = known(evidence, wiring)
        sheet = sheets.setdefault(width(told, wiring), Sheet(width(told, wiring)))
        SheetEntry(wiring, 0, told, count).put(sheet, links)
    return [table(sheet, links, parameters.shipped.links.shape) for sheet in sheets.values()]


def nets(wiring: Wiring) -> Nets:
    return Nets.of([wiring])


def gather(patterns: Iterable[tuple[Case, int]], jobs: Jobs) -> Tabled:
    """Patterns, each with how many cases it stands for, as learning material."""
    gathering = Gathering(jobs)
    for case, count in patterns:
        gathering.add(case, float(count))
    return gathering.done()
