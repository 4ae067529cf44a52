"""Puts cases into the casebook, within a transaction that is already open for writing."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import islice

from sqlalchemy import Column, Connection, Table, select

from diagnose.casebook.case import Case
from diagnose.casebook.store import tables
from diagnose.casebook.store.rows import Pattern, Row, case_row, pattern_of, took_rows

AT_ONCE = 500  # cases in one statement


def add(connection: Connection, cases: Iterable[Case]) -> int:
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
