"""What the shop knows of before, at the beginning of a dialogue, and what it keeps of a good piece at its end."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from diagnose.cli.asking.prompts import ask, several
from diagnose.cli.terminal.screen import Screen
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Cured, FoundLately, LastGood, Move, Used
from diagnose.dialogue.session import Session
from diagnose.foresight.last_good import ANOTHER
from diagnose.problems import PressloreError
from diagnose.speech.heard import Echo, set_to
from diagnose.speech.saying import say

GOODS_LETTERS = {"n": "all the same", "u": "cannot say", "x": "leave the last good one out"}


@dataclass(frozen=True, slots=True)
class Memory:
    """Where what a shop knows lies. ``wanted``: whether it is to be recalled; ``book``: the casebook's place, asked for
    when it is needed."""

    wanted: bool
    book: Callable[[], str]

    def recalled(self, start: Consultation) -> tuple[Move, ...]:
        """What is known of such an item on such a press, as moves: the last good piece, and the causes found lately.
        What cannot be read is passed over: the end of the dialogue tells of it."""
        session = start.session
        if not self.wanted or not session.item or session.last_good or session.found_lately:
            return ()
        return (*self._last_good(start), *self._found_lately(start))

    def _last_good(self, start: Consultation) -> Iterator[Move]:
        from diagnose.casebook.good import last_good as found
        from diagnose.casebook.good import noted

        try:
            good = found(noted(good_file(self.book())), start.session.item, _press(start))
        except PressloreError:
            return
        if good:
            yield good

    def _found_lately(self, start: Consultation) -> tuple[FoundLately, ...]:
        from diagnose.cli.shop.bookcase import holds_cases

        try:
            where = self.book()
            if not holds_cases(where):
                return ()
            from diagnose.casebook.lately import found_lately, since
            from diagnose.casebook.store.casebook import open_book

            at = now()
            with open_book(where, create=False, looking=True) as book:
                return found_lately(book.newest(MOST_LOOKED_AT, since(at)), start, at)
        except (PressloreError, ImportError):
            return ()

    def note(self, screen: Screen, end: Consultation) -> None:
        """Keep what a good piece was set to, as far as it is known, and say so. Never raises PressloreError."""
        if not (isinstance(end.session.over, Cured) and end.item) or end.barred:
            return
        from diagnose.casebook.good import GoodPressing, note
        from diagnose.dialogue.came_out import came_out

        figures, used = came_out(end)
        if not (figures or used):
            return
        good = LastGood(today(), figures, used)
        try:
            note(good_file(self.book()), GoodPressing(item=end.item.id, press=_press(end), good=good))
        except PressloreError as error:
            screen.line(say("good-not-noted", error=error), "caution")
            return
        what = set_to(good, end.shop.temperature)
        screen.line(say("good-noted", item=end.item.title, what=what), "dim")


MOST_LOOKED_AT = 60  # cases of all presses


def now() -> datetime:
    """This moment in UTC."""
    return datetime.now(UTC)


def today() -> str:
    """The day it is here."""
    return f"{datetime.now().astimezone():%Y-%m-%d}"


def good_file(book: str) -> Path:
    """The file of good pressings: beside the casebook, or in the user's own data folder where that is on a server."""
    from diagnose.casebook.good import FILE
    from diagnose.casebook.store.address import is_server
    from diagnose.cli.shop.bookcase import data_folder

    return (data_folder() if is_server(book) else Path(book).parent) / FILE


def _press(consultation: Consultation) -> str:
    return consultation.press.id if consultation.press else consultation.session.press


def told(screen: Screen, start: Consultation, moves: tuple[Move, ...]) -> Session:
    """The session with what is known of before, which is shown; of goods it is asked which are others now."""
    session = start.session
    if not moves:
        return session
    echo = Echo(start.knowledge, start.shop.temperature)
    screen.line(say("recalled"), "title")
    for move in moves:
        screen.hang("-", f"{echo.move(move)}.")
    good = next((move for move in moves if isinstance(move, LastGood)), None)
    if good is None or not good.used:
        return Session((*session.moves, *moves))
    answer = _goods(screen, good)
    kept = [move for move in moves if answer is not None or move is not good]
    used = [Used(answer)] if answer else []
    return Session((*session.moves, *kept, *used))


def _goods(screen: Screen, good: LastGood) -> dict[str, str] | None:
    """What was used this time, of what the last good piece had; {} where the person cannot say, None where the last
    good piece is left out."""
    kinds = list(good.used)
    screen.line(say("which-are-not-the-same-now"), "title")
    for number, kind in enumerate(kinds, 1):
        screen.hang(f"{number}", say("goods-used", kind=kind, words=good.used[kind]), style="key")
    while True:
        more = "several numbers count as well"
        reply = ask(
            screen, numbers=len(kinds), letters=tuple(GOODS_LETTERS), names=GOODS_LETTERS, more=more, unshown="s"
        )
        if reply.letter:
            return {"n": dict(good.used), "u": {}, "x": None}[reply.letter]
        if others := several(reply, len(kinds)):
            another = {kinds[number - 1]: ANOTHER for number in others}
            return {**good.used, **another}
        screen.line(say("i-do-not-know-which-of-these"))
