"""Puts several files in place of their old versions: all of them or none, and never over somebody else's change."""

import os
import tempfile
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from diagnose.problems import PressloreError

Version = bytes | None  # the content of a file; None where there is none


def replace_all(files: Mapping[Path, tuple[Version, Version]]) -> None:
    """Give each path its new content in place of the old one it is known to have (None: no file).

    Everything is written beside its place and forced to the disk before the first is put there. Raises PressloreError
    where that fails or where a file is no longer as it was; then all are as before.
    """
    changes = {Path(os.path.realpath(path)): versions for path, versions in files.items() if versions[0] != versions[1]}
    ready: dict[Path, Path] = {}
    done: list[Path] = []
    try:
        for path, (_, new) in changes.items():
            path.parent.mkdir(parents=True, exist_ok=True)
            if new is not None:
                ready[path] = _beside(path, new)
        for path, (old, _) in changes.items():
            if content(path) != old:
                raise PressloreError(
                    f"{path}: somebody changed this file meanwhile; nothing was written: look at it, then do this again"
                )
        for path in changes:
            done.append(path)
            _put(path, ready.get(path))
        _settle(changes)
    except BaseException as error:
        _take_back(changes, done)
        if isinstance(error, OSError):
            raise PressloreError(
                f"{error.filename or 'the folder'}: cannot be written ({error.strerror}); nothing was changed"
            ) from error
        raise
    finally:
        for left in ready.values():
            left.unlink(missing_ok=True)


def _beside(path: Path, content: bytes) -> Path:
    """A finished file with the content beside its place, with the rights that the old one has."""
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}-")
    with os.fdopen(handle, "wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
    umask = os.umask(0)
    os.umask(umask)
    os.chmod(name, path.stat().st_mode & 0o777 if path.exists() else 0o666 & ~umask)
    return Path(name)


def content(path: Path) -> Version:
    """What the file holds now. Raises PressloreError where it cannot be read."""
    try:
        return path.read_bytes()
    except FileNotFoundError:
        return None
    except OSError as error:
        raise PressloreError(f"{path}: cannot be read ({error.strerror})") from error


def _put(path: Path, ready: Path | None) -> None:
    if ready is None:
        path.unlink(missing_ok=True)
    else:
        os.replace(ready, path)


def _take_back(changes: Mapping[Path, tuple[Version, Version]], done: list[Path]) -> None:
    for path in done:
        old, new = changes[path]
        with suppress(OSError, PressloreError):
            if content(path) == new:
                _put(path, None if old is None else _beside(path, old))


def _settle(paths: Mapping[Path, object]) -> None:
    """Have the folders remember the new names even if the power fails."""
    for folder in {path.parent for path in paths}:
        with suppress(OSError):  # some systems cannot force a folder to the disk
            handle = os.open(folder, os.O_RDONLY)
            try:
                os.fsync(handle)
            finally:
                os.close(handle)
