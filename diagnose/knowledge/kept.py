"""Files kept in the cache folder: sealed, written whole or not at all, the oldest making room.

A file holds one line with the digest of the rest, then the rest: JSON. Whatever is wrong with a file or its
folder, nothing is ever an error for the person at the press.
"""

import gc
import json
import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from hashlib import blake2b
from pathlib import Path
from typing import Any

from diagnose.problems import PressloreError

KEPT = 8
FOREIGN = (OSError, ValueError, TypeError, KeyError, IndexError, AttributeError, RecursionError)


def usual_folder() -> Path | None:
    """$PRESSLORE_CACHE, else ``presslore`` in the user's folder for caches; None where there is neither."""
    if chosen := os.environ.get("PRESSLORE_CACHE"):
        return Path(chosen)
    if caches := os.environ.get("XDG_CACHE_HOME") or os.environ.get("LOCALAPPDATA"):
        return Path(caches) / "presslore"
    try:
        return Path.home() / ".cache" / "presslore"
    except RuntimeError:  # a user without a home
        return None


def read(path: Path) -> Any:
    """What was kept in a file. Raises one of ``FOREIGN`` where there is nothing that can be trusted."""
    seal, _, body = path.read_bytes().partition(b"\n")
    if seal != _seal(body):
        raise ValueError("not sealed")
    return json.loads(body)


def write(path: Path, value: Any, others: str) -> None:
    """Keep a value, whole or not at all; of the files that match ``others`` the oldest make room."""
    from diagnose.files.writing import write_over  # not wanted where all is kept already

    with suppress(OSError, PressloreError):
        body = json.dumps(value, ensure_ascii=False, separators=(",", ":")).encode()
        path.parent.mkdir(parents=True, exist_ok=True)
        write_over(path, _seal(body) + b"\n" + body)
        _forget_oldest(path.parent, others)


def digest_of_code(here: Path) -> str:
    """A digest of the code and schemas in a folder: what another version made is never read."""
    state = blake2b(digest_size=16)
    for path in sorted([*here.rglob("*.py"), *here.rglob("*.json")]):
        state.update(path.relative_to(here).as_posix().encode() + b"\n" + path.read_bytes())
    return state.hexdigest()


@contextmanager
def without_collector() -> Iterator[None]:
    """Building thousands of objects at once goes a third faster while nothing looks for garbage."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _seal(body: bytes) -> bytes:
    return blake2b(body, digest_size=16).hexdigest().encode()


def _forget_oldest(folder: Path, pattern: str) -> None:
    kept = sorted(folder.glob(pattern), key=lambda path: path.stat().st_mtime)
    for path in kept[:-KEPT]:
        path.unlink(missing_ok=True)
