"""How a casebook comes to its newest version: one list of statements for each version, run in one transaction.

A version that was published is never changed; what is new is a version more. ``{word}`` and ``{number}`` are the
types of the database at hand, ``{strict}`` its way of refusing values of another type. What no statement can do is a
function, which the statements of its version have made ready for.
"""

from collections.abc import Callable, Sequence
from itertools import islice

from sqlalchemy import Connection, bindparam, inspect, text

from diagnose.casebook.store import schema as store_schema
from diagnose.casebook.store.faults import DAMAGED
from diagnose.casebook.store.seals import seal
from diagnose.characters import stripped
from diagnose.problems import PressloreError

SCHEMA = "presslore"  # of the tables on a server that holds other things as well
AT_ONCE = 500  # cases that are sealed together


def _seal_all(connection: Connection) -> None:
    """Version 3: every case that is there is sealed as it stands; one whose id is no text is left unsealed."""
    some = text("SELECT * FROM cases WHERE id IN :ids").bindparams(bindparam("ids", expanding=True))
    timed = text("SELECT * FROM took WHERE case_id IN :ids").bindparams(bindparam("ids", expanding=True))
    kept = text("UPDATE cases SET digest = :seal WHERE id = :of")
    every = connection.scalars(text("SELECT id FROM cases ORDER BY id")).all()
    ids = iter([one for one in every if isinstance(one, str) and stripped(one) == one])
    while lot := list(islice(ids, AT_ONCE)):
        took: dict[str, dict[str, float]] = {one: {} for one in lot}
        for row in connection.execute(timed, {"ids": lot}).mappings():
            took[row["case_id"]][row["step"]] = row["minutes"]
        rows = connection.execute(some, {"ids": lot}).mappings().all()
        connection.execute(kept, [{"of": row["id"], "seal": seal(row, took[row["id"]])} for row in rows])


MIGRATIONS: list[Sequence[str | Callable[[Connection], None]]] = [
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
    (  # a seal on every case, which a flipped byte breaks
        "ALTER TABLE cases ADD COLUMN digest {word} NOT NULL DEFAULT ''",
        _seal_all,
    ),
]

TYPES = {
    "sqlite": {"word": "TEXT", "number": "REAL", "strict": "STRICT"},
    "postgresql": {"word": 'TEXT COLLATE "C"', "number": "DOUBLE PRECISION", "strict": ""},
}


def version(connection: Connection, place: str) -> int:
    """The casebook's version, 0 where it is still empty. Raises PressloreError for a database of something else, for a
    version that this presslore does not know, and for a file that holds anything but what a casebook holds."""
    if connection.dialect.name == "sqlite":
        return _version_of_file(connection, place)
    names = inspect(connection).get_table_names(schema=SCHEMA)
    if "book" not in names:
        if names:
            raise PressloreError(f"{place}: {store_schema.no_casebook(names[0])}")
        return 0
    return _known(_told(connection), place)


def _version_of_file(connection: Connection, place: str) -> int:
    """What stands in a file is compared before any of it is read: a view or a trigger could be anything."""
    there = store_schema.there(connection)
    if not there:
        return 0
    plans = [_plan(number) for number in range(1, len(MIGRATIONS) + 1)]
    if not store_schema.has_book(there, plans):
        raise PressloreError(f"{place}: {store_schema.no_casebook(store_schema.first_name(there))}")
    told = _known(_told(connection), place)
    if odd := store_schema.difference(there, plans[told - 1]):
        raise PressloreError(f"{place}: {odd}")
    return told


def _plan(number: int) -> store_schema.Schema:
    """What a file of a version holds."""
    steps = [step for steps in MIGRATIONS[:number] for step in steps if isinstance(step, str)]
    return store_schema.made_by(tuple(step.format(**TYPES["sqlite"]) for step in steps))


def _told(connection: Connection) -> object:
    found: object = connection.exec_driver_sql("SELECT version FROM book").scalar()
    return found


def _known(found: object, place: str) -> int:
    if not isinstance(found, int):
        raise PressloreError(f"{place}: {DAMAGED}")
    if not 1 <= found <= len(MIGRATIONS):
        raise PressloreError(
            f"{place}: this casebook is of version {found}; this presslore knows up to {len(MIGRATIONS)} - it was "
            "written by a newer presslore: update this one. Nothing was changed"
        )
    return found


def migrate(connection: Connection, place: str) -> None:
    """Bring the casebook to the newest version, within the transaction of this connection."""
    before = version(connection, place)
    if before == len(MIGRATIONS):  # another process may have done it meanwhile
        return
    types = TYPES[connection.dialect.name]
    _make_schema(connection)
    for statements in MIGRATIONS[before:]:
        for step in statements:
            if isinstance(step, str):
                connection.exec_driver_sql(step.format(**types))
            else:
                step(connection)
    connection.exec_driver_sql("DELETE FROM book")
    connection.exec_driver_sql(f"INSERT INTO book (version) VALUES ({len(MIGRATIONS)})")


def _schema(connection: Connection) -> str | None:
    return SCHEMA if connection.dialect.name == "postgresql" else None


def _make_schema(connection: Connection) -> None:
    """On a server the casebook's tables stand apart from whatever else the database holds."""
    name = _schema(connection)
    if name and not inspect(connection).has_schema(name):
        connection.exec_driver_sql(f"CREATE SCHEMA {name}")
