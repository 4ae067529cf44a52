"""Compiled knowledge, with the shop it was laid over for, kept as JSON under a digest of everything it was made from.

Whatever is wrong with what was kept, the knowledge is simply compiled again.
"""

from collections.abc import Sequence
from contextlib import suppress
from functools import lru_cache
from hashlib import blake2b
from pathlib import Path

from diagnose.knowledge import kept
from diagnose.knowledge.codec import decode, encode
from diagnose.knowledge.folders import Folder, digest
from diagnose.knowledge.kept import KEPT, usual_folder
from diagnose.knowledge.shop import Stock

__all__ = ["KEPT", "Cache", "code_digest", "usual_folder"]

_NAME = "knowledge-{}.json"


class Cache:
    """The place of one set of folders' compiled knowledge in a cache folder (None: nothing is kept)."""

    def __init__(self, folder: Path | None, sources: Sequence[Folder]) -> None:
        self._files = tuple(file.shown for source in sources for file in source.files)
        key = blake2b((digest(sources) + code_digest()).encode(), digest_size=16).hexdigest()
        self.path = folder / _NAME.format(key) if folder else None

    def read(self) -> Stock | None:
        """The stock kept earlier; None where there is none, or none that can be trusted."""
        if self.path is None:
            return None
        try:
            with kept.without_collector():
                return decode(Stock, kept.read(self.path), self._files)
        except kept.FOREIGN:
            return None

    def write(self, stock: Stock) -> None:
        """Keep the stock, whole or not at all; the oldest of the files kept earlier make room."""
        if self.path is not None:
            numbers = {name: number for number, name in enumerate(self._files)}
            with suppress(KeyError):
                kept.write(self.path, encode(stock, numbers), _NAME.format("*"))


@lru_cache
def code_digest() -> str:
    """A digest of this floor's own code and schemas: what another version compiled is never read."""
    return kept.digest_of_code(Path(__file__).parent)
