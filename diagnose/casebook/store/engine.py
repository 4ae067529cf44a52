"""Opens the database behind a casebook: a SQLite file, or a PostgreSQL server by its address."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from time import monotonic, sleep
from typing import Any
from urllib.parse import quote

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError, OperationalError
from sqlalchemy.pool import QueuePool, StaticPool

from diagnose.casebook.store import address, aside
from diagnose.casebook.store.faults import PERHAPS_KEPT, in_plain_words
from diagnose.files.locks import locked
from diagnose.problems import PressloreError

MOUNTS = Path("/proc/mounts")
NETWORK = {
    "9p", "afs", "afpfs", "beegfs", "ceph", "cifs", "davfs", "davfs2", "gfs2", "glusterfs", "lustre", "ncpfs", "nfs",
    "nfs4", "ocfs2", "smb2", "smb3", "smbfs",
}  # fmt: skip
HIDDEN = {"fuse.sshfs", "fuse.davfs2", "fuse.rclone", "fuse.glusterfs", "fuse.ceph", "fuse.s3fs", "fuse.gvfsd-fuse"}


WAIT = 30.0  # seconds that a writer waits for others, and anybody for a server's answer
LARGEST = 4_000_000  # bytes of a value; a case takes some hundreds
WRITES = "presslore_writes"
SETTINGS = ("foreign_keys = ON", "synchronous = FULL", "trusted_schema = OFF", "cell_size_check = ON")


@dataclass(frozen=True, slots=True)
class Database:
    """``place`` names it to a person, without a password. ``path``: the file, None for a server. ``frozen``: it can
    be read only. ``warning``: what speaks against keeping it here, "" where nothing does. ``hidden``: what no message
    may show."""

    engine: Engine
    place: str
    path: Path | None = None
    frozen: bool = False
    warning: str = ""
    hidden: tuple[str, ...] = field(default=(), repr=False)

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """A transaction that sees one state of the casebook, whatever others write meanwhile. Nothing can be written
        in it, whatever a file may hold."""
        with in_plain_words(self.place, self.hidden), self.engine.connect() as connection:
            if self.path is None:
                connection.execution_options(isolation_level="REPEATABLE READ")
            with connection.begin():
                yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """A transaction that writes: kept whole at its end, or not at all. One at a time; others wait."""
        with in_plain_words(self.place, self.hidden), self.engine.connect() as connection:
            connection.execution_options(**{WRITES: True})
            transaction = connection.begin()
            with transaction:
                yield connection
                with self._perhaps_kept():
                    transaction.commit()

    def share(self) -> None:
        """Let go of a file that could be opened alone only, so that another connection comes to it."""
        with self.reading() as connection:
            alone = connection.exec_driver_sql("PRAGMA locking_mode").scalar() == "exclusive"
        if alone:
            self.engine.dispose()

    @contextmanager
    def _perhaps_kept(self) -> Iterator[None]:
        """Where a server goes silent over the last word, nobody knows which way it went."""
        try:
            yield
        except OperationalError as error:
            if self.path is not None or getattr(error.orig, "sqlstate", None):
                raise
            raise PressloreError(f"{self.place}: {PERHAPS_KEPT}") from error

    def keep_journal(self) -> None:
        """Set how a file is kept safe while it is written: by a log beside it, which needs memory that all writers
        share, or on a network share by a plain journal."""
        if self.path is None or self.frozen:
            return
        with in_plain_words(self.place), self.engine.connect() as connection:
            raw = connection.connection.driver_connection
            assert isinstance(raw, sqlite3.Connection)
            keep_journal(raw, "DELETE" if self.warning else "WAL", WAIT)


def database(where: str | Path) -> Database:
    """The database of a casebook: the path of a SQLite file, or an address such as
    ``postgresql+psycopg://user@host/name``. Raises PressloreError for any other address."""
    text = str(where)
    if not address.is_server(text):
        return _file(Path(where))
    shown = address.shown(text)
    if not address.is_plain(text):
        raise PressloreError(f"{shown}: this address has an @ too many; in a password write %40 for it, %2F for a /")
    try:
        url = make_url(text)
    except (ArgumentError, ValueError) as error:
        raise PressloreError(f"{shown}: no address of a casebook; expected {address.EXPECTED}") from error
    if url.get_backend_name() == "sqlite" and url.database:
        return _file(Path(url.database))
    if url.drivername not in ("postgresql", "postgres", "postgresql+psycopg"):
        raise PressloreError(f"{shown}: no database that a casebook can be kept in; expected {address.EXPECTED}")
    return _server(url.set(drivername="postgresql+psycopg"), shown, address.secrets(text))


def _file(path: Path) -> Database:
    path = path.absolute()
    if os.path.isdir(path):
        raise PressloreError(f"{path}: a folder; expected the file of a casebook, as {path / 'casebook.sqlite3'}")
    frozen = is_frozen(path)
    share = network_share(path)
    engine = create_engine("sqlite://", creator=lambda: _connect(path, frozen), poolclass=QueuePool)
    _begin_by_ourselves(engine)
    warning = f"{path} lies on a network share ({share}), where a file's locks cannot be trusted. {ON_A_SHARE}"
    return Database(engine, str(path), path, frozen, warning if share else "")


@contextmanager
def beginning(found: Database) -> Iterator[None]:
    """Keep everybody else from beginning a casebook in this file's folder, or from putting one there, until it is
    begun. Raises PressloreError."""
    assert found.path is not None
    target = Path(os.path.realpath(found.path))
    with locked([target.parent] if target.parent.is_dir() else []):
        aside.refuse_to_begin(found.path)
        if not os.path.exists(target):
            with in_plain_words(found.place):
                connected(target, "mode=rwc").close()
        yield


def around(connection: sqlite3.Connection, path: Path) -> Database:
    """The database of a connection that is open already, and stays so."""
    engine = create_engine("sqlite://", creator=lambda: connection, poolclass=StaticPool)
    _begin_by_ourselves(engine)
    return Database(engine, str(path), path)


def _begin_by_ourselves(engine: Engine) -> None:
    @event.listens_for(engine, "begin")
    def _begin(connection: Connection) -> None:
        writes = connection.get_execution_options().get(WRITES)
        connection.exec_driver_sql(f"PRAGMA query_only = {'OFF' if writes else 'ON'}")
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


def is_frozen(path: Path) -> bool:
    """Whether there is a file that can be read only."""
    return os.path.exists(path) and not (_writable(path) and _writable(path.parent))


def _writable(path: Path) -> bool:
    return os.access(path, os.W_OK, effective_ids=os.access in os.supports_effective_ids)


ON_A_SHARE = "Keep the casebook on a disk of this machine, or on a PostgreSQL server if several sites share it."


def _connect(path: Path, frozen: bool) -> sqlite3.Connection:
    """A connection that begins no transaction by itself."""
    return connected(path, frozen_way(path) if frozen else "mode=rw", WAIT)


def frozen_way(path: Path) -> str:
    """How a file is opened in a folder that cannot be written to: SQLite can only read one that nobody else is
    writing to."""
    return "mode=ro" if path.with_name(f"{path.name}-wal").exists() else "immutable=1"


def connected(path: Path, how: str = "mode=rw", wait: float = WAIT) -> sqlite3.Connection:
    """A connection to a file that may come from anybody: nothing that stands in it is run, no value in it is larger
    than ``LARGEST``. Where the disk is too full for the memory that is shared with others, it has the file alone."""
    try:
        return _connection(path, how, wait, shared=True)
    except sqlite3.OperationalError as error:
        if not error.sqlite_errorname.startswith("SQLITE_IOERR_SHM"):
            raise
        return _connection(path, how, wait, shared=False)


def _connection(path: Path, how: str, wait: float, *, shared: bool) -> sqlite3.Connection:
    connection = sqlite3.connect(
        f"file:{quote(str(path))}?{how}", uri=True, timeout=wait, isolation_level=None, check_same_thread=False
    )
    connection.setlimit(sqlite3.SQLITE_LIMIT_LENGTH, LARGEST)
    connection.setlimit(sqlite3.SQLITE_LIMIT_ATTACHED, 0)
    if hasattr(connection, "setconfig"):  # from Python 3.12 on
        connection.setconfig(sqlite3.SQLITE_DBCONFIG_DEFENSIVE, True)  # type: ignore[attr-defined]
    connection.text_factory = _text
    try:
        for setting in (*(() if shared else ("locking_mode = EXCLUSIVE",)), *SETTINGS):
            connection.execute(f"PRAGMA {setting}")
    except BaseException:
        connection.close()
        raise
    return connection


def _text(kept: bytes) -> str:
    """A text as it stands in the file. Bytes that are no text stay marked, so that they spoil their own row only."""
    return kept.decode("utf-8", "surrogateescape")


def keep_journal(connection: sqlite3.Connection, kind: str, wait: float) -> None:
    """Set how the file is kept safe while it is written. SQLite does not wait here for others who have it open at the
    same moment, so that this does, for so many seconds. Raises sqlite3.OperationalError after them."""
    until = monotonic() + wait
    while True:
        try:
            connection.execute(f"PRAGMA journal_mode = {kind}")
        except sqlite3.OperationalError as error:
            if error.sqlite_errorcode & 0xFF != sqlite3.SQLITE_BUSY or monotonic() > until:
                raise
            sleep(0.01)
        else:
            return


def _server(url: Any, place: str, hidden: tuple[str, ...]) -> Database:
    try:
        from diagnose.casebook.store.server import server_engine

        with in_plain_words(place, hidden):
            engine = server_engine(url, WAIT, WRITES, place)
    except ImportError as error:
        raise PressloreError(
            f"{place}: a casebook on a server needs psycopg - install it: pip install 'presslore[postgres]'"
        ) from error
    return Database(engine, place, hidden=hidden)


def network_share(path: Path) -> str:
    """The kind of network share that a file lies on, "" where it lies on none or nothing can be told."""
    try:
        mounts = MOUNTS.read_text(encoding="utf-8", errors="replace")
    except OSError:
        return ""
    kind = kind_of(path.resolve(), mounts)
    return kind if kind in NETWORK | HIDDEN else ""


def kind_of(path: Path, mounts: str) -> str:
    """The kind of file system that holds a path, by a table of mounts as Linux shows it: the deepest mount counts,
    and of several at one place the last."""
    deepest, kind = -1, ""
    for line in mounts.splitlines():
        _, at, found, *_ = [*line.split(), "", "", ""]
        folder = Path(_spelt_out(at)) if at else None
        if folder and path.is_relative_to(folder) and len(folder.parts) >= deepest:
            deepest, kind = len(folder.parts), found
    return kind


def _spelt_out(text: str) -> str:
    """The table writes blanks and backslashes as octal numbers."""
    for code, letter in ((r"\040", " "), (r"\011", "\t"), (r"\012", "\n"), (r"\134", "\\")):
        text = text.replace(code, letter)
    return text
