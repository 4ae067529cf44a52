"""Worked cases as tests: after what was seen and answered, the right cause comes first, the wrong ones do not."""

from collections.abc import Iterator

from diagnose.knowledge.conditions import Job
from diagnose.knowledge.learned import unlearned
from diagnose.knowledge.model import Defect, Knowledge, WorkedCase
from diagnose.pace import Far, paced, unheard
from diagnose.problems import Problem
from diagnose.reasoning.beliefs import believe
from diagnose.reasoning.evidence import SAME, Evidence, Tried
from diagnose.reasoning.network import Network, network, read
from diagnose.reasoning.ranking import suspects

NEVER = 0.10  # a cause that must not come up stays under this chance, and never leads


def job_of(knowledge: Knowledge, case: WorkedCase) -> Job:
    """What is usual for the case's item, with the facts of the case laid over it."""
    item = knowledge.items.get(case.item)
    return {**(item.job if item else {}), **case.job}


def network_of(knowledge: Knowledge, case: WorkedCase) -> Network:
    """The network of the case's job, with what its answers tell of that."""
    job = job_of(knowledge, case)
    return network(knowledge, job, (), read(knowledge, job, case.answers))


def evidence_of(case: WorkedCase) -> Evidence:
    """What the case knows: fixes tried did not help, and came after the answers."""
    return Evidence(
        seen=case.saw,
        not_seen=case.not_seen,
        answers={check: (outcome, 0) for check, outcome in case.answers.items()},
        tried=tuple(Tried(fix, SAME) for fix in case.tried),
    )


def broken(knowledge: Knowledge, case: WorkedCase) -> Problem | None:
    """What no longer holds of a worked case, or None where it does."""
    net = network_of(knowledge, case)
    ranked = suspects(net, believe(net, evidence_of(case)))
    places = {suspect.cause: place for place, suspect in enumerate(ranked, 1)}
    shown = ", ".join(f"{s.cause} {s.behind:.0%}" for s in ranked[:4]) or "no cause at all"
    late = [cause for cause in case.first if places.get(cause, 99) > len(case.first)]
    up = [s.cause for s in ranked if s.cause in case.never and (s.behind >= NEVER or places[s.cause] == 1)]
    if not late and not up:
        return None
    wanted = f"{' and '.join(case.first)} first" + (f", and no {' or '.join(case.never)}" if case.never else "")
    return Problem(
        place=case.place,
        code="worked-case",
        wrong=f"the worked case no longer holds: now {shown}",
        expected=wanted,
        hint="mend the rules or checks it leans on, or the case",
    )


def broken_cases(knowledge: Knowledge, far: Far = unheard) -> Iterator[tuple[Defect, WorkedCase, Problem]]:
    """Every worked case that no longer holds, with its defect and what is wrong. They are examples of the rules as they
    are written: what a shop's cases have taught about its numbers is left aside."""
    knowledge = unlearned(knowledge)
    cases = [(defect, case) for defect in knowledge.defects.values() for case in defect.cases]
    for defect, case in paced(cases, far):
        if problem := broken(knowledge, case):
            yield defect, case, problem
