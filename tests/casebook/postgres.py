"""A PostgreSQL server of the tests' own: made in a folder, reached by a socket in it, gone afterwards."""

import os
import pwd
import shutil
import signal
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path

from sqlalchemy import create_engine

INSTALL = "PostgreSQL is not installed; on Debian: apt-get install postgresql"
NOBODY = ("postgres", "nobody")  # whoever of these there is runs the server where the tests run as root
HASTE = "-c fsync=off -c full_page_writes=off -c max_connections=40"  # the data need not outlive the tests


@dataclass(frozen=True)
class Server:
    """A running server. ``fresh`` makes a new database and gives its address."""

    folder: Path
    user: str
    _numbers: Iterator[int] = field(default_factory=lambda: count(1))

    def address(self, name: str) -> str:
        return f"postgresql+psycopg://{self.user}@/{name}?host={self.folder}"

    def fresh(self, how: str = "") -> str:
        name = f"book{next(self._numbers)}"
        engine = create_engine(self.address("postgres"), isolation_level="AUTOCOMMIT")
        with engine.connect() as connection:
            connection.exec_driver_sql(f"CREATE DATABASE {name} {how}")
        engine.dispose()
        return self.address(name)

    @contextmanager
    def frozen(self) -> Iterator[None]:
        """All its processes stand still, as on a machine that hangs: connections stay, nothing answers."""
        first = (self.folder / "data" / "postmaster.pid").read_text(encoding="ascii").split()[0]
        processes = [int(first)]
        os.kill(processes[0], signal.SIGSTOP)
        children = Path(f"/proc/{first}/task/{first}/children").read_text(encoding="ascii").split()
        try:
            for child in map(int, children):
                with suppress(ProcessLookupError):  # it ended of itself meanwhile
                    os.kill(child, signal.SIGSTOP)
                    processes.append(child)
            yield
        finally:
            for process in processes:
                with suppress(ProcessLookupError):
                    os.kill(process, signal.SIGCONT)


def program(name: str) -> str | None:
    """The path of one of PostgreSQL's programs, None where it is not installed."""
    found = sorted(Path("/usr/lib/postgresql").glob(f"*/bin/{name}"))
    return shutil.which(name) or (str(found[-1]) if found else None)


@contextmanager
def server() -> Iterator[Server]:
    """A server that runs until the end of the block. ``program("initdb")`` must be there."""
    initdb, pg_ctl = program("initdb"), program("pg_ctl")
    assert initdb is not None, INSTALL
    assert pg_ctl is not None, INSTALL
    folder = Path(tempfile.mkdtemp(prefix="presslore-pg-"))
    user = _user()
    try:
        if os.getuid() == 0:
            os.chown(folder, user.pw_uid, user.pw_gid)
        data = folder / "data"
        _run(user, [initdb, "-D", data, "--auth=trust", "--encoding=UTF8", "--locale=C.UTF-8", "--no-sync"])
        options = f"-c listen_addresses= -c unix_socket_directories={folder} {HASTE}"
        _run(user, [pg_ctl, "-D", data, "-l", folder / "log", "-w", "-o", options, "start"])
        try:
            yield Server(folder, user.pw_name)
        finally:
            _run(user, [pg_ctl, "-D", data, "-m", "immediate", "-w", "stop"])
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _user() -> pwd.struct_passwd:
    """Who runs the server: never root, which PostgreSQL refuses."""
    if os.getuid() != 0:
        return pwd.getpwuid(os.getuid())
    known = {entry.pw_name: entry for entry in pwd.getpwall()}
    return next(known[name] for name in NOBODY if name in known)


def _run(user: pwd.struct_passwd, command: list[str | Path]) -> None:
    who = {"user": user.pw_uid, "group": user.pw_gid, "extra_groups": []} if os.getuid() == 0 else {}
    with tempfile.TemporaryFile("w+") as said:  # a pipe would stay open as long as the server runs
        done = subprocess.run(command, stdout=said, stderr=subprocess.STDOUT, cwd="/", env=_calm(), **who)  # type: ignore[call-overload]
        said.seek(0)
        assert done.returncode == 0, said.read()


def _calm() -> dict[str, str]:
    return {name: value for name, value in os.environ.items() if not name.startswith("PG")}
