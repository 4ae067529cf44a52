"""A copy of the whole casebook in one file, made while others go on writing; and putting one back."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

from diagnose.casebook.store import Book, open_book
from diagnose.casebook.store_faults import in_plain_words
from diagnose.problems import PressloreError

WAIT = 5.0  # seconds for others to finish
BESIDE = ("", "-wal", "-shm")  # a casebook's file, and what SQLite keeps beside it while it is open


def back_up(book: Book, target: Path, *, force: bool = False) -> int:
    """Copy the casebook into a new file, looked over for damage before it takes the name. Returns how many cases it
    holds. Raises PressloreError; a file of that name gives way only if ``force``."""
    if target.exists() and not force:
        raise PressloreError(f"{target}: there is such a file already: name another, or add --force")
    with _fresh(target) as fresh:
        if book.database.path is None:
            with open_book(fresh) as copy:
                copy.add(book.cases())
        else:
            with in_plain_words(book.place):
                _copy(book.database.path, fresh)
        number = look_over(fresh)
        _settle(fresh, target)
    return number


def restore(source: Path, target: Path, *, force: bool = False) -> Path | None:
    """Put a backup in the casebook's place. What was there is kept under another name, which is returned (None where
    there was nothing). Raises PressloreError; a casebook that is there gives way only if ``force``."""
    if target.exists() and not force:
        raise PressloreError(
            f"{target}: there is a casebook already: add --force to put the backup in its place (the old one is kept)"
        )
    with _fresh(target) as fresh:
        with in_plain_words(str(source)):
            _copy(source, fresh)
        look_over(fresh, str(source))
        old = _put_aside(target) if target.exists() else None
        _settle(fresh, target)
    return old


def look_over(file: Path, named: str = "") -> int:
    """How many cases a file holds. Raises PressloreError where it is damaged, newer or no casebook."""
    with in_plain_words(named or str(file)), _connected(file) as connection:
        if connection.execute("PRAGMA integrity_check(1)").fetchone() != ("ok",):
            raise PressloreError(f"{named or file}: this copy is damaged: take an older one")
        if not connection.execute("SELECT count(*) FROM sqlite_schema").fetchone()[0]:
            raise PressloreError(f"{named or file}: there is nothing in it: no casebook")
    with open_book(file, create=False) as book:
        return book.count()


def _copy(source: Path, target: Path) -> None:
    """SQLite's own way of copying what is in use."""
    if not source.exists():
        raise PressloreError(f"{source}: there is no such file")
    with _connected(source) as one, _connected(target) as other:
        one.backup(other, pages=4096)
        other.execute("PRAGMA journal_mode = DELETE")  # all of it in one file


@contextmanager
def _connected(file: Path) -> Iterator[sqlite3.Connection]:
    connection = sqlite3.connect(file, timeout=WAIT)
    try:
        yield connection
    finally:
        connection.close()


@contextmanager
def _fresh(target: Path) -> Iterator[Path]:
    """A name beside the target to write to first; nothing is left there afterwards."""
    fresh = target.with_name(f".{target.name}.{os.getpid()}.new")
    try:
        yield fresh
    finally:
        for end in BESIDE:
            fresh.with_name(fresh.name + end).unlink(missing_ok=True)


def _put_aside(target: Path) -> Path:
    """Rename a casebook, with what SQLite keeps beside it: that belongs to the old file and to no other."""
    stamp = datetime.now(UTC).strftime("%Y%m%dT%H%M%S%f")
    old = target.with_name(f"{target.stem}.before-{stamp}{target.suffix}")
    with in_plain_words(str(target)):
        _nobody_else(target)
        for end in BESIDE:
            beside = target.with_name(target.name + end)
            if beside.exists():
                os.rename(beside, old.with_name(old.name + end))
    return old


def _nobody_else(file: Path) -> None:
    """Raises sqlite3.OperationalError while somebody else has the casebook open. A damaged one cannot be asked."""
    try:
        with _connected(file) as connection:
            connection.execute("PRAGMA journal_mode = DELETE")
    except sqlite3.DatabaseError as error:
        if getattr(error, "sqlite_errorcode", 0) & 0xFF == sqlite3.SQLITE_BUSY:
            raise


def _settle(fresh: Path, target: Path) -> None:
    """Give a file that is whole its name, once it is on the disk."""
    with open(fresh, "rb+") as file:
        os.fsync(file.fileno())
    os.replace(fresh, target)
    folder = os.open(target.parent, os.O_RDONLY)
    try:
        os.fsync(folder)
    finally:
        os.close(folder)
