"""The names of casebooks that were put aside, and of what SQLite keeps beside a file while it is open."""

import io
import os
import re
import sys
import time
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path

from diagnose.problems import PressloreError

DAY = 86_400.0  # seconds
SIDECARS = ("-wal", "-shm", "-journal")
_JOURNAL = b"\xd9\xd5\x05\xf9\x20\xa1\x63\xd7"  # how SQLite's journal begins
_HEAD = 28  # bytes: how it begins, how often, a number of chance, pages before, two sizes


def beside(file: Path) -> list[Path]:
    """What lies beside a file that SQLite takes for part of it, whether the file itself is there or not."""
    return [path for end in SIDECARS if os.path.lexists(path := file.with_name(file.name + end))]


def name_aside(file: Path) -> Path:
    """A name for what a file holds by now, before something else takes its place."""
    stamp = datetime.now(UTC).strftime("%Y%m%dT%H%M%S%f")
    return file.with_name(f"{file.stem}.before-{stamp}{file.suffix}")


def put_aside(file: Path) -> list[Path]:
    """The casebooks that were put aside from this place, the newest last."""
    named = re.compile(rf"{re.escape(file.stem)}\.before-\d{{8}}T\d{{12}}{re.escape(file.suffix)}")
    try:
        return sorted(path for path in file.parent.iterdir() if named.fullmatch(path.name))
    except OSError:
        return []


def holds_something(file: Path) -> bool:
    """Whether there is a file with anything in it."""
    try:
        return file.stat().st_size > 0
    except OSError:
        return False


def refuse_to_begin(file: Path) -> None:
    """Raises PressloreError where no new casebook may begin at a place: what SQLite kept beside one, or one that was
    put aside, lies there alone."""
    target = Path(os.path.realpath(file)) if file.is_symlink() else file
    if holds_something(target):
        return
    if left := [path.name for path in _left_alone(target)]:
        raise PressloreError(
            f"{file}: the casebook's file is {'empty' if target.exists() else 'gone'}, but {' and '.join(left)} still "
            "lies beside it and may hold its cases: put the file back that belongs to it; or put a backup in its "
            "place, which moves this aside: presslore cases restore BACKUP --force. Nothing was changed"
        )
    if kept := put_aside(target):
        raise PressloreError(
            f"{file}: there is no casebook here, but {kept[-1].name} was put aside from this place - put it back: "
            f"presslore cases restore {kept[-1]}; or move it elsewhere to begin a new one"
        )


def refuse_foreign_journal(file: Path) -> None:
    """Raises PressloreError where something else lies under the name of the file's journal: SQLite would delete it."""
    target = Path(os.path.realpath(file))
    journal = target.with_name(f"{target.name}-journal")
    head = _head(journal)
    if head[:1].strip(b"\0") and not head.startswith(_JOURNAL):
        raise PressloreError(
            f"{journal}: this stands where SQLite keeps the journal of {target.name}, and is none: move it elsewhere. "
            "Nothing was changed"
        )


def _left_alone(target: Path) -> list[Path]:
    """What may hold something of a casebook whose file is empty or gone. Opening such a file deletes it."""
    log, journal = (target.with_name(target.name + end) for end in ("-wal", "-journal"))
    head = _head(journal)
    begun = head[:8] in (_JOURNAL, bytes(8)) and not any(head[16:20]) and any(head[24:])  # there were no pages before
    return [path for path, counts in ((log, True), (journal, not begun)) if counts and holds_something(path)]


def _head(path: Path) -> bytes:
    """How a plain file begins; nothing where there is none, or it cannot be read."""
    try:
        with path.open("rb") if path.is_file() else io.BytesIO() as file:
            return file.read(_HEAD)
    except OSError:
        return b""


def sweep(target: Path) -> None:
    """Remove what others were writing beside the target when they were killed."""
    named = re.compile(rf"\.{re.escape(target.name)}\.(\d+)\.(?:new|old)(?:{'|'.join(SIDECARS)})?")
    with suppress(OSError):
        for path in target.parent.iterdir():
            found = named.fullmatch(path.name)
            if found and not _lives(int(found[1]), path):
                path.unlink(missing_ok=True)


def _lives(process: int, left: Path) -> bool:
    """Whether another process of this number runs: what our own left, one of the same number before it left. On
    Windows a process cannot be asked (``os.kill`` would stop it): what is younger than a day is taken to be its own."""
    if process == os.getpid():
        return False
    if sys.platform == "win32":
        return time.time() - left.lstat().st_mtime < DAY
    try:
        os.kill(process, 0)
    except (ProcessLookupError, OverflowError):
        return False
    except OSError:  # somebody else's
        return True
    return True
