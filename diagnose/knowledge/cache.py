"""Compiled knowledge kept as JSON, under a digest of everything it was made from.

A file holds one line with the digest of the rest, then the rest. Whatever is wrong with a file or its folder,
the knowledge is simply compiled again: nothing here is ever an error for the person at the press.
"""

import gc
import json
import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from functools import lru_cache
from hashlib import blake2b
from pathlib import Path

from diagnose.knowledge.codec import decode, encode
from diagnose.knowledge.folders import Folder, digest
from diagnose.knowledge.model import Knowledge

KEPT = 8
_NAME = "knowledge-{}.json"
_FOREIGN = (OSError, ValueError, TypeError, KeyError, IndexError, AttributeError, RecursionError)


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


class Cache:
    """The place of one set of folders' compiled knowledge in a cache folder (None: nothing is kept)."""

    def __init__(self, folder: Path | None, sources: Sequence[Folder]) -> None:
        self._files = tuple(file.shown for source in sources for file in source.files)
        key = blake2b((digest(sources) + code_digest()).encode(), digest_size=16).hexdigest()
        self.path = folder / _NAME.format(key) if folder else None

    def read(self) -> Knowledge | None:
        """The knowledge kept earlier; None where there is none, or none that can be trusted."""
        if self.path is None:
            return None
        try:
            seal, _, body = self.path.read_bytes().partition(b"\n")
            if seal != _seal(body):
                return None
            with _without_collector():
                return decode(Knowledge, json.loads(body), self._files)
        except _FOREIGN:
            return None

    def write(self, knowledge: Knowledge) -> None:
        """Keep the knowledge, whole or not at all; the oldest of the files kept earlier make room."""
        if self.path is None:
            return
        numbers = {name: number for number, name in enumerate(self._files)}
        with suppress(OSError, KeyError):
            body = json.dumps(encode(knowledge, numbers), ensure_ascii=False, separators=(",", ":")).encode()
            _write_whole(self.path, _seal(body) + b"\n" + body)
            _forget_oldest(self.path.parent)


@lru_cache
def code_digest() -> str:
    """A digest of this floor's own code and schemas: what another version compiled is never read."""
    state = blake2b(digest_size=16)
    here = Path(__file__).parent
    for path in sorted([*here.rglob("*.py"), *here.rglob("*.json")]):
        state.update(path.relative_to(here).as_posix().encode() + b"\n" + path.read_bytes())
    return state.hexdigest()


def _seal(body: bytes) -> bytes:
    return blake2b(body, digest_size=16).hexdigest().encode()


def _write_whole(path: Path, data: bytes) -> None:
    """Write beside the file, then rename: another process sees the old file or the new one, never a part."""
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(f"{path.name}.{os.getpid()}-{os.urandom(4).hex()}")
    try:
        beside.write_bytes(data)
        os.replace(beside, path)
    finally:
        beside.unlink(missing_ok=True)


def _forget_oldest(folder: Path) -> None:
    kept = sorted(folder.glob(_NAME.format("*")), key=lambda path: path.stat().st_mtime)
    for path in kept[:-KEPT]:
        path.unlink(missing_ok=True)


@contextmanager
def _without_collector() -> Iterator[None]:
    """Building thousands of objects at once goes a third faster while nothing looks for garbage."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
