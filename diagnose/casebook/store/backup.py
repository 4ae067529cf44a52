"""A copy of the whole casebook in one file, made while others go on writing; and putting one back.

What is put back is written into the casebook's own file, within SQLite's locks and its journal: whoever opens the
casebook meanwhile waits, whoever is stopped in the middle leaves the old one whole. Only a file that is no sound
database is exchanged for another.
"""

import os
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from tempfile import TemporaryDirectory

from diagnose.casebook.store import aside
from diagnose.casebook.store.casebook import Casebook, open_book
from diagnose.casebook.store.checking import UNREADABLE, RowFault, faults
from diagnose.casebook.store.engine import around, connected, frozen_way, is_frozen, keep_journal
from diagnose.casebook.store.faults import in_plain_words
from diagnose.casebook.store.migrations import version
from diagnose.casebook.store.schema import BACKUP, MARK, MARKED, UNMARK
from diagnose.files.locks import locked
from diagnose.files.writing import rename, settle
from diagnose.problems import PressloreError

WAIT = 5.0  # seconds for others to finish
PAGES = 4096  # copied at once
MOST_NAMED = 5  # faults
IN_WRITING = ("SQLITE_FULL", "SQLITE_IOERR_WRITE", "SQLITE_IOERR_FSYNC", "SQLITE_IOERR_TRUNCATE", "SQLITE_READONLY")
NO_DATABASE = (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB)


def back_up(book: Casebook, target: Path, *, force: bool = False) -> int:
    """Copy the casebook into a new file, looked over for damage before it takes the name and after. Returns how many
    cases it holds. Raises PressloreError; with ``force`` an earlier backup of that name gives way. A casebook, and
    whatever may be one, never does; what is no database is kept aside."""
    _refuse_taken(target, force)
    place, path = Path(os.path.realpath(target)), book.database.path
    if path is not None and _same(path, place):
        raise PressloreError(f"{target}: this is the casebook itself: name another file")
    aside.sweep(place)
    with _fresh(place) as fresh:
        if path is None:
            with open_book(fresh, named=str(target)) as copy:
                copy.add(book.cases())
        else:
            book.database.share()
            _copy(path, fresh, target)
        with in_plain_words(str(target)):
            _mark(fresh, MARK)
        number = look_over(fresh, book.place)
        with locked([place.parent]), in_plain_words(str(target)):
            _refuse_taken(target, force)  # somebody may have been quicker
            with _held(place) as held:
                if held is not None and _renewed(held, fresh, place, target):
                    return number
            _exchange(fresh, place)
    return number


def _refuse_taken(target: Path, force: bool) -> None:
    if os.path.lexists(target) and not force:
        raise PressloreError(f"{target}: there is such a file already: name another, or add --force")


def _renewed(held: sqlite3.Connection, fresh: Path, place: Path, named: Path) -> bool:
    """Write a backup into an earlier one; False where that is too damaged for it. Raises PressloreError where it may
    be a casebook."""
    with _fresh(place, "old") as old, _unless_damaged():
        if held.execute(MARKED).fetchone() != (BACKUP,):
            raise PressloreError(f"{named}: {UNMARKED}")
        with _connected(old, "mode=rwc") as other:
            _pages(held, other)
        _write_into(held, fresh, place, old)
        return True
    return False


UNMARKED = (
    "this is left alone: it does not bear the mark of a backup that nobody has written to since, so that it may be a "
    "casebook, one put aside, or a backup of an older presslore - name another file"
)


def restore(source: Path, target: Path, *, force: bool = False) -> Path | None:
    """Put a backup in the casebook's place. What was there is kept under another name, which is returned (None where
    there was nothing). Raises PressloreError; a casebook that is there gives way only if ``force``."""
    _ask_first(target, force)
    place = Path(os.path.realpath(target))
    if _same(source, place):
        raise PressloreError(f"{source}: this is the casebook itself: name a copy of it")
    aside.sweep(place)
    with _fresh(place) as fresh:
        _copy(source, fresh, target)
        look_over(fresh, str(source))
        with locked([place.parent]), in_plain_words(str(target)):
            _mark(fresh, UNMARK)
            _ask_first(target, force)  # one may have been begun meanwhile
            with _held(place) as held:
                if held is not None and (old := _copied_aside(held, place)) is not None:
                    _write_into(held, fresh, place, old)
                    return _as_named(old, target)
            return _as_named(_exchange(fresh, place), target)


def _ask_first(target: Path, force: bool) -> None:
    if os.path.exists(target) and not force:
        raise PressloreError(
            f"{target}: there is a casebook already: add --force to put the backup in its place (the old one is kept)"
        )


def look_over(file: Path, named: str = "") -> int:
    """How many cases a file holds. Raises PressloreError where anything in it is not as it was written, and where it
    is newer or no casebook."""
    with open_book(file, create=False, named=named, looking=True) as book:
        if wrong := _damage(book.faults()):
            raise PressloreError(f"{named or file}: this copy is damaged: take an older one\n{_told(wrong)}")
        return book.count()


def _damage(found: list[RowFault]) -> list[RowFault]:
    """The faults that are no mere rows which were written in a way that nobody reads any more."""
    return [fault for fault in found if fault.code != UNREADABLE]


def _told(wrong: list[RowFault]) -> str:
    more = len(wrong) - MOST_NAMED
    return "\n".join([*map(str, wrong[:MOST_NAMED]), *([f"and {more} more"] if more > 0 else [])])


def _as_named(kept: Path | None, target: Path) -> Path | None:
    """What was kept, as whoever named the target would name it."""
    beside = kept and target.with_name(kept.name)
    return beside if kept and beside and _same(kept, beside) else kept


def _same(one: Path, other: Path) -> bool:
    try:
        return os.path.samefile(one, other)
    except OSError:
        return False


# --- copying ---


@contextmanager
def copied(source: Path) -> Iterator[Path]:
    """A copy in a folder of its own, for as long as it is needed."""
    with TemporaryDirectory(prefix="presslore-") as folder:
        copy = Path(folder) / "copy.sqlite3"
        _copy(source, copy, copy)
        yield copy


def _copy(source: Path, fresh: Path, named: Path) -> None:
    """SQLite's own way of copying what is in use, page by page: nothing that stands in it is looked at. What cannot be
    written is ``named``, not the hidden file."""
    if not source.exists():
        raise PressloreError(f"{source}: there is no such file")
    aside.refuse_foreign_journal(source)
    with in_plain_words(str(named)), _connected(fresh, "mode=rwc"):
        pass
    with (
        in_plain_words(str(source)),
        _connected(source) as one,
        _connected(fresh, "mode=rwc") as other,
        _target_named(named),
    ):
        _pages(one, other)
        other.execute("PRAGMA journal_mode = DELETE")  # all of it in one file


@contextmanager
def _target_named(named: Path) -> Iterator[None]:
    """What fails inside in writing concerns the target, not what is read."""
    try:
        yield
    except sqlite3.Error as error:
        if not error.sqlite_errorname.startswith(IN_WRITING):
            raise
        with in_plain_words(str(named)):
            raise


def _mark(fresh: Path, how: str) -> None:
    """A backup bears a mark, which a casebook does not."""
    with _connected(fresh) as connection:
        connection.execute(how)


def _pages(one: sqlite3.Connection, other: sqlite3.Connection) -> None:
    one.backup(other, pages=PAGES)


@contextmanager
def _connected(file: Path, how: str = "") -> Iterator[sqlite3.Connection]:
    """Where SQLite may write, it first finishes what a process that was killed has left undone."""
    usual = frozen_way(file) if is_frozen(file) else "mode=rw"
    connection = connected(file, how or usual, WAIT)
    try:
        yield connection
    finally:
        connection.close()


@contextmanager
def _fresh(target: Path, end: str = "new") -> Iterator[Path]:
    """A name beside the target to write to first; nothing is left there afterwards."""
    fresh = target.with_name(f".{target.name}.{os.getpid()}.{end}")
    try:
        yield fresh
    finally:
        for path in (fresh, *aside.beside(fresh)):
            path.unlink(missing_ok=True)


# --- into the file that is there ---


@contextmanager
def _held(file: Path) -> Iterator[sqlite3.Connection | None]:
    """The only connection there is to a database, all of which is in its one file; None where there is none, or no
    sound one. Raises sqlite3.OperationalError while somebody else has it open."""
    if not aside.holds_something(file):
        yield None
        return
    connection = _exclusive(file)
    try:
        yield connection
    finally:
        if connection is not None:
            with closing(connection), suppress(sqlite3.Error):  # what fails here has failed before
                connection.execute("PRAGMA locking_mode = NORMAL")
                connection.execute("SELECT count(*) FROM sqlite_schema").fetchone()  # lets go, and ends the journal


def _exclusive(file: Path) -> sqlite3.Connection | None:
    with _unless_damaged():
        with closing(connected(file, "immutable=1")) as alone:  # a stray log would be taken for part of any file
            alone.execute("PRAGMA schema_version")
        aside.refuse_foreign_journal(file)
        connection = connected(file, "mode=rw", WAIT)
        try:
            connection.execute("PRAGMA locking_mode = EXCLUSIVE")
            keep_journal(connection, "DELETE", WAIT)
            connection.execute("BEGIN EXCLUSIVE")
            connection.execute("COMMIT")
        except BaseException:
            connection.close()
            raise
        return connection
    return None


@contextmanager
def _unless_damaged() -> Iterator[None]:
    """What fails inside because a file is no sound database is left undone."""
    try:
        yield
    except sqlite3.DatabaseError as error:
        if getattr(error, "sqlite_errorcode", 0) & 0xFF not in NO_DATABASE:
            raise


def _copied_aside(held: sqlite3.Connection, target: Path) -> Path | None:
    """A copy of what is there, under a name of its own; None where it is too damaged to be copied."""
    old = aside.name_aside(target)
    with _unless_damaged(), _fresh(target, "old") as copy:
        with _connected(copy, "mode=rwc") as other:
            _pages(held, other)
            other.execute("PRAGMA journal_mode = DELETE")
        _settle(copy, old)
        return old
    return None


def _write_into(held: sqlite3.Connection, fresh: Path, target: Path, old: Path) -> None:
    """Write a new content in the place of the old one, and look at it there. Should it be wrong, the old one comes
    back, of which this is a copy."""
    try:
        with _connected(fresh) as new:
            _pages(new, held)
        _look_at(held, target)
    except BaseException:
        with _connected(old) as before:
            _pages(before, held)
        old.unlink(missing_ok=True)
        raise


def _look_at(held: sqlite3.Connection, target: Path) -> None:
    with around(held, target).reading() as connection:
        version(connection, str(target))
        wrong = _damage(faults(connection))
    if wrong:
        raise PressloreError(f"{target}: {WENT_WRONG}\n{_told(wrong)}")


WENT_WRONG = "what was written there does not read back right, so what was there before is back: look after the disk"


# --- one file for another ---


def _exchange(fresh: Path, target: Path) -> Path | None:
    """Give a file that is whole the target's name. What was there, with what SQLite keeps beside it, is kept under
    another name, which is returned. At each moment the target is the old file or the new one."""
    old, was_there = aside.name_aside(target), os.path.lexists(target)
    with in_plain_words(str(target)):
        if was_there:
            _second_name(target, old)
        moved = [(path, old.with_name(old.name + path.name[len(target.name) :])) for path in aside.beside(target)]
        for path, kept in moved:
            os.rename(path, kept)
        _settle(fresh, target)
        try:
            look_over(target)
        except BaseException as error:
            _put_back(target, old if was_there else None, moved)
            if not isinstance(error, PressloreError):
                raise
            raise PressloreError(f"{target}: {WENT_WRONG}\n{error}") from error
    return old if was_there else moved[0][1] if moved else None


def _put_back(target: Path, old: Path | None, moved: list[tuple[Path, Path]]) -> None:
    for path in aside.beside(target):
        path.unlink(missing_ok=True)
    if old is None:
        target.unlink(missing_ok=True)
    else:
        os.replace(old, target)
    for path, kept in moved:
        os.rename(kept, path)
    settle([target.parent])


def _second_name(file: Path, name: Path) -> None:
    """The same file under another name; on a disk that knows no such thing (a memory stick), a copy."""
    try:
        os.link(file, name)
    except OSError:
        shutil.copy2(file, name)
        _to_disk(name)


def _settle(fresh: Path, target: Path) -> None:
    """Give a file that is whole its name, once it is on the disk."""
    _to_disk(fresh)
    rename(fresh, target)
    settle([target.parent])


def _to_disk(path: Path) -> None:
    with open(path, "rb+") as file:
        os.fsync(file.fileno())
