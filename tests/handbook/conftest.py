"""The whole handbook, built once for all tests, also where several processes run them."""

import fcntl
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from diagnose.handbook import building
from diagnose.handbook.book import Handbook
from diagnose.handbook.site import site
from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from tests.handbook.chromium import chromium


@pytest.fixture(scope="session")
def known() -> Knowledge:
    return load()


@pytest.fixture(scope="session")
def book(known: Knowledge) -> Handbook:
    return Handbook(known)


@pytest.fixture(scope="session")
def files(known: Knowledge) -> dict[str, bytes]:
    """Every file that mkdocs is given."""
    root = shipped_folder()
    return site(known, Shop(), building.read_changes(root), building.read_docs(root))


@pytest.fixture(scope="session")
def whole(files: dict[str, bytes], tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the built site."""
    own = tmp_path_factory.getbasetemp()
    shared = own.parent if own.name.startswith("popen-") else own
    folder = shared / "whole-handbook"
    with (shared / "whole-handbook.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not (folder / "site").is_dir():
            building.write(folder / "pages", files)
            building.build(shipped_folder(), folder / "site", folder / "pages")
    return folder / "site"


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    with chromium() as window:
        yield window
