"""Causes by their titles, marked where what is believed of them rests on a rule that is on trial."""

from diagnose.dialogue.consultation import Consultation
from diagnose.knowledge.trial import marked, on_trial, rests_on_trial


def rests(consultation: Consultation, cause: str) -> bool:
    """Whether a rule on trial is among those that tie the cause to what was seen; where none does, whether there is
    nothing but rules on trial for it."""
    knowledge, job = consultation.knowledge, consultation.job
    tying = [
        rule
        for defect in consultation.evidence.seen
        for rule in knowledge.defects[defect].rules
        if rule.cause == cause and rule.condition.may_hold(job)
    ]
    return any(map(on_trial, tying)) if tying else rests_on_trial(knowledge, cause)


def titled(consultation: Consultation, cause: str) -> str:
    """The title of a cause, with ``(on trial)`` behind it where that is so."""
    return marked(consultation.knowledge.causes[cause].title, rests(consultation, cause))
