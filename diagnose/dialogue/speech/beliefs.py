"""What is believed so far and why, and what would change it, as plain sentences."""

from collections.abc import Iterator
from dataclasses import dataclass

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.speech.chances import in_words, percent, side
from diagnose.dialogue.speech.evidence import sentence
from diagnose.dialogue.speech.trial import titled
from diagnose.knowledge.trial import titled as marked_step
from diagnose.reasoning.ranking import Suspect

REASONS_EACH = 4
FAINTEST = 0.5  # decibans: a reason that moves the odds by less than an eighth is left out beside a weightier one


@dataclass(frozen=True, slots=True)
class ToldCause:
    """A cause that comes up, in words: its title (marked where it is on trial), how likely, and each finding with
    what it does."""

    title: str
    chance: str
    reasons: tuple[str, ...]
    origin: str


def told(consultation: Consultation, most: int) -> list[ToldCause]:
    """The likeliest causes that come up, at most ``most``, with their reasons."""
    return [_told(consultation, suspect) for suspect in consultation.suspects[:most]]


def _told(consultation: Consultation, suspect: Suspect) -> ToldCause:
    knowledge = consultation.knowledge
    heaviest = consultation.reasons[suspect.index][:REASONS_EACH]
    lines = [
        f"{sentence(reason.finding, consultation, suspect.cause)} ({side(reason.weight)})"
        for place, reason in enumerate(heaviest)
        if not place or abs(reason.weight) >= FAINTEST
    ]
    cause = knowledge.causes[suspect.cause]
    return ToldCause(
        titled(consultation, cause.id), in_words(suspect.behind, knowledge.scale), tuple(lines), cause.origin
    )


def what_would_change(consultation: Consultation, most: int = 3) -> Iterator[str]:
    """Answers that would put another cause first."""
    for turn in consultation.turns[:most]:
        check = consultation.knowledge.checks[turn.check]
        cause = titled(consultation, consultation.net.causes[turn.leads])
        looks = check.outcome(turn.outcome).looks
        yield f"{marked_step(check)}: “{looks}” would put first: {cause} ({percent(turn.probability)})"


def caveat(consultation: Consultation) -> str:
    """A warning where the numbers are bounded and not exact, else ""."""
    if consultation.beliefs.exact:
        return ""
    return "So much was seen at once that these chances are estimates within bounds, not exact."
