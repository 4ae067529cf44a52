"""Reads a file that somebody gave: a plain file only, up to a limit, or a clear error."""

import os
import stat
from io import BufferedReader
from pathlib import Path
from typing import BinaryIO

from diagnose.problems import Place, PressloreError, Problem

MOST_BYTES = 20_000_000
_FLAGS = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0) | getattr(os, "O_CLOEXEC", 0)
_KINDS = {
    stat.S_IFDIR: "a folder",
    stat.S_IFIFO: "a pipe",
    stat.S_IFSOCK: "a socket",
    stat.S_IFCHR: "a device",
    stat.S_IFBLK: "a device",
}


def read(path: Path, *, most: int = MOST_BYTES, shown: str = "") -> bytes:
    """What a plain file holds, at most ``most`` bytes.

    Raises PressloreError where there is none, where it is a folder, a pipe or a device (opening one never waits),
    where it is larger, or where it cannot be read. ``shown`` is how the error names the file.
    """
    content = read_if_there(path, most=most, shown=shown)
    if content is None:
        raise _error(shown or str(path), "no-file", "this is not there", "a file")
    return content


def read_if_there(path: Path, *, most: int = MOST_BYTES, shown: str = "") -> bytes | None:
    """The same, but None where nothing is there."""
    name = shown or str(path)
    file = _opened(path, name)
    if file is None:
        return None
    with file:
        try:
            if os.fstat(file.fileno()).st_size > most:
                raise too_large(name, most)
            return read_stream(file, shown=name, most=most)
        except OSError as error:
            raise _unreadable(name, error) from error


def opened(path: Path, *, shown: str = "") -> BufferedReader:
    """A plain file, open to be read bit by bit. Raises PressloreError as ``read`` does, whatever its size."""
    file = _opened(path, shown or str(path))
    if file is None:
        raise _error(shown or str(path), "no-file", "this is not there", "a file")
    return file


def read_stream(stream: BinaryIO, *, shown: str, most: int = MOST_BYTES) -> bytes:
    """All that comes through a stream, as standard input. Raises PressloreError where that is more than ``most``."""
    content = stream.read(most + 1)
    if len(content) > most:
        raise too_large(shown, most)
    return content


def decoded(content: bytes, shown: str) -> str:
    """UTF-8 bytes as text, without a mark at their beginning. Raises PressloreError with the line of the first bad
    byte."""
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        place = Place(shown, line, 1)
        hint = "save the file as UTF-8 in your editor"
        raise PressloreError(
            [Problem(place=place, code="not-utf-8", wrong="bytes that are no UTF-8 text", expected="UTF-8", hint=hint)]
        ) from None


def place_of(error: BaseException | None, shown: str) -> Place:
    """Where a file is no JSON, by the error that reading it gave; the file as a whole where that tells of none."""
    line, column = getattr(error, "lineno", 0), getattr(error, "colno", 0)
    return Place(shown, line, column) if isinstance(line, int) and isinstance(column, int) else Place(shown)


def too_large(shown: str, most: int) -> PressloreError:
    """The error for a file of more than ``most`` bytes."""
    return _error(shown, "file-size", "this is too large", f"at most {most:,} bytes")


def reason(error: Exception) -> str:
    """Why the system refused, in its own words."""
    return getattr(error, "strerror", None) or str(error)


def _opened(path: Path, name: str) -> BufferedReader | None:
    """A plain file, None where nothing is there. Opening it waits for nobody."""
    try:
        handle = os.open(path, _FLAGS)
    except FileNotFoundError:
        return None
    except (OSError, ValueError) as error:  # ValueError: a zero byte in the path
        if isinstance(error, OSError) and os.path.isdir(path):  # Windows opens none
            raise _error(name, "no-plain-file", "this is a folder", "a plain file") from None
        raise _unreadable(name, error) from error
    mode = os.fstat(handle).st_mode
    if stat.S_ISREG(mode):
        return os.fdopen(handle, "rb")
    os.close(handle)
    raise _error(name, "no-plain-file", f"this is {_KINDS.get(stat.S_IFMT(mode), 'no plain file')}", "a plain file")


def _unreadable(name: str, error: Exception) -> PressloreError:
    return _error(name, "unreadable-file", f"cannot be read ({reason(error)})")


def _error(name: str, code: str, wrong: str, expected: str = "") -> PressloreError:
    return PressloreError([Problem(place=Place(name), code=code, wrong=wrong, expected=expected)])
