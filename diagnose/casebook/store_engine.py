"""Opens the database behind a casebook: a SQLite file, or a PostgreSQL server by its address."""

import os
import re
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from time import monotonic, sleep
from typing import Any
from urllib.parse import quote

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError
from sqlalchemy.pool import QueuePool

from diagnose.casebook.store_faults import in_plain_words
from diagnose.casebook.store_share import network_share
from diagnose.problems import PressloreError

WAIT = 30.0  # seconds that a writer waits for others
SCHEMA = "presslore"  # of the tables on a server that holds other things as well
LOCK = 7277350195  # one writer at a time on a server, as with a file
WRITES = "presslore_writes"


@dataclass(frozen=True, slots=True)
class Database:
    """``place`` names it to a person, without a password. ``path``: the file, None for a server. ``frozen``: it can
    be read only. ``warning``: what speaks against keeping it here, "" where nothing does."""

    engine: Engine
    place: str
    path: Path | None = None
    frozen: bool = False
    warning: str = ""

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """A transaction that sees one state of the casebook, whatever others write meanwhile."""
        with in_plain_words(self.place), self.engine.connect() as connection:
            if self.path is None:
                connection.execution_options(isolation_level="REPEATABLE READ")
            with connection.begin():
                yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """A transaction that writes: kept whole at its end, or not at all. One at a time; others wait."""
        with in_plain_words(self.place), self.engine.connect() as connection:
            connection.execution_options(**{WRITES: True})
            with connection.begin():
                yield connection


def database(where: str | Path) -> Database:
    """The database of a casebook: the path of a SQLite file, or an address such as
    ``postgresql+psycopg://user@host/name``. Raises PressloreError for any other address."""
    text = str(where)
    if "://" not in text:
        return _file(Path(where))
    try:
        url = make_url(text)
    except ArgumentError as error:
        shown = re.sub(r"(?<=//)[^/@]*@", "", text)  # it may hold a password
        raise PressloreError(f"{shown}: no address of a casebook; expected {ADDRESSES}") from error
    if url.get_backend_name() == "sqlite" and url.database:
        return _file(Path(url.database))
    if url.drivername not in ("postgresql", "postgres", "postgresql+psycopg"):
        raise PressloreError(f"{url.drivername}: no database that a casebook can be kept in; expected {ADDRESSES}")
    return _server(url.set(drivername="postgresql+psycopg"))


ADDRESSES = "the path of a file, or postgresql+psycopg://USER@HOST/DATABASE"


def _file(path: Path) -> Database:
    path = path.absolute()
    if os.path.isdir(path):
        raise PressloreError(f"{path}: a folder; expected the file of a casebook, as {path / 'casebook.sqlite3'}")
    frozen = os.path.exists(path) and not (_writable(path) and _writable(path.parent))
    share = network_share(path)
    engine = create_engine("sqlite://", creator=lambda: _connect(path, frozen), poolclass=QueuePool)
    journal = "DELETE" if share else "WAL"  # WAL needs memory that all writers share

    @event.listens_for(engine, "connect")
    def _settle(connection: sqlite3.Connection, _: Any) -> None:
        for setting in ("foreign_keys = ON", "synchronous = FULL", "trusted_schema = OFF", "cell_size_check = ON"):
            connection.execute(f"PRAGMA {setting}")
        if not frozen:
            _keep_journal(connection, journal)

    @event.listens_for(engine, "begin")
    def _begin(connection: Connection) -> None:
        writes = connection.get_execution_options().get(WRITES)
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")

    warning = f"{path} lies on a network share ({share}), where a file's locks cannot be trusted. {ON_A_SHARE}"
    return Database(engine, str(path), path, frozen, warning if share else "")


def _writable(path: Path) -> bool:
    return os.access(path, os.W_OK, effective_ids=os.access in os.supports_effective_ids)


ON_A_SHARE = "Keep the casebook on a disk of this machine, or on a PostgreSQL server if several sites share it."


def _connect(path: Path, frozen: bool) -> sqlite3.Connection:
    """A connection that begins no transaction by itself. In a folder that cannot be written to, SQLite can only read
    a file that nobody else is writing to."""
    how = "mode=rwc"
    if frozen:
        how = "mode=ro" if path.with_name(f"{path.name}-wal").exists() else "immutable=1"
    address = f"file:{quote(str(path))}?{how}"
    connection = sqlite3.connect(address, uri=True, timeout=WAIT, isolation_level=None, check_same_thread=False)
    connection.text_factory = _text
    return connection


def _text(kept: bytes) -> str:
    """A text as it stands in the file. Bytes that are no text stay marked, so that they spoil their own row only."""
    return kept.decode("utf-8", "surrogateescape")


def _keep_journal(connection: sqlite3.Connection, kind: str) -> None:
    """Set how the file is kept safe while it is written. SQLite does not wait here for others who open it at the
    same moment, so that this does."""
    until = monotonic() + WAIT
    while True:
        try:
            connection.execute(f"PRAGMA journal_mode = {kind}")
        except sqlite3.OperationalError as error:
            if error.sqlite_errorcode & 0xFF != sqlite3.SQLITE_BUSY or monotonic() > until:
                raise
            sleep(0.01)
        else:
            return


def _server(url: Any) -> Database:
    place = url.render_as_string(hide_password=True)
    try:
        settings = {"connect_timeout": 10, "application_name": "presslore"}
        engine = create_engine(url, connect_args=settings)
    except ImportError as error:
        raise PressloreError(
            f"{place}: a casebook on a server needs psycopg - install it: pip install 'presslore[postgres]'"
        ) from error

    @event.listens_for(engine, "connect")
    def _settle(connection: Any, _: Any) -> None:
        with connection.cursor() as cursor:
            cursor.execute(f"SET search_path TO {SCHEMA}")
        connection.commit()

    @event.listens_for(engine, "begin")
    def _begin(connection: Connection) -> None:
        if connection.get_execution_options().get(WRITES):
            connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({LOCK})")

    return Database(engine, place)
