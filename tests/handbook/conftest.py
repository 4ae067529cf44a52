"""The whole handbook, built once for all tests, also where several processes run them."""

import fcntl
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from diagnose.handbook import building
from diagnose.handbook.book import Handbook
from diagnose.handbook.site import site
from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from tests.handbook.chromium import chromium, two_pages

Shared = Callable[[str, Callable[[Path], object]], Path]


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
def shared(tmp_path_factory: pytest.TempPathFactory) -> Shared:
    """Make a folder once, also where several processes run the tests: by its name and what fills it."""
    own = tmp_path_factory.getbasetemp()
    top = own.parent if own.name.startswith("popen-") else own

    def make(name: str, fill: Callable[[Path], object]) -> Path:
        folder, mark = top / name, top / f"{name}.whole"
        with (top / f"{name}.lock").open("w") as lock:
            fcntl.flock(lock, fcntl.LOCK_EX)
            if not mark.exists():
                shutil.rmtree(folder, ignore_errors=True)  # what another process did not end
                fill(folder)
                mark.touch()
        return folder

    return make


@pytest.fixture(scope="session")
def whole(request: pytest.FixtureRequest, shared: Shared) -> Path:
    """The folder of the built site."""

    def fill(folder: Path) -> None:
        building.write(folder / "pages", request.getfixturevalue("files"))
        building.build(shipped_folder(), folder / "site", folder / "pages")

    return shared("whole-handbook", fill) / "site"


@pytest.fixture(scope="session")
def two(book: Handbook, shared: Shared) -> Path:
    """The folder of a built site of two pages, to be read only."""
    pytest.importorskip("material", reason="mkdocs-material is not installed")
    return shared("two-pages", lambda folder: two_pages(book, folder)) / "site"


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    with chromium() as window:
        yield window
