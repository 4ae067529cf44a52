"""Loading while the person reads and types: the first question need not wait for the knowledge."""

from __future__ import annotations

from threading import Thread
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

    from diagnose.cli.shop.shelf import Shelf
    from diagnose.reasoning.words import Lexicon


class Ahead:
    """Starts loading at once, in the background; ``ready`` waits for the end of it. ``shop``: the one named, if any."""

    def __init__(self, shop: Path | None = None) -> None:
        self._shop = shop
        self._found: tuple[Shelf, Lexicon] | None = None
        self._failed: BaseException | None = None
        self._thread = Thread(target=self._load, daemon=True)
        self._thread.start()

    def ready(self) -> tuple[Shelf, Lexicon]:
        """What there is to work with and the lexicon of its words. Raises what the loading raised (PressloreError)."""
        self._thread.join()
        if self._failed is not None:
            raise self._failed
        assert self._found is not None
        return self._found

    def _load(self) -> None:
        try:
            from diagnose.cli.diagnosis import consulting
            from diagnose.cli.shop import shelf
            from diagnose.reasoning.words import lexicon

            found = shelf.at(self._shop)
            self._found = (found, lexicon(found.knowledge))
            assert consulting
        except BaseException as error:  # handed over to whoever waits
            self._failed = error
