"""What may be seen on an item, in the order in which the eye meets it."""

from collections.abc import Mapping, Sequence

from diagnose.knowledge.conditions import FactValue
from diagnose.knowledge.model import MEETS, Defect, Knowledge
from diagnose.reasoning.network import network


def possible(knowledge: Knowledge, job: Mapping[str, FactValue]) -> Mapping[str, Sequence[Defect]]:
    """The defects by what meets them (see ``MEETS``), by their titles; without those that no cause can bring on in such
    a job."""
    net = network(knowledge, dict(job))
    able = {defect for defect, node in net.defects.items() if any(net.priors[cause] > 0.0 for cause in node.links)}
    ordered = sorted((knowledge.defects[defect] for defect in able), key=lambda defect: defect.title.lower())
    groups = {meets: [defect for defect in ordered if defect.meets == meets] for meets in MEETS}
    return {meets: defects for meets, defects in groups.items() if defects}
