"""Whether knowledge serves: the next step is planned once for each defect, before anybody stands at a press with it."""

from collections.abc import Iterator

from diagnose.knowledge.model import Defect, Knowledge
from diagnose.knowledge.shop import Rates
from diagnose.pace import Far, paced, unheard
from diagnose.problems import Problem
from diagnose.reasoning.beliefs import believe
from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.network import Network, network
from diagnose.reasoning.planning import Desk, advise


def cannot_be_planned(knowledge: Knowledge, rates: Rates, far: Far = unheard) -> Iterator[Problem]:
    """Every defect for which no step can be planned, where it is all that was seen and nothing is known of the job."""
    net = network(knowledge, {})
    desk = Desk(knowledge=knowledge, rates=rates)
    for defect in paced(knowledge.defects.values(), far):
        if problem := _planned(net, defect, desk):
            yield problem


def _planned(net: Network, defect: Defect, desk: Desk) -> Problem | None:
    """What came of planning, where that was no step. Whatever the fault is, the person gets its place."""
    evidence = Evidence(seen=(defect.id,))
    try:
        advise(net, believe(net, evidence), evidence, desk)
    except Exception as error:
        return Problem(
            place=defect.place,
            code="cannot-be-planned",
            wrong=f'where "{defect.id}" is seen, no step can be planned ({type(error).__name__}: {error})',
            expected="numbers that can be reckoned with",
            hint="look at the chances, minutes and prices of its causes, their checks and their fixes",
        )
    return None
