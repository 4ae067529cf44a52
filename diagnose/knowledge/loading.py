"""Loads knowledge from its folders: from the cache where nothing has changed, else the long way."""

from pathlib import Path

from diagnose.knowledge import cache
from diagnose.knowledge.folders import Folder, read_folders, shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.problems import Collector, PressloreError, Problem

__all__ = ["inspect", "load", "shipped_folder"]


def load(*folders: Path, cache_dir: Path | None = None) -> Knowledge:
    """The knowledge in some folders, each holding ``kb/`` and ``rules/``, the later laid over the earlier.

    Without a folder, what ships is loaded. ``cache_dir`` is where compiled knowledge is kept (None: the usual
    place). Raises PressloreError with every problem there is.
    """
    found = Collector()
    read = read_folders(folders or (shipped_folder(),), found)
    found.raise_if_any()
    store = cache.Cache(cache_dir or cache.usual_folder(), read)
    knowledge = store.read()
    if knowledge is None:
        knowledge = _compile(read, found)
        found.raise_if_any()
        if knowledge is not None:
            store.write(knowledge)
    if knowledge is None:
        raise PressloreError("The knowledge could not be put together.")
    return knowledge


def inspect(*folders: Path) -> tuple[Knowledge | None, list[Problem]]:
    """What some folders hold and everything that is wrong with it, in the order of the files. Never raises.

    Knowledge comes back in spite of problems where they leave neither gaps nor loose ends. The cache is left
    alone.
    """
    found = Collector()
    knowledge = _compile(read_folders(folders or (shipped_folder(),), found), found)
    return knowledge, list(found)


def _compile(folders: tuple[Folder, ...], found: Collector) -> Knowledge | None:
    from diagnose.knowledge.compiling import (
        compile_knowledge,
    )  # brings yaml and jsonschema, 130 ms of imports

    return compile_knowledge(folders, found)
