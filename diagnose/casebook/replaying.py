"""A past case gone through once more: how long the dialogue would have taken with other rules."""

from collections.abc import Hashable

from diagnose.casebook.case import Case
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import (
    Answered,
    CannotDo,
    CannotTell,
    DidNotSee,
    Measured,
    Move,
    Named,
    Pressed,
    Saw,
    TriedFix,
)
from diagnose.dialogue.session import Session
from diagnose.knowledge.conditions import FactValue
from diagnose.knowledge.shop import PRESS_NAME
from diagnose.reasoning.evidence import Tried

MOST_STEPS = 60


def minutes_to_cure(start: Consultation, case: Case) -> float | None:
    """Minutes of the steps that the dialogue proposes up to and with the fix that cured the case; None where it calls
    for help first, never comes to that fix, or does not know it.

    The replay starts from the job and all that was seen and not seen. A check is answered as the case recorded it, in
    words or by a figure, else with "cannot tell"; a fix that the case tried turns out as recorded; any other fix is
    set aside, since nobody knows what it would have done. A check takes its minutes and the minutes of asking, a fix
    its minutes and those of the test press, whatever they took on the day, so that two sets of rules are measured
    alike. ``start`` brings the knowledge and the prices; its networks are kept for the next case.
    """
    session = _opening(start, case)
    if session is None or case.cured_by not in start.knowledge.fixes:
        return None
    consultation, left = start.then(session), {tried.fix: tried for tried in case.session.evidence.tried}
    spent = 0.0
    for _ in range(MOST_STEPS):
        advice = consultation.advice
        if advice.kind == "call":
            return None
        spent += _minutes(consultation)
        if advice.id == case.cured_by:
            return spent
        consultation = consultation.then(consultation.session.make(_reply(consultation, case, left)))
        if not consultation.evidence.left:
            return None
    return None


def alike(case: Case) -> Hashable:
    """The same for all cases that any replay goes through in the same way."""
    session, evidence = case.session, case.session.evidence
    answers = tuple(sorted((check, outcome) for check, (outcome, _) in evidence.answers.items()))
    facts = tuple(sorted((fact, type(value).__name__, value) for fact, value in _facts(case).items()))
    figures = tuple(
        (move.check, tuple(sorted(move.figures.items()))) for move in session.moves if isinstance(move, Measured)
    )
    told = evidence.seen, evidence.not_seen, evidence.named
    return session.item, facts, figures, told, answers, evidence.tried, case.cured_by


def _opening(start: Consultation, case: Case) -> Session | None:
    """The job and the sights, as far as the knowledge has words for them; None where it has none for any sight."""
    known, evidence = start.knowledge.defects, case.session.evidence
    seen = tuple(defect for defect in evidence.seen if defect in known)
    not_seen = tuple(defect for defect in evidence.not_seen if defect in known)
    moves: list[Move] = [Pressed(case.session.item, _facts(case)), Saw(seen), DidNotSee(not_seen)]
    moves += [move for move in case.session.moves if isinstance(move, Measured) and not move.check]
    moves += [Named(cause) for cause, _ in evidence.named if cause in start.knowledge.causes]
    return Session(tuple(moves)) if seen else None


def _facts(case: Case) -> dict[str, FactValue]:
    """What is known of the job, the press it was pressed on included."""
    press = case.press or case.session.press
    return {**case.session.facts, **({PRESS_NAME: press} if press else {})}


def _minutes(consultation: Consultation) -> float:
    knowledge, rates, advice = consultation.knowledge, consultation.shop.rates, consultation.advice
    if advice.kind == "check":
        return knowledge.checks[advice.id].minutes + rates.asking
    return knowledge.fixes[advice.id].minutes + rates.test_minutes(consultation.item)


def _reply(consultation: Consultation, case: Case, left: dict[str, Tried]) -> Move:
    """What the case has to say to the step advised. A fix that it tried is taken out of ``left``."""
    advice, net = consultation.advice, consultation.net
    if advice.kind == "check":
        figures = [move for move in case.session.moves if isinstance(move, Measured) and move.check == advice.id]
        if figures:
            return figures[-1]
        outcome, _ = case.session.evidence.answers.get(advice.id, ("", 0))
        again = advice.id in consultation.doubted
        return (
            Answered(advice.id, outcome, again) if outcome in net.checks[advice.id].outcomes else CannotTell(advice.id)
        )
    tried = left.pop(advice.id, None)
    if tried is None:
        return CannotDo(advice.id)
    return TriedFix(tried.fix, tried.change, tuple(defect for defect in tried.gone if defect in net.defects))
