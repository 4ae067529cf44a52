"""The opening of a dialogue: what was pressed, and what is wrong with it, in the person's own words."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from diagnose.cli.asking.prompts import ITEM_LETTERS, ITEM_QUESTION, Reply, ask, ask_words, several
from diagnose.cli.terminal.screen import Screen
from diagnose.dialogue.hearing import Heard, hear
from diagnose.dialogue.moves import Answered, DidNotSee, Move, Pressed, Saw
from diagnose.dialogue.session import Session
from diagnose.knowledge.model import Defect, Entry, Knowledge
from diagnose.knowledge.shop import Press
from diagnose.reasoning.words import THE_REST, Lexicon, find_item, is_cut, nearest
from diagnose.speech.saying import say
from diagnose.speech.titles import not_ours, refusal, titled

SIGHT_LETTERS = {"l": "list", "b": "back to the item"}
PRESS_LETTERS = {"u": "cannot say"}
RIGHT = {"y": "right, go on", "n": "say it again"}


@dataclass(frozen=True, slots=True)
class Opening:
    """The opening questions on a screen, asked until the session says what was pressed (it may stay unnamed) and
    at least one defect."""

    screen: Screen
    knowledge: Knowledge
    lexicon: Lexicon
    presses: Mapping[str, Press] = field(default_factory=dict)

    def go(self, session: Session, first: Reply | None = None) -> Session:
        """Ask for what the session does not say yet. ``first``: the question for the item was already answered."""
        if not any(isinstance(move, Pressed) and move != Pressed("", {}, session.press) for move in session.moves):
            session = session.make(self._ask_item(first))
        if len(self.presses) > 1 and not session.press and _just_opened(session):
            session = session.make(Pressed(session.item, {}, self._ask_press()))
        while not session.evidence.seen:
            session = self._ask_defects(session)
        return session

    def _ask_item(self, first: Reply | None = None) -> Pressed:
        while True:
            reply = first or ask_words(self.screen, ITEM_QUESTION, ITEM_LETTERS)
            first = None
            if reply.letter:
                return self._item_from_list()
            if not reply.words:
                return Pressed("")
            if is_cut(reply.words):
                self.screen.line(say("not-understood", words=THE_REST), "dim")
            found = find_item(self.lexicon, reply.words)
            if found and not found.refused:
                return self._item(Pressed(found.id, dict(found.facts)))
            self.screen.line(refusal(self.knowledge.refused[found.refused]) if found else say("item-not-known"))

    def _ask_press(self) -> str:
        """The id of the press, "" where the person cannot say."""
        ids = list(self.presses)
        self.screen.line(say("on-which-press"), "title")
        self._titles(list(self.presses.values()))
        while True:
            reply = ask(self.screen, numbers=len(ids), letters=tuple(PRESS_LETTERS), names=PRESS_LETTERS)
            if reply.number:
                return ids[reply.number - 1]
            if reply.letter:
                return ""
            if named := _press_called(self.presses, reply.words.lower()):
                return named
            self.screen.line(say("i-do-not-know-that-press"))

    def _item(self, pressed: Pressed) -> Pressed:
        """The item, shown as it was understood."""
        known = self.knowledge.items.get(pressed.item)
        self.screen.line(f"Item: {known.title if known else 'not a known kind'}", "good")
        return pressed

    def _item_from_list(self) -> Pressed:
        items = sorted(self.knowledge.items.values(), key=lambda item: item.title.lower())
        self._titles(items)
        reply = ask(self.screen, numbers=len(items), letters=("n",), names={"n": "none of these"})
        return self._item(Pressed(items[reply.number - 1].id)) if reply.number else Pressed("")

    def _ask_defects(self, session: Session) -> Session:
        reply = ask_words(self.screen, say("what-do-you-see-in-words"), SIGHT_LETTERS)
        if reply.letter == "b":
            others = tuple(move for move in session.moves if not isinstance(move, Pressed))
            return Session((*others, replace(self._ask_item(), press=session.press)))
        if reply.letter == "l":
            return self._pick(session)
        return self._confirm(session, hear(self.knowledge, self.lexicon, reply.words))

    def _pick(self, session: Session) -> Session:
        defects = sorted(self.knowledge.defects.values(), key=lambda defect: defect.title.lower())
        self._titles(defects)
        more = "several numbers count as well"
        reply = ask(self.screen, numbers=len(defects), letters=("b",), names={"b": "back"}, more=more)
        picked = [defects[number - 1].id for number in several(reply, len(defects))]
        if reply.letter:
            return session
        return self._confirm(
            session, Heard(tuple(picked)) if picked else hear(self.knowledge, self.lexicon, reply.words)
        )

    def _confirm(self, session: Session, heard: Heard) -> Session:
        """Show what was understood; the person takes it, strikes out what is wrong, or says it again."""
        session = self._item_by_the_way(session, heard)
        told = _moves(heard)
        if not told and heard.elsewhere:
            self.screen.line(not_ours(self.knowledge.elsewhere[heard.elsewhere]))
        elif not told:
            self.screen.line(say("not-recognised-say-it-another-way"))
        while told:
            self.screen.line(
                say("i-take-it-that-you-see") if any(isinstance(m, Saw) for m in told) else say("noted-so-far")
            )
            for number, move in enumerate(told, 1):
                self.screen.hang(f"{number:>2}", self._told(move), style="key")
            if heard.not_understood:
                self.screen.line(say("not-understood", words=", ".join(heard.not_understood)), "dim")
            reply = ask(
                self.screen, numbers=len(told), letters=tuple(RIGHT), names=RIGHT, more="a number strikes one out"
            )
            if reply.letter == "y":
                return Session((*session.moves, *told))
            if not reply.number:
                return self._again(session, reply)
            told.pop(reply.number - 1)
        return session

    def _again(self, session: Session, reply: Reply) -> Session:
        """Asks anew after ``n``; other words that name a defect are taken in place of the first ones."""
        heard = hear(self.knowledge, self.lexicon, reply.words)
        if heard.defects:
            return self._confirm(session, heard)
        if reply.words:
            self.screen.line(say("not-recognised"))
        return session

    def _item_by_the_way(self, session: Session, heard: Heard) -> Session:
        """The item that was named together with the sight, where none was named before."""
        if heard.refused and not session.item:
            self.screen.line(refusal(self.knowledge.refused[heard.refused]))
        if session.item or not heard.item:
            return session
        return session.make(self._item(Pressed(heard.item, dict(heard.facts))))

    def _told(self, move: Move) -> str:
        match move:
            case Saw((defect_id, *_)):
                return named(self.knowledge.defects[defect_id])
            case DidNotSee((defect_id, *_)):
                return say("not-there", title=self.knowledge.defects[defect_id].title)
            case Answered(check_id, outcome):
                check = self.knowledge.checks[check_id]
                return f"{titled(check)}: {check.outcome(outcome).looks}"
        return ""

    def _titles(self, entries: Sequence[Entry | Press]) -> None:
        for number, entry in enumerate(entries, 1):
            self.screen.hang(f"{number:>2}", entry.title, style="key")


def _press_called(presses: Mapping[str, Press], words: str) -> str:
    """The id of the one press whose title holds the words, or that is spelt nearly so; "" where none is."""
    names = {press.title.lower(): press.id for press in presses.values()} | {one: one for one in presses}
    if words in presses:
        return words
    holding = {press for name, press in names.items() if words in name}
    near = nearest(names, words)
    return holding.pop() if len(holding) == 1 else names[near] if near else ""


def _just_opened(session: Session) -> bool:
    """Whether nothing is said yet but what was pressed and what is seen."""
    return all(isinstance(move, Pressed | Saw | DidNotSee) for move in session.moves)


def _moves(heard: Heard) -> list[Move]:
    """What was understood, one move each, so that each can be struck out alone."""
    parts: Iterable[Iterable[Move]] = (
        (Saw((defect,)) for defect in heard.defects),
        (DidNotSee((defect,)) for defect in heard.not_seen),
        (Answered(check, outcome) for check, outcome in heard.answers),
    )
    return [move for part in parts for move in part]


def named(defect: Defect) -> str:
    """A defect by its title, and what it looks like in one sentence."""
    head, stop, _ = defect.looks.partition(". ")
    return f"{defect.title}: {head}{'.' if stop else ''}"
