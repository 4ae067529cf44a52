"""What a worked case is answered with, before and after the knowledge changes."""

from collections.abc import Iterator
from dataclasses import dataclass

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Answered, DidNotSee, Move, Pressed, Saw, TriedFix
from diagnose.dialogue.session import Session
from diagnose.knowledge.model import Defect, Knowledge, WorkedCase
from diagnose.knowledge.shop import Shop
from diagnose.reasoning.evidence import SAME
from diagnose.reasoning.planning import Advice
from diagnose.reasoning.ranking import Suspect
from diagnose.reasoning.worked_cases import NEVER

Step = tuple[str, str]  # kind and id


@dataclass(frozen=True, slots=True)
class Answer:
    """``causes``: those that come up (10 % and more), the likeliest first, each with its chance; ``step``: the next
    one, its kind and id."""

    causes: tuple[tuple[str, float], ...]
    step: Step

    @property
    def order(self) -> tuple[str, ...]:
        return tuple(cause for cause, _ in self.causes)


@dataclass(frozen=True, slots=True)
class OtherAnswer:
    """A worked case that is answered otherwise."""

    defect: Defect
    case: WorkedCase
    before: Answer
    after: Answer


def session_of(case: WorkedCase) -> Session:
    """The case as a dialogue holds it."""
    moves: list[Move] = [Pressed(case.item, dict(case.job)), Saw(case.saw)]
    moves += [DidNotSee(case.not_seen)] if case.not_seen else []
    moves += [Answered(check, outcome) for check, outcome in case.answers.items()]
    moves += [TriedFix(fix, SAME) for fix in case.tried]
    return Session(tuple(moves))


def changes(before: Knowledge, after: Knowledge, shop: Shop) -> Iterator[OtherAnswer]:
    """The worked cases known before that are answered otherwise afterwards: other causes come up, or in another
    order, or another step is next."""
    for defect in before.defects.values():
        for case in defect.cases:
            was = Consultation(before, shop, session_of(case))
            now = Consultation(after, shop, session_of(case))
            if _touched(was, now) and (change := _change(defect, case, was, now)):
                yield change


def _change(defect: Defect, case: WorkedCase, was: Consultation, now: Consultation) -> OtherAnswer | None:
    old, new = answer(was), answer(now)
    return OtherAnswer(defect, case, old, new) if (old.order, old.step) != (new.order, new.step) else None


def answer(consultation: Consultation) -> Answer:
    """What a consultation says: the causes that come up and the next step."""
    causes = tuple((s.cause, s.behind) for s in consultation.suspects if s.behind >= NEVER)
    return Answer(causes, _step(consultation.advice))


def _step(advice: Advice) -> Step:
    return advice.kind, advice.id


def _touched(was: Consultation, now: Consultation) -> bool:
    """Whether the change can matter to a case at all: to what is believed, or to what can be asked and done about
    the causes that come up. Planning is dear, and most cases have nothing to do with a change."""
    if _beliefs(was.suspects) != _beliefs(now.suspects):
        return True
    up = {suspect.cause for suspect in now.suspects}
    return any(_steps(was.knowledge, cause) != _steps(now.knowledge, cause) for cause in up)


def _beliefs(suspects: list[Suspect]) -> list[tuple[str, float]]:
    return [(suspect.cause, round(suspect.behind, 12)) for suspect in suspects]


def _steps(knowledge: Knowledge, cause: str) -> list[object]:
    fixes = [
        (fix.id, fix.minutes, fix.waits.time, fix.cures[cause].value)
        for fix in knowledge.fixes.values()
        if cause in fix.cures
    ]
    checks = [
        (check.id, check.minutes, check.waits.time, outcome.id, outcome.shows[cause].value)
        for check in knowledge.checks.values()
        for outcome in check.outcomes
        if cause in outcome.shows
    ]
    return [fixes, checks]
