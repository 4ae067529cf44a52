"""Goes through a whole casebook: every page, every row against its digest, and every row that leads to another."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Column, Connection, inspect, select
from sqlalchemy.exc import DBAPIError

from diagnose.casebook.store import tables
from diagnose.casebook.store.faults import CHANGED, Damaged
from diagnose.casebook.store.migrations import SCHEMA
from diagnose.casebook.store.rows import case_from, rows_of
from diagnose.casebook.store.seals import pattern_digest, seal
from diagnose.characters import stripped

AT_ONCE = 500  # rows in one statement
UNREADABLE, DAMAGED = "unreadable-row", "damaged"  # codes: the row is as it was written; something has changed it
EVIDENCE = (tables.seen, tables.answer, tables.tried, tables.figure)


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class RowFault:
    """Something that is wrong with a casebook. ``table`` is where, "" for the file as a whole; ``row`` is the id of a
    case or the digest of what cases show, "" where no single row is meant. ``code`` says whether something has changed
    it, or whether it was written so that nobody can read it."""

    table: str
    row: str
    wrong: str
    code: str = DAMAGED

    def __str__(self) -> str:
        where = {"cases": "case", "pattern": "what cases show,"}.get(self.table, self.table)
        return f"{' '.join(part for part in (where, self.row) if part) or 'the file'}: {self.wrong}"


def faults(connection: Connection) -> list[RowFault]:
    """All that is wrong with a casebook of the newest version, each once; empty where it is sound. Within a
    transaction that is already open. Raises what the database raises where a server cannot be asked."""
    in_file = connection.dialect.name == "sqlite"
    found: list[RowFault] = []
    looks = (_pages, _strays) if in_file else (_columns,)
    for look in (*looks, _patterns, _cases):
        found += _as_far_as_it_goes(look, connection, in_file)
    return sorted(set(found))


def changed(connection: Connection) -> set[str]:
    """The ids of the cases whose own row, or what they show, is not as it was written or not there, by their digests
    alone."""
    right = {
        row["digest"] for rows in _lots(connection, tables.pattern.c.digest) for row in rows if _is_named_right(row)
    }
    sealed = _sealed(connection)
    return {row["id"] for row, took in sealed if row["pattern"] not in right or seal(row, took) != row["digest"]}


def _as_far_as_it_goes(
    look: Callable[[Connection], Iterator[RowFault]], connection: Connection, in_file: bool
) -> list[RowFault]:
    """What a look finds; a file that cannot be read further is one fault more."""
    found: list[RowFault] = []
    try:
        found.extend(look(connection))
    except DBAPIError as error:
        if not in_file:
            raise
        found.append(_fault("", "", f"it cannot be read to its end ({error.orig})"))
    return found


def _pages(connection: Connection) -> Iterator[RowFault]:
    for (said,) in connection.exec_driver_sql("PRAGMA integrity_check").all():
        if said != "ok":
            yield _fault("", "", " ".join(str(said).split()))


def _strays(connection: Connection) -> Iterator[RowFault]:
    """Rows that belong to a case, or to what cases show, that is not there."""
    for table, row, parent, _ in connection.exec_driver_sql("PRAGMA foreign_key_check").all():
        yield _fault(str(table), row or "", f"what it belongs to is not among the {parent}")


def _columns(connection: Connection) -> Iterator[RowFault]:
    """On a server: the tables and their columns. The rest is for the server to look after."""
    known = inspect(connection)
    for table in tables.TABLES.sorted_tables:
        there = {column["name"] for column in known.get_columns(table.name, schema=SCHEMA)}
        if there != set(table.columns.keys()):
            yield _fault(table.name, "", "its columns are not those of a casebook")


def _patterns(connection: Connection) -> Iterator[RowFault]:
    for rows in _lots(connection, tables.pattern.c.digest):
        digests = [row["digest"] for row in rows]
        evidence = {table.name: _belonging(connection, table.c.pattern, digests) for table in EVIDENCE}
        for row in rows:
            of_it = {name: found[row["digest"]] for name, found in evidence.items()}
            yield from _pattern_faults(row, of_it)


def _pattern_faults(row: Mapping[Any, Any], evidence: Mapping[str, list[dict[str, Any]]]) -> Iterator[RowFault]:
    if not _is_named_right(row):
        yield _fault("pattern", row["digest"], CHANGED)
        return
    try:
        wanted = rows_of(row["press"], row["moves"], row["digest"])
    except Damaged as error:
        yield _fault("pattern", row["digest"], f"it cannot be read: {error}", UNREADABLE)
        return
    for name, there in {"pattern": [dict(row)], **evidence}.items():
        if _sorted(there) != _sorted(wanted[name]):
            yield _fault(name, row["digest"], CHANGED)


def _is_named_right(row: Mapping[Any, Any]) -> bool:
    return bool(pattern_digest(row["press"], row["moves"]) == row["digest"])


def _sorted(rows: Sequence[Mapping[str, Any]]) -> list[str]:
    return sorted(repr(sorted(row.items())) for row in rows)


def _cases(connection: Connection) -> Iterator[RowFault]:
    for row, took in _sealed(connection):
        yield from _case_faults(row, took)


def _sealed(connection: Connection) -> Iterator[tuple[Mapping[Any, Any], dict[Any, Any]]]:
    """The row of each case, with the minutes of its steps."""
    for rows in _lots(connection, tables.cases.c.id):
        took = _belonging(connection, tables.took.c.case_id, [row["id"] for row in rows])
        for row in rows:
            yield row, {one["step"]: one["minutes"] for one in took[row["id"]]}


def _case_faults(row: Mapping[Any, Any], took: Mapping[Any, Any]) -> Iterator[RowFault]:
    if seal(row, took) != row["digest"]:
        yield _fault("cases", row["id"], CHANGED)
        return
    try:
        case_from({**row, "press": ""}, took)
    except Damaged as error:
        yield _fault("cases", row["id"], f"it cannot be read: {error}", UNREADABLE)


def _lots(connection: Connection, key: Column[str]) -> Iterator[Sequence[Mapping[Any, Any]]]:
    """All rows of a table, some at a time, in the order of their key."""
    wanted = select(key.table).order_by(key).execution_options(yield_per=AT_ONCE)
    return connection.execute(wanted).mappings().partitions()


def _belonging(connection: Connection, key: Column[str], owners: Sequence[Any]) -> dict[Any, list[dict[str, Any]]]:
    """The rows of some owners, by owner. One whose key is no text has none that could be asked for."""
    found: dict[Any, list[dict[str, Any]]] = {owner: [] for owner in owners}
    asked = [owner for owner in owners if isinstance(owner, str) and stripped(owner) == owner]
    for row in connection.execute(select(key.table).where(key.in_(asked))).mappings():
        found.setdefault(row[key.name], []).append(dict(row))
    return found


def _fault(table: str, row: Any, wrong: str, code: str = DAMAGED) -> RowFault:
    """A fault with a name that can be shown, whatever stands in the row."""
    return RowFault(table=table, row=stripped(str(row)), wrong=stripped(wrong), code=code)
