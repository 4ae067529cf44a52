"""How a casebook comes to its newest version: one list of statements for each version, run in one transaction.

A version that was published is never changed; what is new is a version more. ``{word}`` and ``{number}`` are the
types of the database at hand, ``{strict}`` its way of refusing values of another type.
"""

from collections.abc import Sequence

from sqlalchemy import Connection, inspect

from diagnose.casebook.store_engine import SCHEMA
from diagnose.problems import PressloreError

MIGRATIONS: list[Sequence[str]] = [
    (
        "CREATE TABLE book (version INTEGER NOT NULL) {strict}",
        """CREATE TABLE pattern (
            digest {word} NOT NULL PRIMARY KEY,
            press {word} NOT NULL,
            item {word} NOT NULL,
            ending {word} NOT NULL CHECK (ending IN ('cured', 'handed over', 'left')),
            cured_by {word} NOT NULL,
            moves {word} NOT NULL
        ) {strict}""",
        """CREATE TABLE cases (
            id {word} NOT NULL PRIMARY KEY,
            ended {word} NOT NULL,
            pattern {word} NOT NULL REFERENCES pattern (digest),
            minutes {number} CHECK (minutes >= 0),
            spoilt INTEGER NOT NULL CHECK (spoilt >= 0),
            lost {number} CHECK (lost >= 0),
            knowledge {word} NOT NULL,
            source {word} NOT NULL,
            moves {word} NOT NULL
        ) {strict}""",
        "CREATE INDEX cases_in_time ON cases (ended, id)",
        "CREATE INDEX cases_alike ON cases (pattern, id)",
        """CREATE TABLE seen (
            pattern {word} NOT NULL REFERENCES pattern (digest),
            defect {word} NOT NULL,
            there INTEGER NOT NULL CHECK (there IN (0, 1)),
            PRIMARY KEY (pattern, defect)
        ) {strict}""",
        """CREATE TABLE answer (
            pattern {word} NOT NULL REFERENCES pattern (digest),
            asked {word} NOT NULL,
            outcome {word} NOT NULL,
            period INTEGER NOT NULL,
            PRIMARY KEY (pattern, asked)
        ) {strict}""",
        """CREATE TABLE tried (
            pattern {word} NOT NULL REFERENCES pattern (digest),
            number INTEGER NOT NULL,
            fix {word} NOT NULL,
            change {word} NOT NULL,
            PRIMARY KEY (pattern, number)
        ) {strict}""",
        """CREATE TABLE took (
            case_id {word} NOT NULL REFERENCES cases (id),
            step {word} NOT NULL,
            minutes {number} NOT NULL CHECK (minutes >= 0),
            PRIMARY KEY (case_id, step)
        ) {strict}""",
        "CREATE INDEX took_by_step ON took (step, minutes)",
    ),
    (  # figures that were measured
        """CREATE TABLE figure (
            pattern {word} NOT NULL REFERENCES pattern (digest),
            name {word} NOT NULL,
            period INTEGER NOT NULL,
            value {number} NOT NULL,
            PRIMARY KEY (pattern, name, period)
        ) {strict}""",
    ),
]

TYPES = {
    "sqlite": {"word": "TEXT", "number": "REAL", "strict": "STRICT"},
    "postgresql": {"word": 'TEXT COLLATE "C"', "number": "DOUBLE PRECISION", "strict": ""},
}


def version(connection: Connection, place: str) -> int:
    """The casebook's version, 0 where it is still empty. Raises PressloreError for a database of something else and
    for a version that this presslore does not know."""
    names = inspect(connection).get_table_names(schema=_schema(connection))
    if "book" not in names:
        if names:
            raise PressloreError(
                f"{place}: a database, but no casebook (it holds {names[0]}): name another with --book"
            )
        return 0
    found = connection.exec_driver_sql("SELECT version FROM book").scalar()
    if found is None or not 1 <= found <= len(MIGRATIONS):
        raise PressloreError(
            f"{place}: this casebook is of version {found}; this presslore knows up to {len(MIGRATIONS)} - it was "
            "written by a newer presslore: update this one. Nothing was changed"
        )
    return int(found)


def migrate(connection: Connection, place: str) -> None:
    """Bring the casebook to the newest version, within the transaction of this connection."""
    before = version(connection, place)
    if before == len(MIGRATIONS):  # another process may have done it meanwhile
        return
    types = TYPES[connection.dialect.name]
    _make_schema(connection)
    for statements in MIGRATIONS[before:]:
        for statement in statements:
            connection.exec_driver_sql(statement.format(**types))
    connection.exec_driver_sql("DELETE FROM book")
    connection.exec_driver_sql(f"INSERT INTO book (version) VALUES ({len(MIGRATIONS)})")


def _schema(connection: Connection) -> str | None:
    return SCHEMA if connection.dialect.name == "postgresql" else None


def _make_schema(connection: Connection) -> None:
    """On a server the casebook's tables stand apart from whatever else the database holds."""
    name = _schema(connection)
    if name and not inspect(connection).has_schema(name):
        connection.exec_driver_sql(f"CREATE SCHEMA {name}")
