"""A case looked back on: what was behind it, by the rules as they are today."""

from dataclasses import replace

from diagnose.casebook.case import Case
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import FoundLately, Pressed
from diagnose.dialogue.saving import unknown_ids
from diagnose.dialogue.session import Session
from diagnose.reasoning.blame import Blame, blame


def looked_back(start: Consultation, case: Case) -> Blame | None:
    """The blame for what a case showed; None where it speaks of what is no longer known, or shows nothing. ``start``
    holds the knowledge and the shop; the networks that it has built are used again."""
    if not case.session.evidence.seen or unknown_ids(case.session, start.knowledge):
        return None
    on_press = start.then(_on_its_press(case))
    known = on_press.evidence  # with what its figures say, and less the answers that they have settled
    return blame(on_press.net, replace(case.evidence, answers=known.answers, weighed=known.weighed))


def _on_its_press(case: Case) -> Session:
    """The session with its press, which a case written down by hand may name beside its moves only. What earlier cases
    said of it stays out: a case is no evidence for itself by way of the next one."""
    session = Session(tuple(move for move in case.session.moves if not isinstance(move, FoundLately)))
    if not case.press or session.press:
        return session
    return Session((Pressed(session.item, {}, case.press), *session.moves))
