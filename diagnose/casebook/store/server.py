"""Reaches a PostgreSQL server, and gives it up where it does not answer: nobody at a press waits for ever."""

from collections.abc import Generator
from time import monotonic
from typing import Any, TypeVar

import psycopg
from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.engine import URL

from diagnose.casebook.store.faults import SILENT
from diagnose.casebook.store.migrations import SCHEMA
from diagnose.problems import PressloreError

LOCK = 7277350195  # one writer at a time, as with a file
LIMITS = {"lock_timeout": 0.8, "statement_timeout": 0.9}  # shares of the wait: the server gives up first and says why

Result = TypeVar("Result")


def server_engine(url: URL, wait: float, writes: str, place: str) -> Engine:
    """The engine of a server's address. Nothing that is asked of it takes longer than ``wait`` seconds without a word
    from the server. ``writes`` is the option of a connection that marks who writes."""
    usual = _settings(wait)
    engine = create_engine(url, connect_args={key: value for key, value in usual.items() if key not in url.query})

    @event.listens_for(engine, "do_connect")
    def _connect(_: Any, __: Any, positional: Any, named: Any) -> "Patient":
        return _reach(wait, place, *positional, **named)

    @event.listens_for(engine, "begin")
    def _begin(connection: Connection) -> None:
        if connection.get_execution_options().get(writes):
            connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({LOCK})")

    return engine


def _settings(wait: float) -> dict[str, Any]:
    """How a connection is made and kept; what the address says itself comes first."""
    return {
        "application_name": "presslore",
        "client_encoding": "UTF8",
        "connect_timeout": max(2, min(10, int(wait))),
        "keepalives": 1,
        "keepalives_idle": max(1, int(wait / 3)),
        "keepalives_interval": max(1, int(wait / 6)),
        "keepalives_count": 3,
        "tcp_user_timeout": int(wait * 1000),
    }


def _reach(wait: float, place: str, *positional: Any, **named: Any) -> "Patient":
    connection = Patient.connect(*positional, **named)
    connection.patience = wait
    try:
        _settle(connection, wait, place)
    except BaseException:
        connection.close()
        raise
    return connection


def _settle(connection: "Patient", wait: float, place: str) -> None:
    if connection.info.parameter_status("server_encoding") == "SQL_ASCII":  # takes any bytes for text
        raise PressloreError(
            f"{place}: this database keeps text as SQL_ASCII, which tells no letters apart from bytes; expected UTF8 - "
            "make one: createdb --template=template0 --encoding=UTF8 NAME"
        )
    with connection.cursor() as cursor:
        cursor.execute(f"SET search_path TO {SCHEMA}")
        for name, share in LIMITS.items():
            cursor.execute(f"SET {name} TO {int(wait * share * 1000)}")
    connection.commit()


class Patient(psycopg.Connection[Any]):
    """A connection that waits so many seconds for an answer and no longer; then it is closed, for what the server
    would still say belongs to a question that nobody asks any more."""

    patience = 30.0

    def wait(self, gen: Any, *more: Any, **named: Any) -> Any:
        try:
            return super().wait(_in_time(gen, self.patience), *more, **named)
        except _Silent as error:
            self.pgconn.finish()
            raise psycopg.OperationalError(SILENT) from error


class _Silent(Exception):
    """The time is over."""


def _in_time(waiting: Generator[Any, Any, Result], patience: float) -> Generator[Any, Any, Result]:
    """The same steps; the driver wakes them now and then, with nothing in hand where the server said nothing."""
    until = monotonic() + patience
    try:
        wanted = next(waiting)
        while True:
            ready = yield wanted
            if not ready and monotonic() > until:
                raise _Silent
            wanted = waiting.send(ready)
            if ready:
                until = monotonic() + patience
    except StopIteration as done:
        result: Result = done.value
        return result
