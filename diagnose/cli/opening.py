"""The opening of a dialogue: what was pressed, and what is wrong with it, in the person's own words."""

from collections.abc import Iterable

from diagnose.cli.prompts import Reply, ask, ask_words
from diagnose.cli.screen import Screen
from diagnose.dialogue.hearing import Heard, hear
from diagnose.dialogue.moves import Answered, DidNotSee, Pressed, Saw
from diagnose.dialogue.session import Session
from diagnose.knowledge.model import Knowledge
from diagnose.reasoning.words import Lexicon, find_item

ITEM_AGAIN = "What was pressed? A few words; Enter if you cannot say."


def open_dialogue(
    screen: Screen, knowledge: Knowledge, lexicon: Lexicon, session: Session, item_words: str | None = None
) -> Session:
    """Ask for what the session does not say yet: the item (it may stay unnamed) and at least one defect.
    ``item_words``: what was already answered to the question for the item."""
    if not any(isinstance(move, Pressed) for move in session.moves):
        session = session.make(_ask_item(screen, knowledge, lexicon, item_words))
    while not session.evidence.seen:
        session = _ask_defects(screen, knowledge, lexicon, session)
    return session


def _ask_item(screen: Screen, knowledge: Knowledge, lexicon: Lexicon, words: str | None) -> Pressed:
    while True:
        said = ask_words(screen, ITEM_AGAIN).words if words is None else words
        if not said:
            return Pressed("")
        found = find_item(lexicon, said)
        if found is not None:
            screen.line(f"Item: {knowledge.items[found.id].title if found.id else 'not a known kind'}", "good")
            return Pressed(found.id, dict(found.facts))
        screen.line("I do not know that item. Try its stuff and shape: cotton bag, glass coaster, fleece.")
        words = None


def _ask_defects(screen: Screen, knowledge: Knowledge, lexicon: Lexicon, session: Session) -> Session:
    reply = ask_words(
        screen, "What do you see? Your own words, several things at once if you like; l for the list.", ("l",)
    )
    if reply.letter == "l":
        return _pick_from_list(screen, knowledge, session)
    heard = hear(knowledge, lexicon, reply.words)
    return _confirm(screen, knowledge, session, heard)


def _confirm(screen: Screen, knowledge: Knowledge, session: Session, heard: Heard) -> Session:
    """Show what was understood; the person takes it, or strikes out what is wrong."""
    taken = list(heard.defects)
    if not taken:
        screen.line("I did not recognise that. Say it another way, or type l for the list.")
        return session
    while taken:
        screen.line("I take it that you see:")
        _numbered(screen, knowledge, taken)
        if heard.not_understood:
            screen.line(f"Not understood: {', '.join(heard.not_understood)}", "dim")
        names = {"y": "right, go on", "n": "say it again; a number strikes one out"}
        reply = ask(screen, numbers=len(taken), letters=("y", "n"), names=names)
        if reply.letter == "n":
            return session
        if reply.number:
            taken.pop(reply.number - 1)
            continue
        return _taken(session, heard, taken)
    return session


def _taken(session: Session, heard: Heard, defects: Iterable[str]) -> Session:
    session = session.make(Saw(tuple(defects)))
    if heard.not_seen:
        session = session.make(DidNotSee(heard.not_seen))
    for check, outcome in heard.answers:
        session = session.make(Answered(check, outcome))
    return session


def _pick_from_list(screen: Screen, knowledge: Knowledge, session: Session) -> Session:
    ids = sorted(knowledge.defects, key=lambda d: knowledge.defects[d].title.lower())
    _numbered(screen, knowledge, ids)
    reply: Reply = ask(screen, numbers=len(ids), letters=("b",), names={"b": "back"})
    return session.make(Saw((ids[reply.number - 1],))) if reply.number else session


def _numbered(screen: Screen, knowledge: Knowledge, ids: Iterable[str]) -> None:
    for number, defect_id in enumerate(ids, 1):
        defect = knowledge.defects[defect_id]
        screen.hang(f"{number:>2}", f"{defect.title}: {first_sentence(defect.looks)}", style="key")


def first_sentence(text: str) -> str:
    """The first sentence of a text."""
    head, stop, _ = text.partition(". ")
    return head + "." if stop else text
