"""Loads knowledge from its folders: from the cache where nothing has changed, else the long way."""

from dataclasses import dataclass
from pathlib import Path

from diagnose.knowledge import cache
from diagnose.knowledge.folders import SHOP_FILE, Folder, read_folders, shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Stock
from diagnose.problems import Collector, PressloreError, Problem

__all__ = ["SHOP_FILE", "inspect", "load", "load_shop", "look_over", "shipped_folder"]


def load(*folders: Path, cache_dir: Path | None = None) -> Knowledge:
    """The knowledge in some folders, each holding ``kb/`` and ``rules/``, the later laid over the earlier.

    Without a folder, what ships is loaded. ``cache_dir`` is where compiled knowledge is kept (None: the usual
    place). Raises PressloreError with every problem there is.
    """
    found = Collector()
    read = read_folders(folders or (shipped_folder(),), found)
    found.raise_if_any()
    store = cache.Cache(cache_dir or cache.usual_folder(), read)
    stock = store.read()
    if stock is None or stock.left_out:
        stock = _compile(read, found)
        found.raise_if_any()
        if stock is not None:
            store.write(stock)
    if stock is None:
        raise PressloreError("The knowledge could not be put together.")
    return stock.knowledge


def load_shop(shop: Path, shipped: Path | None = None, cache_dir: Path | None = None) -> Stock:
    """A shop's folder (or its shop.yaml) laid over what ships, without those of its files that do not serve.

    Raises PressloreError only where what ships is itself at fault.
    """
    found = Collector()
    below, own = read_folders((shipped or shipped_folder(), shop), found)
    store = cache.Cache(cache_dir or cache.usual_folder(), (below, own))
    stock = None if found else store.read()
    if stock is None:
        from diagnose.knowledge.laying.leaving_out import stock_without_broken

        stock = stock_without_broken(below, own, list(found))
        if not found:
            store.write(stock)
    return stock


def inspect(*folders: Path) -> tuple[Knowledge | None, list[Problem]]:
    """What some folders hold and what is wrong with it, in the order of the files. Never raises.

    Knowledge comes back in spite of problems where they leave neither gaps nor loose ends. The cache is left
    alone.
    """
    seen = look_over(*folders)
    return (seen.stock.knowledge if seen.stock else None), list(seen.found)


@dataclass(frozen=True, slots=True)
class Look:
    """What some folders hold (None where it cannot be relied on), what is wrong with it, and the files, as a reader
    finds them, of all folders but the first."""

    stock: Stock | None
    found: Collector
    own: frozenset[str]


def look_over(*folders: Path) -> Look:
    """The same as ``inspect``, with all that was found out."""
    found = Collector()
    read = read_folders(folders or (shipped_folder(),), found, all_ways=True)
    return Look(_compile(read, found), found, frozenset(file.shown for folder in read[1:] for file in folder.files))


def _compile(folders: tuple[Folder, ...], found: Collector) -> Stock | None:
    from diagnose.knowledge.laying.compiling import compile_stock  # brings yaml and jsonschema, 130 ms of imports

    return compile_stock(folders, found)
