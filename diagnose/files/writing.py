"""Writes files whole or not at all: another process, or whoever looks after the power failed, sees the old or the new.

New content is written to a hidden file in the same folder, forced to the disk and renamed. A file that a link leads
to is replaced where it lies; the link stays. Rights and owner stay those of the old file.
"""

import os
import re
import shutil
import sys
import time
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

from diagnose.files.locks import is_left_over, locked, try_lock
from diagnose.files.reading import read_if_there, reason
from diagnose.problems import Place, PressloreError, Problem

Content = bytes | Iterable[bytes]
Version = bytes | None  # the content of a file; None where there is none

_MEANWHILE = "changed-meanwhile"
BESIDE, PART = ".presslore-", ".part"
_OURS = re.compile(re.escape(BESIDE) + "[0-9a-f]{16}" + re.escape(PART))
PATIENCE = 2.0  # seconds
YOUNG = 60.0  # seconds for which a hidden file is taken to be somebody's work
_NEW = os.O_CREAT | os.O_EXCL | os.O_RDWR | getattr(os, "O_BINARY", 0) | getattr(os, "O_CLOEXEC", 0)


def copy_folder(folder: Path, target: Path) -> None:
    """Lay a copy of a folder into another one, without what somebody is about to write there: it may be gone again.
    Raises OSError and shutil.Error."""
    shutil.copytree(folder, target, dirs_exist_ok=True, ignore=shutil.ignore_patterns(f"{BESIDE}*{PART}"))


def write_over(path: Path, content: Content, *, may_replace: Callable[[Path], bool] | None = None) -> None:
    """Give a file this content, whether it is there or not. Its folder must be there.

    ``may_replace`` is asked about a file that is there already. Raises PressloreError where it says no and where the
    file cannot be written; then all is as before.
    """
    with _in_words(path):
        target = Path(os.path.realpath(path))
        if may_replace and os.path.lexists(target) and not (target.is_file() and may_replace(target)):
            wrong, expected = "something else is kept here, and is left alone", "a new name, or a file of the same kind"
            raise _error(path, "not-replaced", wrong, expected)
        fresh = beside(target, content)
        try:
            rename(fresh, target)
        except BaseException:
            _drop(fresh)
            raise
        settle([target.parent])


def write_new(path: Path, content: Content) -> None:
    """Write a file that is not there yet. Raises PressloreError where something has that name, be it made in the same
    moment, and where the file cannot be written."""
    with _in_words(path):
        path = Path(os.path.abspath(path))
        if os.path.lexists(path):
            raise _taken(path)
        fresh = beside(path, content)
        try:
            _name_new(fresh, path)
        except FileExistsError:
            raise _taken(path) from None
        finally:
            _drop(fresh)
        settle([path.parent])


def replace_all(files: Mapping[Path, tuple[Version, Version]]) -> None:
    """Give each path its new content in place of the old one it is known to have (None: no file).

    Everything is written beside its place and forced to the disk before the first is put there, under a lock on the
    folders, so that nobody's change comes between the look and the rename. Raises PressloreError where that fails or
    where a file is no longer as it was; then all are as before.
    """
    changes = {Path(os.path.realpath(path)): versions for path, versions in files.items() if versions[0] != versions[1]}
    folders = {path.parent for path in changes}
    with _in_words():
        for folder in folders:
            folder.mkdir(parents=True, exist_ok=True)
    with locked(folders), _in_words():
        _replace_locked(changes)


def changed_meanwhile(error: PressloreError) -> bool:
    """Whether ``replace_all`` gave up because a file was no longer as it was known: the change may be made anew."""
    return any(problem.code == _MEANWHILE for problem in error.problems)


def overtaken(path: Path) -> PressloreError:
    """The error for a file that somebody changed since it was looked at."""
    wrong = "somebody changed this file meanwhile; nothing was written"
    return _error(path, _MEANWHILE, wrong, "", "look at it, then do this again")


def beside(path: Path, content: Content) -> Path:
    """A finished file with the content in the folder of ``path``, hidden, with the rights the old one has.

    Raises OSError; then nothing is left. What an earlier writer left behind when it was stopped goes.
    """
    sweep(path.parent)
    fresh = path.parent / f"{BESIDE}{os.urandom(8).hex()}{PART}"
    handle = os.open(fresh, _NEW, 0o666)
    try:
        with os.fdopen(handle, "wb") as file:
            with suppress(OSError):  # where the system cannot lock it, its age alone protects it
                try_lock(handle)
            file.writelines([content] if isinstance(content, bytes) else content)
            file.flush()
            _as_before(path, handle)
            os.fsync(handle)
    except BaseException:
        _drop(fresh)
        raise
    return fresh


@contextmanager
def folder_beside(path: Path) -> Iterator[Path]:
    """An empty hidden folder where ``path`` stands, to be filled and renamed; gone afterwards where it was not. What
    an earlier writer left behind when it was stopped goes. Raises OSError."""
    sweep(path.parent)
    fresh = path.parent / f"{BESIDE}{os.urandom(8).hex()}{PART}"
    fresh.mkdir()
    try:
        with _held(fresh):
            yield fresh
    finally:
        _drop(fresh)


def sweep(folder: Path) -> None:
    """Remove the hidden files and folders of writers that were stopped. Those of a living one, or young ones, stay."""
    with suppress(OSError):
        for name in os.listdir(folder):
            path = folder / name
            if _OURS.fullmatch(name) and _is_old(path) and is_left_over(path):
                _drop(path)


def rename(fresh: Path, target: Path) -> None:
    """Give a file that is whole its name, in place of what has it. Raises OSError. On Windows nothing takes the place
    of a file while somebody reads it, which takes milliseconds: there it is tried again for a while."""
    until = time.monotonic() + PATIENCE
    while True:
        try:
            os.replace(fresh, target)
        except PermissionError:
            if sys.platform != "win32" or time.monotonic() > until:
                raise
            time.sleep(0.01)
        else:
            return


def settle(folders: Iterable[Path]) -> None:
    """Have folders remember the new names even if the power fails."""
    for folder in folders:
        with suppress(OSError):  # some systems cannot open a folder, or force it to the disk
            handle = os.open(folder, os.O_RDONLY)
            try:
                os.fsync(handle)
            finally:
                os.close(handle)


@contextmanager
def _in_words(path: Path | None = None) -> Iterator[None]:
    """Turn what the system says into the one error that reaches a person."""
    try:
        yield
    except (OSError, ValueError) as error:  # ValueError: a zero byte in the path
        name = path or getattr(error, "filename", None) or "the folder"
        wrong = f"cannot be written ({reason(error)})"
        raise _error(name, "not-written", wrong, "", "nothing was changed") from error


def _replace_locked(changes: Mapping[Path, tuple[Version, Version]]) -> None:
    ready: dict[Path, Path] = {}
    done: list[Path] = []
    try:
        for path, (old, new) in changes.items():
            if new is not None:
                ready[path] = beside(path, new)
            if read_if_there(path) != old:
                raise overtaken(path)
        for path in changes:
            done.append(path)
            _put(path, ready.get(path))
        settle({path.parent for path in changes})
    except BaseException:
        _take_back(changes, done)
        raise
    finally:
        for left in ready.values():
            _drop(left)


def _put(path: Path, ready: Path | None) -> None:
    if ready is None:
        path.unlink(missing_ok=True)
    else:
        rename(ready, path)


def _take_back(changes: Mapping[Path, tuple[Version, Version]], done: Iterable[Path]) -> None:
    for path in done:
        old, new = changes[path]
        with suppress(OSError, PressloreError):
            if read_if_there(path) == new:
                _put(path, None if old is None else beside(path, old))


def _name_new(fresh: Path, path: Path) -> None:
    """Give a finished file its name, never another's. Raises FileExistsError."""
    try:
        os.link(fresh, path)
    except FileExistsError:
        raise
    except OSError:  # a file system without hard links
        os.close(os.open(path, _NEW, 0o666))
        os.replace(fresh, path)


def _as_before(path: Path, handle: int) -> None:
    """Give an open file the rights and owner of the one it will replace, where there is one and the system lets us."""
    with suppress(OSError, AttributeError):
        old = path.stat()
        with suppress(OSError):
            os.fchown(handle, old.st_uid, old.st_gid)
        os.fchmod(handle, old.st_mode & 0o777)


def _is_old(path: Path) -> bool:
    return time.time() - path.lstat().st_mtime > YOUNG


@contextmanager
def _held(folder: Path) -> Iterator[None]:
    """Lock a folder for as long as its writer is at work, where the system can."""
    handle = None
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try_lock(handle)
    try:
        yield
    finally:
        if handle is not None:
            os.close(handle)


def _drop(path: Path) -> None:
    with suppress(OSError):
        if path.is_dir() and not path.is_symlink():
            shutil.rmtree(path, ignore_errors=True)
        else:
            path.unlink()


def _taken(path: Path) -> PressloreError:
    return _error(path, "name-taken", "something is kept here already", "a new name")


def _error(path: object, code: str, wrong: str, expected: str = "", hint: str = "") -> PressloreError:
    return PressloreError([Problem(place=Place(str(path)), code=code, wrong=wrong, expected=expected, hint=hint)])
