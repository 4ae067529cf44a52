"""The case so far as plain lines to paste into a message to a supplier or a technician."""

from collections.abc import Iterator

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Cured
from diagnose.dialogue.speech.chances import in_words
from diagnose.dialogue.speech.conditions import value_words
from diagnose.dialogue.speech.evidence import sentence
from diagnose.dialogue.speech.trial import titled
from diagnose.knowledge.shop import PRESS_NAME
from diagnose.knowledge.trial import titled as marked_step
from diagnose.reasoning.reasons import findings


def summary(consultation: Consultation) -> list[str]:
    """Item, facts, what was seen, answered and tried, and what is believed; one line each, no styling."""
    return [line for part in (_job, _findings, _beliefs, _ending) for line in part(consultation)]


def _job(consultation: Consultation) -> Iterator[str]:
    yield f"Item: {consultation.item.title if consultation.item else 'not named'}"
    if press := consultation.press:
        known = "; ".join(each.told for each in press.known)
        yield f"Press: {press.title}{f' ({known})' if known else ''}"
    told = sorted(set(consultation.job) - {PRESS_NAME})
    if told:
        facts = [f"{fact_words(consultation, fact)}" for fact in told]
        yield f"Known of it: {'; '.join(facts)}"


def fact_words(consultation: Consultation, fact_id: str) -> str:
    """A fact of the job with its value: ``share of polyester 65 %``."""
    fact = consultation.knowledge.facts.get(fact_id)
    title = fact.title if fact else fact_id
    return f"{title}: {value_words(consultation.job[fact_id], fact.unit if fact else '')}"


def _findings(consultation: Consultation) -> Iterator[str]:
    for finding, _ in findings(consultation.evidence):
        yield f"- {sentence(finding, consultation)}"


def _beliefs(consultation: Consultation) -> Iterator[str]:
    ended = consultation.session.over
    if isinstance(ended, Cured) or not consultation.suspects:
        return
    yield "What may be behind it:"
    for suspect in consultation.suspects[:5]:
        yield f"- {titled(consultation, suspect.cause)}: {in_words(suspect.behind, consultation.knowledge.scale)}"


def _ending(consultation: Consultation) -> Iterator[str]:
    ended = consultation.session.over
    if isinstance(ended, Cured):
        fix = consultation.knowledge.fixes.get(ended.fix)
        yield f"Cured by: {marked_step(fix)}" if fix else "Cured."
