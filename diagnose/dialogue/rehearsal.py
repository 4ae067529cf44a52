"""A dialogue with a made-up person who knows what is wrong and answers truly: for the demo and for tests.

Nothing is scripted but the truth: which causes are there. Each question gets the answer those causes most surely
show, each fix cures what it most likely cures, and the dialogue itself decides what is asked.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Answered, Cured, HandedOver, Move, TriedFix
from diagnose.knowledge.conditions import Usual
from diagnose.reasoning.evidence import BETTER, SAME
from diagnose.reasoning.network import Network

MOST_STEPS = 60


@dataclass(frozen=True, slots=True)
class RehearsedTurn:
    """One step of the rehearsal: the consultation that advised it, and what the person then said."""

    consultation: Consultation
    move: Move


def rehearse(start: Consultation, truth: frozenset[str]) -> Iterator[RehearsedTurn]:
    """The whole dialogue from a consultation in which something was seen, until it is over."""
    consultation, left = start, set(truth)
    for _ in range(MOST_STEPS):
        move = _reply(consultation, left)
        yield RehearsedTurn(consultation, move)
        consultation = consultation.then(consultation.session.make(move))
        if consultation.session.over:
            return


def _reply(consultation: Consultation, left: set[str]) -> Move:
    advice, net = consultation.advice, consultation.net
    if advice.kind == "check":
        return Answered(advice.id, usual_outcome(consultation) or true_outcome(net, advice.id, left))
    if advice.kind == "call":
        return HandedOver()
    cured = {cause for cause in left if net.cures[advice.id].get(net.index[cause], 0.0) >= 0.5}
    left -= cured
    gone = tuple(d for d in consultation.evidence.left if not _brought(net, d, left))
    if len(gone) == len(consultation.evidence.left):
        return Cured(advice.id)
    return TriedFix(advice.id, BETTER if cured else SAME, gone)


def usual_outcome(consultation: Consultation) -> str:
    """What is usual for the item, where the check that is advised asks for a fact of the job; else ""."""
    check = consultation.knowledge.checks[consultation.advice.id]
    if not check.asks_for:
        return ""
    job = {fact: value.value if isinstance(value, Usual) else value for fact, value in consultation.job.items()}
    fitting = [each for facts in (job, consultation.job) for each in check.outcomes if each.facts.may_hold(facts)]
    return fitting[0].id


def true_outcome(net: Network, check: str, causes: set[str]) -> str:
    """The outcome that the causes most surely show: the highest that one of them shows more often than not."""
    node = net.checks[check]
    level = 0
    for cause in causes:
        link = node.links.get(net.index[cause], ())
        shown = [at for at, chance in enumerate(link, 1) if chance >= 0.5]
        level = max([level, *shown])
    return node.outcomes[level]


def _brought(net: Network, defect: str, causes: set[str]) -> bool:
    links = net.defects[defect].links
    return any(net.index[cause] in links for cause in causes)
