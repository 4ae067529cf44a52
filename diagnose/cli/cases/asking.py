"""From flags or prompts to the session of a case that was solved by hand."""

from collections.abc import Mapping, Sequence
from typing import Any

import click

from diagnose.casebook.case import MOST, press_name
from diagnose.cli.asking import alarms
from diagnose.cli.asking.flags import Flags, known_id, take
from diagnose.cli.asking.opening import Opening
from diagnose.cli.asking.prompts import ask, ask_words, several
from diagnose.cli.shop.shelf import Shelf
from diagnose.cli.terminal.screen import Screen
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Cured, HandedOver, Pressed, TriedFix
from diagnose.dialogue.saving import clean
from diagnose.dialogue.session import Session
from diagnose.knowledge.model import Fix, Knowledge
from diagnose.problems import PressloreError
from diagnose.reasoning.evidence import SAME
from diagnose.reasoning.words import Lexicon
from diagnose.speech.saying import say
from diagnose.speech.titles import titled

ENDS = "say how it ended, once: --cured-by FIX, --cured where nobody knows by what, or --handed-over"
FEW = 9  # fixes offered by number
OTHERWISE = {"n": "nobody knows", "h": "help was called"}
NONE = {"n": "nothing else"}


def said(stock: Shelf, lexicon: Lexicon, told: Mapping[str, Any]) -> Session:
    """The session that the flags tell. Raises click.UsageError and PressloreError for what is not known: a case is
    kept only where all of it was understood."""
    names = ("item", "facts", "saw", "not_seen", "answers", "measured", "tried")
    press = told["press"].strip() if stock.shop.presses else ""  # a shop that names none may call it what it likes
    alarms.stop_for(stock.knowledge, (told["item"], *told["saw"]))
    flags = Flags(press=press, **{name: told[name] for name in names})
    taken = take(flags, stock.knowledge, lexicon, told.get("session", Session()), stock.shop.presses)
    if taken.not_understood:
        raise PressloreError(f"not understood, so that nothing was kept: {'; '.join(taken.not_understood)}")
    if not taken.session.evidence.seen:
        raise click.UsageError("say what was wrong: --saw, in your own words")
    return taken.session.make(_end(stock.knowledge, told))


def _end(knowledge: Knowledge, told: Mapping[str, Any]) -> Cured | HandedOver:
    if sum(map(bool, (told["cured_by"], told["cured"], told["handed_over"]))) != 1:
        raise click.UsageError(ENDS)
    if told["handed_over"]:
        return HandedOver()
    return Cured(known_id(told["cured_by"], knowledge.fixes, "fix") if told["cured_by"] else "")


def asked(screen: Screen, stock: Shelf, lexicon: Lexicon, told: Mapping[str, Any]) -> dict[str, Any]:
    """What the flags tell, and the rest as the person answers. Raises click.Abort where they leave."""
    try:
        return _asked(screen, stock, lexicon, dict(told))
    except EOFError:
        raise click.Abort from None


def _asked(screen: Screen, stock: Shelf, lexicon: Lexicon, told: dict[str, Any]) -> dict[str, Any]:
    knowledge = stock.knowledge
    session = Opening(screen, knowledge, lexicon, stock.shop.presses).go(_begun(stock, told))
    likely = _likely(stock, session)
    ended = any((told["cured_by"], told["cured"], told["handed_over"]))
    if not told["tried"]:
        screen.line(say("what-was-tried-in-vain"), "title")
        tried, _ = _fixes(screen, knowledge, likely, NONE, many=True)
        session = Session((*session.moves, *(TriedFix(fix.id, SAME) for fix in tried)))
    if not ended:
        _ask_end(screen, knowledge, likely, told)
    for name, question in (
        ("minutes", say("how-many-minutes-did-it-take")),
        ("spoilt", say("how-many-pieces-were-spoilt")),
    ):
        if told[name] is None:
            told[name] = _number(screen, question, whole=name == "spoilt")
    if not told["press"] and not stock.shop.presses:
        told["press"] = _press(screen)
    return {**told, "session": session}


def _begun(stock: Shelf, told: Mapping[str, Any]) -> Session:
    """A session in which the press is named already where a flag names it."""
    press = told["press"].strip() if stock.shop.presses else ""
    return Session((Pressed("", {}, press),)) if press else Session()


def _ask_end(screen: Screen, knowledge: Knowledge, likely: Sequence[Fix], told: dict[str, Any]) -> None:
    screen.line(say("what-cured-it"), "title")
    found, letter = _fixes(screen, knowledge, likely, OTHERWISE, many=False)
    told["handed_over"], told["cured"] = letter == "h", letter == "n"
    told["cured_by"] = found[0].id if found else ""


def _likely(stock: Shelf, session: Session) -> list[Fix]:
    """The fixes that go with what was seen, likeliest first."""
    knowledge = stock.knowledge
    consultation = Consultation(knowledge, stock.shop, session)
    chances = {suspect.cause: suspect.behind for suspect in consultation.suspects}
    worth = {
        fix.id: sum(chances.get(cause, 0.0) * chance.value for cause, chance in fix.cures.items())
        for fix in knowledge.fixes.values()
        if fix.id in consultation.net.cures
    }
    best = sorted(worth, key=lambda fix: (-worth[fix], fix))
    return [knowledge.fixes[fix] for fix in best[:FEW] if worth[fix] > 0]


def _fixes(
    screen: Screen, knowledge: Knowledge, offered: Sequence[Fix], letters: Mapping[str, str], *, many: bool
) -> tuple[list[Fix], str]:
    """The fixes that the person names, by number, id or words of the title; or the letter typed instead."""
    more = "several numbers count as well" if many else "words of another fix count as well"
    while True:
        for number, fix in enumerate(offered, 1):
            screen.hang(f"{number:>2}", titled(fix), style="key")
        reply = ask(screen, numbers=len(offered), letters=tuple(letters), names=letters, more=more)
        if reply.letter:
            return [], reply.letter
        if numbers := several(reply, len(offered)):
            return [offered[number - 1] for number in numbers][: None if many else 1], ""
        found = _named(knowledge, reply.words)
        if len(found) == 1:
            return found, ""
        screen.line(say("which-of-these") if found else say("i-know-no-fix"))
        offered = found or offered


def _named(knowledge: Knowledge, words: str) -> list[Fix]:
    """The fixes with this id, or with all these words in their titles."""
    if words in knowledge.fixes:
        return [knowledge.fixes[words]]
    wanted = words.lower().split()
    return [fix for fix in knowledge.fixes.values() if all(word in fix.title.lower() for word in wanted)][:FEW]


def _press(screen: Screen) -> str:
    """What the person calls the press, "" where they just press Enter."""
    while True:
        typed = press_name(ask_words(screen, say("which-press-enter-if"), {}).words)
        try:
            return clean(typed)
        except ValueError as wrong:
            screen.line(say("type-it-again", wrong=wrong))


def _number(screen: Screen, question: str, *, whole: bool) -> float | int | None:
    """A number, None where the person just presses Enter."""
    while True:
        typed = ask_words(screen, say("enter-if-you-cannot-say", question=question), {}).words.replace(",", ".")
        if not typed:
            return None
        try:
            number = int(typed) if whole else float(typed)
        except ValueError:
            number = -1
        if 0 <= number <= MOST:
            return number
        screen.line(say("type-a-number"))
