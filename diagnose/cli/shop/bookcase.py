"""Where the casebook stands, and opening it."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from diagnose.casebook.store.address import is_server
from diagnose.casebook.store.aside import refuse_to_begin
from diagnose.cli.options import BOOK_VARIABLE
from diagnose.cli.shop import shelf
from diagnose.cli.terminal.screen import screen_for
from diagnose.problems import PressloreError
from diagnose.speech.saying import say

if TYPE_CHECKING:
    from diagnose.casebook.case import Case
    from diagnose.casebook.store.casebook import Casebook

BOOK_FILE = "casebook.sqlite3"
LAST = "last"


def place(named: str = "", shop: Path | None = None) -> str:
    """Where the casebook is: what was named, else what the environment names, else the file in the shop's folder,
    else one in the user's own data folder, which is made."""
    if found := named or os.environ.get(BOOK_VARIABLE, ""):
        return found
    folder = shelf.shop_folder(shop)
    return str((folder or data_folder()) / BOOK_FILE)


def data_folder() -> Path:
    """Where a casebook of no shop stands."""
    base = os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share"
    return Path(base) / "presslore"


def opened(named: str = "", shop: Path | None = None, *, looking: bool = False) -> Casebook:
    """The casebook, ready to be written to; it is made where there is none yet. With ``looking`` it is only looked
    at, and damaged pages do not keep it shut. Raises PressloreError."""
    from diagnose.casebook.store.casebook import open_book

    where = place(named, shop)
    if where == str(data_folder() / BOOK_FILE):
        _make(data_folder())
    book = open_book(where, looking=looking)
    if book.database.warning:
        screen_for(sys.stderr).line(book.database.warning, "caution")
    book.skipped.tell = left_out
    return book


def left_out(case: str) -> None:
    """Say on standard error which case of a casebook cannot be read, and why."""
    screen_for(sys.stderr).line(case, "caution")


def existing(named: str = "", shop: Path | None = None, *, looking: bool = False) -> Casebook | None:
    """The casebook to read from; None, having said so, where there is none yet. Raises PressloreError, also where one
    that was put aside lies alone."""
    where = place(named, shop)
    if holds_cases(where):
        return opened(where, looking=looking)
    refuse_to_begin(Path(where))
    screen_for(sys.stderr).line(say("there-is-no-casebook-yet", where=where))
    return None


def holds_cases(where: str) -> bool:
    """Whether a casebook stands at a place; of a server that is taken for granted."""
    return is_server(where) or not _is_empty(Path(where))


def _is_empty(file: Path) -> bool:
    """Whether there is no file, or one as a process leaves it that was stopped before it had begun a casebook."""
    return not file.exists() or (file.is_file() and not file.stat().st_size)


def _make(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise PressloreError(f"{folder}: this folder for the casebook cannot be made ({error.strerror})") from error


def short(case: Case) -> str:
    """The last eight digits of its id, which are of chance: enough to name it by."""
    return case.id[-8:]


def found(book: Casebook, named: str) -> Case:
    """The case of an id, of its beginning or end (four digits or more), or ``last``. Raises PressloreError."""
    if named == LAST:
        case = next(iter(book.newest(1)), None)
        if case is None:
            raise PressloreError(f"{book.place}: there is no case in it yet")
        return case
    ids = book.ids(named.lower(), most=5) if len(named) >= 4 else []
    if len(ids) > 1:
        raise PressloreError(f"{named}: several cases go by this: {', '.join(ids)}")
    case = book.get(ids[0]) if ids else None
    if case is None and ids:
        raise PressloreError(f"{ids[0]}: this case cannot be read: {book.skipped.reasons.get(ids[0], '')}")
    if case is None:
        raise PressloreError(
            f"{named}: no case has an id that begins or ends so (four digits or more); presslore cases list shows them"
        )
    return case
