"""Puts a folder that presslore made in its place, where nothing of anybody else's is lost by it.

Such a folder carries a mark. Only an empty folder, or one with the mark, ever gives way; a new one is made beside it,
whole, and then the two change places.
"""

import os
import re
import sys
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from shutil import rmtree
from tempfile import mkdtemp
from typing import BinaryIO

from diagnose import __version__
from diagnose.files.locks import is_left_over, locked, try_lock
from diagnose.files.reading import read_if_there, reason
from diagnose.files.writing import settle
from diagnose.problems import Place, PressloreError, Problem

MARK = ".presslore-made"
_SIGN = "presslore made this folder"
SAYS = f"""\
{_SIGN} (version {__version__}) and replaces it whole, with all that is in it.
Keep nothing of your own here. Where this file is gone, presslore leaves the folder alone.
"""
PRECIOUS = ("shop.yaml", "rules", "kb", "casebook.sqlite3", ".git")  # no folder that presslore makes holds these
SOURCES = (
    "rules",
    "kb",
    "docs",
    "diagnose",
    "tests",
    ".git",
)  # nothing is built into these folders of a shop or checkout
_NEW, _OLD = "new", "old"
_EXCHANGE, _HERE = 2, -100  # Linux: have two names change places; names as seen from where one stands


def is_marked(folder: Path) -> bool:
    """Whether presslore made a folder and may replace it."""
    mark = folder / MARK
    if mark.is_symlink():
        return False
    try:
        return (read_if_there(mark, most=2000) or b"").startswith(_SIGN.encode())
    except PressloreError:
        return False


def mark(folder: Path) -> None:
    """Put the mark into a folder. One that is there is not written again: that could be stopped halfway."""
    if not is_marked(folder):
        (folder / MARK).write_text(SAYS, encoding="utf-8")


def prove(target: Path, kept: Iterable[Path] = ()) -> None:
    """Raises PressloreError where ``target`` may not be replaced: it is a link, no folder, holds what presslore did not
    make, or is one of the folders to be ``kept`` (a shop's, the checkout), a part of one or a folder round it."""
    with _in_words(target):
        if target.is_symlink():
            raise _refusal(target, "this is a link", "a folder", "name the folder that it leads to")
        if os.path.lexists(target) and not target.is_dir():
            raise _refusal(target, "something else than a folder is kept here", "a folder that is new or empty")
        _prove_place(_real(target), [Path(os.path.realpath(folder)) for folder in kept])
        _prove_content(target)


@contextmanager
def replacing(target: Path, kept: Iterable[Path] = ()) -> Iterator[Path]:
    """A folder beside ``target`` to be filled; afterwards it stands in its place, marked. Where filling it fails, all
    is as before; whenever the process is stopped, the old folder or the new one is there.

    Raises PressloreError as ``prove`` does, and where the system refuses.
    """
    kept = [*kept]
    prove(target, kept)
    target = _real(target)
    fresh, held = _begin(target)
    try:
        yield fresh
        _finish(fresh, held, target, kept)
    finally:
        held.close()
        _drop(fresh)


def _begin(target: Path) -> tuple[Path, BinaryIO]:
    """A new marked folder beside another, and its mark, held open: so nobody takes it for one left behind."""
    with _in_words(target):
        target.parent.mkdir(parents=True, exist_ok=True)
        with locked([target.parent]):
            _recover(target)
            fresh = Path(mkdtemp(prefix=_beside(target, _NEW), dir=target.parent))
            mark(fresh)
            held = (fresh / MARK).open("r+b")
            with suppress(OSError):  # where nothing can be locked, nothing is taken for left behind either
                try_lock(held.fileno())
            return fresh, held


def _finish(fresh: Path, held: BinaryIO, target: Path, kept: Iterable[Path]) -> None:
    """Put a filled folder in its place."""
    with _in_words(target), locked([target.parent]):
        prove(target, kept)
        held.close()  # Windows neither writes a file that is held nor renames the folder round it
        mark(fresh)
        fresh.chmod(0o777 & ~_umask())
        _swap(fresh, target)
        settle([target.parent])


def _prove_place(target: Path, kept: Iterable[Path]) -> None:
    """Raises PressloreError where a folder is not to be replaced whatever it holds."""
    home = Path(os.path.realpath(os.path.expanduser("~")))
    for folder, what in ((home, "your home folder"), *((folder, "a shop or the checkout") for folder in kept)):
        if any(_same(target, one) for one in (folder, *folder.parents)):
            raise _refusal(target, f"{what} is here or below", "a folder of its own")
    for folder in kept:
        for part in SOURCES:
            if any(_same(folder / part, one) for one in (target, *target.parents)):
                raise _refusal(target, f"this lies in {folder / part}", "a folder of its own")


def _prove_content(folder: Path) -> None:
    """Raises PressloreError where a folder holds what presslore did not make."""
    held = set(os.listdir(folder)) if folder.is_dir() else set()
    if precious := sorted(held & set(PRECIOUS)):
        wrong = f"{precious[0]} is kept here, and this folder would be replaced"
        raise _refusal(folder, wrong, "a folder that is new or empty")
    if held and not is_marked(folder):
        wrong = f"this is not empty, and presslore did not make it (no {MARK} in it)"
        hint = "if an older presslore built it, delete it and build again"
        raise _refusal(folder, wrong, "a folder that is new, empty or built by presslore", hint)


def _same(one: Path, other: Path) -> bool:
    try:
        return os.path.samefile(one, other)
    except OSError:
        return one == other


def _real(target: Path) -> Path:
    """The folder's path without links: the folder itself is none."""
    whole = Path(os.path.abspath(target))
    return Path(os.path.realpath(whole.parent)) / whole.name if whole.name else whole


def _swap(fresh: Path, target: Path) -> None:
    """Put a folder in the place of another. The other lies where the first was, or is gone."""
    if not target.exists():
        os.rename(fresh, target)
    elif not _exchanged(fresh, target):
        _swap_by_turns(fresh, target)


def _exchanged(one: Path, other: Path) -> bool:
    """Have two names change places in one step. False where the system cannot."""
    if not sys.platform.startswith("linux"):
        return False
    import ctypes

    rename = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None)
    return rename is not None and rename(_HERE, os.fsencode(one), _HERE, os.fsencode(other), _EXCHANGE) == 0


def _swap_by_turns(fresh: Path, target: Path) -> None:
    old = Path(mkdtemp(prefix=_beside(target, _OLD), dir=target.parent))
    old.rmdir()
    try:
        os.rename(target, old)
        os.rename(fresh, target)
    except BaseException:
        if old.exists() and not target.exists():
            os.rename(old, target)
        raise
    _drop(old)


def _beside(target: Path, kind: str) -> str:
    return f".{target.name}.presslore-{kind}-"


def _recover(target: Path) -> None:
    """Sweep away what builds that were stopped left beside a folder; an old one comes back where nothing took its
    place."""
    pattern = re.compile(re.escape(f".{target.name}.presslore-") + rf"({_NEW}|{_OLD})-[a-z0-9_]{{8}}")
    for name in sorted(os.listdir(target.parent)):
        left, found = target.parent / name, pattern.fullmatch(name)
        if not found or left.is_symlink() or not left.is_dir():
            continue
        held = os.listdir(left)
        if not held:
            left.rmdir()
        elif not (is_marked(left) or held == [MARK]) or not is_left_over(left / MARK):
            continue
        elif found[1] == _OLD and not os.path.lexists(target):
            os.rename(left, target)
        else:
            _drop(left)


def _umask() -> int:
    mask = os.umask(0o077)
    os.umask(mask)
    return mask


def _drop(folder: Path) -> None:
    """Remove a folder, its mark last: what is left where this is stopped can still be told by it."""
    with suppress(OSError):
        for path in sorted(folder.iterdir(), key=lambda path: path.name == MARK):
            if path.is_dir() and not path.is_symlink():
                rmtree(path, ignore_errors=True)
            else:
                path.unlink()
        folder.rmdir()


@contextmanager
def _in_words(folder: Path) -> Iterator[None]:
    try:
        yield
    except (OSError, ValueError) as error:  # ValueError: a zero byte in the path
        hint = "close what shows or uses it, or name another folder"
        raise _refusal(folder, f"cannot be built here ({reason(error)})", "", hint) from error


def _refusal(folder: Path, wrong: str, expected: str, hint: str = "") -> PressloreError:
    said = f"nothing was changed; {hint}" if hint else "nothing was changed"
    problem = Problem(place=Place(str(folder)), code="not-replaced", wrong=wrong, expected=expected, hint=said)
    return PressloreError([problem])
