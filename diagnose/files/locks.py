"""Keeps other processes out of a folder while its files are changed.

The lock is on the folder itself where the system can do that, and leaves nothing behind; elsewhere (network shares,
Windows) on a small hidden file in it. It ends with the process, however that ends.
"""

import os
import sys
import time
from collections.abc import Iterable, Iterator
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path

from diagnose.problems import PressloreError

LOCK_FILE = ".presslore.lock"
PATIENCE = 30.0  # seconds that a start waits for others: each holds the lock for some milliseconds
_PAUSE = 0.01


@contextmanager
def locked(folders: Iterable[Path], patience: float = PATIENCE) -> Iterator[None]:
    """Hold the locks of some folders, which must be there. Everybody takes them in one order, so none wait for each
    other. Raises PressloreError where another process keeps one for longer than ``patience`` seconds."""
    with ExitStack() as held:
        for folder in sorted({os.path.realpath(folder) for folder in folders}):
            held.callback(os.close, _lock(folder, time.monotonic() + patience))
        yield


def is_left_over(path: Path) -> bool:
    """Whether nobody holds a file that its writer locks while it lives: the writer was stopped."""
    try:
        handle = os.open(path, os.O_RDWR)
    except OSError:
        return False
    try:
        return try_lock(handle)
    finally:
        os.close(handle)


def try_lock(handle: int) -> bool:
    """Lock an open file or folder for this process alone; False where another has it. Raises OSError where the system
    cannot lock it."""
    if sys.platform == "win32":
        import msvcrt

        try:
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True
    import fcntl

    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    return True


def _lock(folder: str, until: float) -> int:
    for path, flags in ((folder, os.O_RDONLY), (os.path.join(folder, LOCK_FILE), os.O_RDWR | os.O_CREAT)):
        with suppress(OSError):  # the first way is not for every system
            handle = os.open(path, flags, 0o666)
            try:
                _wait(handle, folder, until)
            except BaseException:
                os.close(handle)
                raise
            return handle
    raise PressloreError(f"{folder}: this folder cannot be locked, so nothing was changed in it")


def _wait(handle: int, folder: str, until: float) -> None:
    while not try_lock(handle):
        if time.monotonic() > until:
            raise PressloreError(f"{folder}: another presslore is changing files here; nothing was written: try again")
        time.sleep(_PAUSE)
