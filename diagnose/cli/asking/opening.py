"""The opening of a dialogue: what was pressed, and what is wrong with it, in the person's own words."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from diagnose.cli.asking.bars import go_on
from diagnose.cli.asking.echo import NONE, Listener
from diagnose.cli.asking.prompts import ITEM_LETTERS, ITEM_QUESTION, Reply, ask, ask_words, several
from diagnose.cli.terminal.screen import Screen
from diagnose.dialogue.hearing import Heard
from diagnose.dialogue.moves import DidNotSee, Move, Pressed, Saw
from diagnose.dialogue.nearby import features, nearest_defects, nearest_items
from diagnose.dialogue.session import Session
from diagnose.dialogue.sights import possible
from diagnose.dialogue.taking import Telling, after, news
from diagnose.knowledge.model import Entry, Knowledge
from diagnose.knowledge.shop import Press
from diagnose.reasoning.words import THE_REST, Lexicon, find_item, is_cut, nearest
from diagnose.reasoning.words.items import WHOLE_NAME
from diagnose.speech.heard import goods
from diagnose.speech.saying import say
from diagnose.speech.titles import not_ours, refusal

SIGHT_LETTERS = {"l": "list", "b": "back to the item"}
PRESS_LETTERS = {"u": "cannot say"}


@dataclass(frozen=True, slots=True)
class Opening:
    """The opening questions on a screen, asked until the session says what was pressed (it may stay unnamed) and
    at least one defect. Whatever else is told on the way is taken as well. ``unit``: the shop's, ``C`` or ``F``.
    ``proven`` is called once it is known what was pressed; it may end the dialogue."""

    screen: Screen
    knowledge: Knowledge
    lexicon: Lexicon
    presses: Mapping[str, Press] = field(default_factory=dict)
    unit: str = "C"
    proven: Callable[[Session], None] = lambda session: None

    @property
    def listener(self) -> Listener:
        return Listener(self.screen, self.knowledge, self.lexicon, self.unit)

    def go(self, session: Session, first: Reply | None = None) -> Session:
        """Ask for what the session does not say yet. ``first``: the question for the item was already answered. Raises
        Left where the person wants to stop."""
        while not _item_told(session):
            session, first = after(session, self._ask_item(session, first)), None
        self.proven(session)
        if first and first.words:
            session = self._take(session, first.words)
        if len(self.presses) > 1 and not session.press and _just_opened(session):
            session = session.make(Pressed(session.item, {}, self._ask_press()))
        while not session.evidence.seen:
            session = self._ask_defects(session)
        return session

    def _ask_item(self, session: Session, first: Reply | None = None) -> tuple[Move, ...]:
        """What was told at the question for the item: the goods, or much else besides. () where nothing was."""
        question = say("and-what-was-pressed") if session.moves else ITEM_QUESTION
        while True:
            reply = first or ask_words(self.screen, question, ITEM_LETTERS, unshown="us")
            first = None
            if reply.letter == "l":
                return (self._item_from_list(),)
            if reply.letter or not reply.words:
                return (Pressed(""),)
            if is_cut(reply.words):
                self.screen.line(say("not-understood", words=THE_REST), "dim")
            if told := self._item_or_more(reply.words):
                return told

    def _item_or_more(self, words: str) -> tuple[Move, ...]:
        found = find_item(self.lexicon, words)
        listener = self.listener
        heard, told = (Heard(), []) if found and found.score >= WHOLE_NAME else listener.listen(words)
        if heard.of_another_craft:
            self.screen.line(not_ours(self.knowledge.elsewhere[heard.elsewhere]))
            return ()
        if heard.of_the_fault:
            self._say_refused(heard)
            return listener.confirm(told, heard.not_understood)
        if found and found.refused:
            self.screen.line(refusal(self.knowledge.refused[found.refused]))
            return ()
        item = found.id if found and found.id else heard.item
        if not item:
            return self._item_unknown(words)
        beside = dict(heard.facts) if heard.item in ("", item) else {}
        return (self._item(Pressed(item, {**beside, **(found.facts if found else {})}), listener.ground),)

    def _item_unknown(self, words: str) -> tuple[Move, ...]:
        """The nearest items to choose from; where it is none of them, what the goods are like."""
        near = nearest_items(self.knowledge, words)
        if near:
            titles = [self.knowledge.items[item].title for item in near]
            chosen, otherwise = self.listener.which(titles, say("is-the-item-one-of-these"))
            if chosen >= 0:
                return (self._item(Pressed(near[chosen])),)
            if otherwise:
                return self._item_or_more(otherwise)
        else:
            self.screen.line(say("item-not-known"))
        reply = ask_words(self.screen, say("cloth-or-hard"), ITEM_LETTERS, unshown="us")
        if reply.letter == "l":
            return (self._item_from_list(),)
        if facts := features(self.knowledge, reply.words):
            return (self._item(Pressed("", facts)),)
        return self._item_or_more(reply.words) if reply.words and not reply.letter else (Pressed(""),)

    def _ask_press(self) -> str:
        """The id of the press, "" where the person cannot say."""
        ids = list(self.presses)
        self.screen.line(say("on-which-press"), "title")
        self._titles(list(self.presses.values()))
        while True:
            reply = ask(self.screen, numbers=len(ids), letters=tuple(PRESS_LETTERS), names=PRESS_LETTERS, unshown="s")
            if reply.number:
                return ids[reply.number - 1]
            if reply.letter:
                return ""
            if named := _press_called(self.presses, reply.words.lower()):
                return named
            self.screen.line(say("i-do-not-know-that-press"))

    def _item(self, pressed: Pressed, ground: str = "") -> Pressed:
        """The item, shown as it was understood."""
        self.screen.line(say("item", item=goods(self.knowledge, pressed.item, pressed.facts, ground)), "good")
        return pressed

    def _item_from_list(self) -> Pressed:
        items = sorted(self.knowledge.items.values(), key=lambda item: item.title.lower())
        self._titles(items)
        reply = ask(self.screen, numbers=len(items), letters=tuple(NONE), names=NONE, unshown="us")
        if reply.number:
            return self._item(Pressed(items[reply.number - 1].id))
        found = find_item(self.lexicon, reply.words) if reply.words else None
        return self._item(Pressed(found.id, dict(found.facts))) if found and found.id else Pressed("")

    def _ask_defects(self, session: Session) -> Session:
        reply = ask_words(self.screen, say("what-do-you-see-in-words"), SIGHT_LETTERS, unshown="us")
        if reply.letter == "b":
            others = Session(tuple(move for move in session.moves if not isinstance(move, Pressed)))
            while not (told := self._ask_item(Session())):
                pass
            moves = [replace(move, press=session.press) if isinstance(move, Pressed) else move for move in told]
            return after(others, moves)
        if reply.letter:
            return self._pick(session)
        return self._take(session, reply.words)

    def _pick(self, session: Session) -> Session:
        item = self.knowledge.items.get(session.item)
        groups = possible(self.knowledge, {**(item.facts if item else {}), **session.facts})
        defects = [defect for group in groups.values() for defect in group]
        for meets, group in groups.items():
            self.screen.line(say("what-meets", meets=meets), "title")
            self._titles(group, defects.index(group[0]) + 1)
        more = "several numbers count as well"
        names = {"b": "back"}
        reply = ask(self.screen, numbers=len(defects), letters=("b",), names=names, more=more, unshown="us")
        if reply.letter:
            return session
        if picked := several(reply, len(defects)):
            return self._confirmed(session, [Telling(Saw((defects[number - 1].id,))) for number in picked])
        return self._take(session, reply.words)

    def _take(self, session: Session, words: str) -> Session:
        """The session with what the words say, once the person has taken it."""
        listener = self.listener
        heard, told = listener.listen(words, session.item)
        if heard.of_another_craft:
            self.screen.line(not_ours(self.knowledge.elsewhere[heard.elsewhere]))
            return session
        self._say_refused(heard)
        if told:
            return after(session, listener.confirm(news(told, session), heard.not_understood))
        near = nearest_defects(self.lexicon, words)
        if not near:
            self.screen.line(say("not-recognised-say-it-another-way"))
            return session
        titles = [self.knowledge.defects[defect].title for defect in near]
        chosen, otherwise = listener.which(titles, say("is-it-one-of-these"))
        if otherwise:
            return self._take(session, otherwise)
        return session.make(Saw((near[chosen],))) if chosen >= 0 else session

    def _confirmed(self, session: Session, told: list[Telling]) -> Session:
        return after(session, self.listener.confirm(told))

    def _say_refused(self, heard: Heard) -> None:
        if heard.refused:
            self.screen.line(refusal(self.knowledge.refused[heard.refused]))
            go_on(self.screen)

    def _titles(self, entries: Sequence[Entry | Press], first: int = 1) -> None:
        for number, entry in enumerate(entries, first):
            self.screen.hang(f"{number:>2}", entry.title, style="key")


def _item_told(session: Session) -> bool:
    """Whether the question for the item was answered, if only by not knowing it."""
    return any(isinstance(move, Pressed) and move != Pressed("", {}, session.press or "-") for move in session.moves)


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
