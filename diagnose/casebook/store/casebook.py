"""The casebook: all cases of a shop in one database. What ``add`` has returned from is kept, whatever happens next."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from itertools import islice
from pathlib import Path
from types import TracebackType
from typing import Self

from sqlalchemy import Column, Connection, Table, select

from diagnose.casebook.case import Case, fit
from diagnose.casebook.store import aside, reading, tables
from diagnose.casebook.store.checking import RowFault, changed, faults
from diagnose.casebook.store.engine import Database, beginning, database
from diagnose.casebook.store.faults import DAMAGED, Damaged
from diagnose.casebook.store.migrations import MIGRATIONS, migrate, version
from diagnose.casebook.store.rows import Pattern, Row, case_row, pattern_of, took_rows
from diagnose.casebook.store.schema import MARKED, UNMARK
from diagnose.casebook.tally import Day, Group
from diagnose.problems import PressloreError

AT_ONCE = 500  # cases in one statement


CHECKED_UP_TO = 8_000_000  # bytes of a file that is looked over for damage whenever it is opened


OF_ONE_ROW = "CHECK constraint failed"  # as SQLite puts it
MOST_CHANGED = 2000  # cases that are passed over because something has changed them
MOST_TOLD = 20  # cases that cannot be read, named one by one


@dataclass(slots=True)
class Skipped:
    """The cases that could not be read, each with why. ``tell`` is given each of them once, in words, up to
    ``MOST_TOLD`` of them."""

    tell: Callable[[str], None] | None = None
    reasons: dict[str, str] = field(default_factory=dict)

    def __call__(self, case: str, why: str) -> None:
        """Pass a case over, once."""
        case = case.encode("ascii", "backslashreplace").decode("ascii")
        if case in self.reasons:
            return
        self.reasons[case] = why
        if self.tell and len(self.reasons) <= MOST_TOLD:
            self.tell(f"Case {case} cannot be read and is left out: {why}.")
        elif self.tell and len(self.reasons) == MOST_TOLD + 1:
            self.tell("More cases cannot be read and are left out.")


@dataclass(frozen=True, slots=True)
class Casebook:
    """An open casebook. ``place`` names it to a person. Everything raises PressloreError where the database will
    not do what is asked, saying what to do about it. What yields cases sees one state of the book from its first
    case to its last; a case that cannot be read is passed over and stands in ``skipped``."""

    database: Database
    skipped: Skipped = field(default_factory=Skipped)
    _changed: list[frozenset[str]] = field(default_factory=list, repr=False)  # looked for once

    @property
    def place(self) -> str:
        return self.database.place

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self.close()

    def close(self) -> None:
        """Let go of the database."""
        self.database.engine.dispose()

    def add(self, cases: Iterable[Case]) -> int:
        """Keep the cases, all or none of them. Returns how many were new; a case whose id is there is left alone.
        Raises PressloreError for one that could not be read again."""
        with self.database.writing() as connection:
            new = _insert_new(connection, map(fit, cases))
            if new and self.database.path is not None and connection.exec_driver_sql(MARKED).scalar():
                connection.exec_driver_sql(UNMARK)  # a backup that is written to is a casebook
            return new

    def count(self) -> int:
        """How many cases there are."""
        with self.database.reading() as connection:
            return reading.count(connection)

    def get(self, case_id: str) -> Case | None:
        """The case of an id, None where there is none that can be read."""
        with self.database.reading() as connection:
            return next(reading.by_id(connection, [case_id], self.skipped), None)

    def ids(self, part: str = "", most: int = 10) -> list[str]:
        """At most so many ids that begin or end like this, in order."""
        with self.database.reading() as connection:
            return reading.ids(connection, part, most)

    def alike(self, case_id: str) -> list[str]:
        """The ids of all cases that show the same as this one, itself included, in order."""
        with self.database.reading() as connection:
            return reading.alike(connection, case_id)

    def cases(self, since: datetime | None = None, press: str | None = None, item: str | None = None) -> Iterator[Case]:
        """The cases in the order they ended; from a time on, of one press, of one item."""
        with self.database.reading() as connection:
            yield from reading.in_time(connection, self.skipped, since, press, item)

    def newest(
        self, most: int, since: datetime | None = None, press: str | None = None, item: str | None = None
    ) -> list[Case]:
        """At most so many cases, the last first."""
        with self.database.reading() as connection:
            return reading.newest(connection, most, reading.chosen(since, press, item), self.skipped)

    def patterns(self) -> Iterator[tuple[Case, int]]:
        """For all cases that show the same (press, item, facts, evidence, ending): one that stands for them, and how
        many they are; counted by the database, in an order that hangs on what they show alone. The one that stands
        for them has the id of the first by id, and its moves in a fixed order; what it cost is left out."""
        with self.database.reading() as connection:
            yield from reading.patterns(connection, self.skipped, self._left_out(connection))

    def times(self) -> Mapping[str, tuple[int, float, float]]:
        """By check or fix: how often it was timed, and the mean and the variance of its minutes."""
        with self.database.reading() as connection:
            return reading.times(connection, self._left_out(connection))

    def groups(self, since: datetime | None = None, press: str | None = None) -> Iterator[Group]:
        """The patterns with what their cases cost together."""
        with self.database.reading() as connection:
            yield from reading.groups(connection, self.skipped, self._left_out(connection), since, press)

    def days(self, since: datetime | None = None, press: str | None = None) -> list[Day]:
        """Each day on which cases ended, with what they cost together."""
        with self.database.reading() as connection:
            return reading.days(connection, self.skipped, self._left_out(connection), since, press)

    def faults(self) -> list[RowFault]:
        """All that is wrong with what stands in the book; empty where every row is as it was written."""
        with self.database.reading() as connection:
            return faults(connection)

    def _left_out(self, connection: Connection) -> frozenset[str]:
        """The ids of the cases that are not as they were written, or show something that is not: they are passed over.
        Raises Damaged where they are more than a few."""
        if not self._changed:
            found = frozenset(changed(connection))
            if len(found) > MOST_CHANGED:
                raise Damaged
            reading.name_changed(connection, found, self.skipped)
            self._changed.append(found)
        return self._changed[0]


def open_book(where: str | Path, *, create: bool = True, named: str = "", looking: bool = False) -> Casebook:
    """The casebook at a path (a SQLite file) or an address (``postgresql+psycopg://USER@HOST/DATABASE``). Where there
    is none yet it is made, unless ``create`` is false or one that was put aside lies there. An older one is brought to
    the newest version. Raises PressloreError for one that is damaged, newer, out of reach or no casebook, saying what
    to do. ``named`` is how that names it, if not by its place; with ``looking`` it is only looked at: damaged pages
    do not keep it shut, and what stands beside it stays as it is."""
    found = database(where)
    if named:
        found = replace(found, place=named)
    path = found.path
    if path is None:
        return _opened(found, create, looking)
    aside.refuse_foreign_journal(path)
    if aside.holds_something(path):
        return _opened(found, create, looking)
    if not create:
        nothing = "there is nothing in it: no casebook" if path.exists() else "there is no casebook here"
        raise PressloreError(f"{found.place}: {nothing}")
    with beginning(found):
        return _opened(found, create, looking)


def _opened(found: Database, create: bool, looking: bool) -> Casebook:
    book = Casebook(found)
    try:
        _make_ready(found, create, looking)
    except BaseException:
        book.close()
        raise
    return book


def _make_ready(found: Database, create: bool, looking: bool) -> None:
    with found.reading() as connection:
        at = version(connection, found.place)
        if not at and not create:
            raise PressloreError(f"{found.place}: there is nothing in it: no casebook")
        old = at < len(MIGRATIONS)  # nothing is built on damage
        if old or not looking:
            _refuse_damaged(connection, found, None if old else CHECKED_UP_TO)
    if not looking:
        found.keep_journal()
    if old:
        with found.writing() as connection:
            migrate(connection, found.place)


def _refuse_damaged(connection: Connection, found: Database, most: int | None) -> None:
    """Look a file over, unless it is larger than ``most`` bytes: such are looked over when they are backed up. A row
    that holds what none may hold spoils no other: it is passed over where it is read."""
    if found.path is None or (most is not None and found.path.stat().st_size > most):
        return
    said = connection.exec_driver_sql("PRAGMA quick_check").scalars()
    if any(one != "ok" and not one.startswith(OF_ONE_ROW) for one in said):
        raise PressloreError(f"{found.place}: {DAMAGED}")


def _insert_new(connection: Connection, cases: Iterable[Case]) -> int:
    """Insert what is new; returns how many that were."""
    return sum(_add_some(connection, some) for some in _parts(cases))


def _parts(cases: Iterable[Case]) -> Iterator[list[Case]]:
    waiting = iter(cases)
    while some := list(islice(waiting, AT_ONCE)):
        yield some


def _add_some(connection: Connection, cases: Sequence[Case]) -> int:
    new = {case.id: case for case in reversed(cases)}  # of one id twice, the first counts
    for known in _known(connection, tables.cases.c.id, list(new)):
        del new[known]
    patterns = {case.id: pattern_of(case) for case in new.values()}
    _add_patterns(connection, {one.digest: one for one in patterns.values()})
    _insert(connection, tables.cases, [case_row(case, patterns[case.id].digest) for case in new.values()])
    _insert(connection, tables.took, [row for case in new.values() for row in took_rows(case)])
    return len(new)


def _add_patterns(connection: Connection, patterns: dict[str, Pattern]) -> None:
    known = _known(connection, tables.pattern.c.digest, list(patterns))
    new = [one for digest, one in patterns.items() if digest not in known]
    for table in (tables.pattern, tables.seen, tables.answer, tables.tried, tables.figure):
        _insert(connection, table, [row for one in new for row in one.rows[table.name]])


def _known(connection: Connection, column: Column[str], wanted: list[str]) -> set[str]:
    return set(connection.scalars(select(column).where(column.in_(wanted))))


def _insert(connection: Connection, table: Table, rows: list[Row]) -> None:
    if rows:
        connection.execute(table.insert(), rows)
