"""What a database complains of, as a person understands it: what is wrong, and what to do."""

import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from errno import EACCES, EDQUOT, ENOSPC, EROFS

from sqlalchemy.exc import DBAPIError, SQLAlchemyError

from diagnose.casebook.store.address import without
from diagnose.problems import PressloreError

RESTORE = "put the newest backup in its place: presslore cases restore BACKUP --force (the damaged file is kept)"
DAMAGED = f"the casebook is damaged - {RESTORE}"
CHANGED = "it is not what was once written"
FULL = "the disk is full: make room, then try again; what was kept before is safe"
READ_ONLY = "the casebook cannot be written here: allow writing to the file and its folder, or name another with --book"
SILENT = "the casebook's server has stopped answering: look after it, then try again"
PERHAPS_KEPT = (
    "the casebook's server stopped answering just as this was being kept: it may be there, or not. Look once the "
    "server answers (presslore cases list) and add it again only if it is missing; what is imported or resumed again "
    "is kept once"
)
BUSY = "another program has kept the casebook busy for too long: close it, then try again"

SQLITE = {
    "SQLITE_FULL": FULL,
    "SQLITE_READONLY": READ_ONLY,
    "SQLITE_CANTOPEN": "the casebook cannot be opened: the folder must be there and may be written to",
    "SQLITE_PERM": READ_ONLY,
    "SQLITE_CORRUPT": DAMAGED,
    "SQLITE_NOTADB": f"this is no casebook, or a damaged one - if it was one, {RESTORE}",
    "SQLITE_TOOBIG": "a value is larger than any that a case may hold",
    "SQLITE_BUSY": BUSY,
    "SQLITE_LOCKED": BUSY,
    "SQLITE_IOERR": "the disk does not take or give what it should (it may be full, or failing): look after it first",
}  # by the beginning of the error's name
POSTGRES = {
    "53100": FULL,
    "25006": "the casebook's server allows reading only",
    "55P03": BUSY,
    "57014": "the casebook's server took too long over this: look after it, then try again",
    "22P05": "the casebook's server cannot keep these letters: make it a database in UTF8",
    "42501": "the database user may not do this: let the owner grant it CREATE on the database",
    "28": "the server does not accept this user or password: look at the address of the casebook",
    "3D": "the server has no database of this name: create it, or look at the address of the casebook",
    "XX": "the casebook's server reports damage: restore the server's own backup",
}  # by the beginning of the SQLSTATE
REFUSED = {
    "database": POSTGRES["3D"],
    "authentication": POSTGRES["28"],
    "role": POSTGRES["28"],
}  # by a word of what the server says while it is being reached
UNREACHED = "the casebook's server cannot be reached: is it running, and is its address right?"


class Damaged(Exception):
    """A row does not hold what was once written there."""


@contextmanager
def in_plain_words(place: str, hidden: Sequence[str] = ()) -> Iterator[None]:
    """Whatever a database raises inside becomes a PressloreError that names the casebook and shows none of what is
    hidden."""
    try:
        yield
    except DBAPIError as error:
        raise PressloreError(f"{place}: {_said(error.orig, hidden)}") from error
    except sqlite3.Error as error:
        raise PressloreError(f"{place}: {_said(error, hidden)}") from error
    except OSError as error:
        said = (
            FULL if error.errno in (ENOSPC, EDQUOT) else READ_ONLY if error.errno in (EACCES, EROFS) else error.strerror
        )
        raise PressloreError(f"{place}: {said or error}") from error
    except Damaged as error:
        raise PressloreError(f"{place}: {DAMAGED}") from error
    except UnicodeDecodeError as error:  # SQLite's own complaint quotes what is in the file
        raise PressloreError(f"{place}: {DAMAGED}") from error
    except (SQLAlchemyError, UnicodeEncodeError, OverflowError) as error:
        raise PressloreError(f"{place}: the casebook does not take this ({_first_line(error, hidden)})") from error


def _said(error: BaseException | None, hidden: Sequence[str]) -> str:
    name = getattr(error, "sqlite_errorname", None)
    if name:
        found = next((words for start, words in SQLITE.items() if name.startswith(start)), "")
        return found or f"the casebook does not take this ({_first_line(error, hidden)})"
    state = getattr(error, "sqlstate", None)
    if state:
        found = next((words for start, words in POSTGRES.items() if state.startswith(start)), "")
        return found or f"the casebook's server refused ({_first_line(error, hidden)})"
    if isinstance(error, sqlite3.Error):  # what is in the file is not what was once written there
        return DAMAGED
    said = _first_line(error, hidden).rpartition("failed: ")[2]
    if said == SILENT:
        return SILENT
    return f"{next((words for part, words in REFUSED.items() if part in said), UNREACHED)} ({said})"


def _first_line(error: BaseException | None, hidden: Sequence[str]) -> str:
    said = without(str(error), hidden)  # as a whole: a secret may be cut by a line's end
    return (said.strip().splitlines() or [type(error).__name__])[0]
