"""Runs presslore with what Windows lacks or forbids taken away: ``python -m tests.windows rules check``.

There is no POSIX-only module, no folder can be opened, no process asked whether it lives, and no file or folder that is
open is renamed, replaced or deleted. Paths stay those of this system: a path of Windows cannot be walked elsewhere.
"""

import errno
import os
import sys
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any

NOT_THERE = ("fcntl", "grp", "pwd", "resource", "termios", "tty")
NO_CALLS = ("chown", "execve", "fchmod", "fchown", "fork", "getegid", "geteuid", "getgid", "getuid", "kill", "killpg")
NO_FLAGS = ("O_CLOEXEC", "O_DIRECTORY", "O_NOFOLLOW", "O_NONBLOCK")
IN_USE = "is being used by another process"


def pretend() -> None:
    """Make this process as much one on Windows as can be. What asks at its import which system this is has been
    imported before."""
    import fcntl

    locking = msvcrt(fcntl.flock, fcntl.LOCK_EX | fcntl.LOCK_NB)
    for name in NOT_THERE:
        sys.modules[name] = None  # type: ignore[assignment]
    sys.modules["msvcrt"] = locking
    sys.platform = "win32"
    for name in (*NO_CALLS, *NO_FLAGS):
        if hasattr(os, name):
            delattr(os, name)
    kept_from: dict[str, Callable[[Any], object]] = {"open": no_folder, "rename": rename, "replace": replace}
    for name, forbidden in {**kept_from, "unlink": gone, "remove": gone}.items():
        setattr(os, name, forbidden(getattr(os, name)))


def msvcrt(lock: Callable[[int, int], None], way: int) -> ModuleType:
    """The one call of Windows that is made in its place."""

    def locking(handle: int, mode: int, size: int) -> None:
        assert (mode, size) == (2, 1)
        lock(handle, way)  # BlockingIOError is an OSError, which is what Windows raises

    module = ModuleType("msvcrt")
    module.LK_NBLCK, module.locking = 2, locking  # type: ignore[attr-defined]
    return module


def no_folder(real: Callable[..., int]) -> Callable[..., int]:
    def opened(path: Any, *how: Any, **named: Any) -> int:
        if "dir_fd" not in named and os.path.isdir(path):
            raise PermissionError(errno.EACCES, "Permission denied", str(path))
        return real(path, *how, **named)

    return opened


def rename(real: Callable[..., None]) -> Callable[..., None]:
    def renamed(old: Any, new: Any) -> None:
        if os.path.lexists(new):
            raise FileExistsError(errno.EEXIST, "Cannot create a file when that file already exists", str(new))
        refuse(old)
        real(old, new)

    return renamed


def replace(real: Callable[..., None]) -> Callable[..., None]:
    def replaced(old: Any, new: Any) -> None:
        if os.path.isdir(new):
            raise PermissionError(errno.EACCES, "Access is denied", str(new))
        refuse(old, new)
        real(old, new)

    return replaced


def gone(real: Callable[..., None]) -> Callable[..., None]:
    def unlinked(path: Any, **named: Any) -> None:
        if "dir_fd" not in named:
            refuse(path)
        real(path, **named)

    return unlinked


def refuse(*paths: Any) -> None:
    """Raise PermissionError where this process has one of these, or what lies in it, open."""
    open_now = {Path(os.path.realpath(f"/proc/self/fd/{handle}")) for handle in os.listdir("/proc/self/fd")}
    for path in paths:
        whole = Path(os.path.realpath(path))
        if any(whole in (one, *one.parents) for one in open_now):
            raise PermissionError(errno.EACCES, IN_USE, str(path))


if __name__ == "__main__":
    import asyncio  # noqa: F401 - as the others, asks at its import which system this is
    import multiprocessing.connection
    import multiprocessing.popen_spawn_posix  # noqa: F401
    import shutil  # noqa: F401
    import subprocess  # noqa: F401
    import tempfile

    import click  # noqa: F401
    import jsonschema  # noqa: F401
    import numpy  # noqa: F401
    import sqlalchemy.dialects.sqlite  # noqa: F401

    tempfile.gettempdir()
    pretend()
    from diagnose.cli.program import run

    sys.exit(run(sys.argv[1:]))
