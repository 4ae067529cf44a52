"""The dialogue at the press: one step at a time, until the print is good or help is called for."""

from collections.abc import Callable

from diagnose.cli import cards
from diagnose.cli.opening import first_sentence
from diagnose.cli.prompts import LETTERS, Reply, ask
from diagnose.cli.screen import Screen
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.hearing import hear
from diagnose.dialogue.moves import Answered, CannotDo, CannotTell, Cured, HandedOver, Saw, TriedFix
from diagnose.dialogue.session import Session
from diagnose.dialogue.speech.evidence import seen
from diagnose.knowledge.model import Check, Fix
from diagnose.reasoning.evidence import BETTER, SAME
from diagnose.reasoning.words import Lexicon, nearest

Keep = Callable[[Session], None]
FIX_LETTERS = {**LETTERS, "u": "cannot do this"}
RESULTS = ("The fault is gone: good print", "Better, but not right yet", "No change", "Something else shows now")


class Left(Exception):
    """The person saved and left."""


def talk(screen: Screen, consultation: Consultation, lexicon: Lexicon, keep: Keep) -> Consultation:
    """Go on until the session is over; ``keep`` is called after every move. Raises Left on save-and-leave."""
    while consultation.session.over is None:
        cards.heading(screen, consultation)
        advice = consultation.advice
        if advice.kind == "check":
            after = _check(screen, consultation, consultation.knowledge.checks[advice.id])
        elif advice.kind == "fix":
            after = _fix(screen, consultation, consultation.knowledge.fixes[advice.id], lexicon)
        else:
            after = _call(screen, consultation)
        keep(after)
        consultation = consultation.then(after)
    _ending(screen, consultation)
    return consultation


def _check(screen: Screen, consultation: Consultation, check: Check) -> Session:
    cards.check_card(screen, consultation, check)
    while True:
        reply = ask(screen, numbers=len(check.outcomes), letters=tuple(LETTERS))
        outcome = _outcome(check, reply)
        if outcome:
            return consultation.session.make(Answered(check.id, outcome))
        if reply.letter == "u":
            return consultation.session.make(CannotTell(check.id))
        if reply.letter == "?":
            cards.check_help(screen, consultation, check)
        elif after := _common(screen, consultation, reply):
            return after


def _outcome(check: Check, reply: Reply) -> str:
    """The id of the outcome that a number or some words name, "" where none is."""
    if reply.number:
        return check.outcomes[reply.number - 1].id
    if not reply.words:
        return ""
    names = {name: o.id for o in check.outcomes for name in (o.id, o.looks, *o.said)}
    found = nearest(names, reply.words)
    return names[found] if found else ""


def _common(screen: Screen, consultation: Consultation, reply: Reply) -> Session | None:
    """What ``b``, ``w`` and ``s`` do at every step."""
    if reply.letter == "b":
        return _back(screen, consultation.session)
    if reply.letter == "w":
        cards.beliefs_card(screen, consultation)
    elif reply.letter == "s":
        raise Left
    else:
        screen.line("I do not know which of these that is. Type its number.")
    return None


def _back(screen: Screen, session: Session) -> Session | None:
    """The session one answer back; what was pressed and seen at the start stays."""
    before = session.back()
    if not before.evidence.seen:
        screen.line("This is the first question. To start over, leave with s and begin anew.")
        return None
    return before


def _fix(screen: Screen, consultation: Consultation, fix: Fix, lexicon: Lexicon) -> Session:
    cards.fix_card(screen, consultation, fix)
    while True:
        screen.line("How is the test piece?", "title")
        for number, result in enumerate(RESULTS, 1):
            screen.hang(f"{number}", result, style="key", indent=2)
        reply = ask(screen, numbers=len(RESULTS), letters=tuple(FIX_LETTERS), names=FIX_LETTERS)
        if reply.number:
            return _tried(screen, consultation, fix, reply.number, lexicon)
        if reply.letter == "u":
            return consultation.session.make(CannotDo(fix.id))
        if reply.letter == "?":
            cards.fix_help(screen, consultation, fix)
        elif after := _common(screen, consultation, reply):
            return after


def _tried(screen: Screen, consultation: Consultation, fix: Fix, result: int, lexicon: Lexicon) -> Session:
    session = consultation.session
    if result == 1:
        return session.make(Cured(fix.id))
    if result == 3:
        return session.make(TriedFix(fix.id, SAME))
    gone = _gone(screen, consultation) if result == 2 else ()
    session = session.make(TriedFix(fix.id, BETTER if result == 2 else "", gone))
    return _something_else(screen, consultation, session, lexicon) if result == 4 else session


def _gone(screen: Screen, consultation: Consultation) -> tuple[str, ...]:
    """Which of several defects the fix made go away."""
    left = consultation.evidence.left
    if len(left) < 2:
        return ()
    screen.line("Is one of these gone altogether?", "title")
    for number, defect in enumerate(left, 1):
        screen.hang(f"{number}", consultation.knowledge.defects[defect].title, style="key", indent=2)
    reply = ask(screen, numbers=len(left), letters=("n",), names={"n": "none of them"})
    return (left[reply.number - 1],) if reply.number else ()


def _something_else(screen: Screen, consultation: Consultation, session: Session, lexicon: Lexicon) -> Session:
    screen.line("What shows now?", "title")
    reply = ask(screen, numbers=0, letters=("n",), names={"n": "nothing new after all"})
    if reply.letter:
        return session
    defects = hear(consultation.knowledge, lexicon, reply.words).defects
    for defect in defects:
        known = consultation.knowledge.defects[defect]
        screen.hang("+", f"{known.title}: {first_sentence(known.looks)}", style="good")
    if not defects:
        screen.line("I did not recognise that; I go on with what I have.")
        return session
    return session.make(Saw(defects))


def _call(screen: Screen, consultation: Consultation) -> Session:
    cards.call_card(screen, consultation)
    while True:
        reply = ask(screen, numbers=0, letters=("d", "b", "w", "s"), names={**LETTERS, "d": "done, I call"})
        if reply.letter == "d":
            return consultation.session.make(HandedOver())
        if after := _common(screen, consultation, reply):
            return after


def _ending(screen: Screen, consultation: Consultation) -> None:
    ended = consultation.session.over
    screen.rule()
    if isinstance(ended, Cured):
        what = seen(consultation.session.evidence.seen, consultation.knowledge)
        screen.line(f"Done. {what}: put right.", "good")
        cards.summary_card(screen, consultation)
    else:
        screen.line("Handed over. The summary above says all that is known.", "good")
