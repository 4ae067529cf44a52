"""The whole handbook, built once for all tests, also where several processes run them."""

import fcntl
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from diagnose.casebook.report.report import Report
from diagnose.casebook.store.casebook import open_book
from diagnose.casebook.store.importing import read_files
from diagnose.cli.handbook import cases
from diagnose.cli.shop.shelf import Shelf
from diagnose.handbook import building
from diagnose.handbook.book import Handbook
from diagnose.handbook.site import site
from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from tests.handbook.chromium import as_new, chromium, two_pages

HARBOUR = Path(__file__).parents[1] / "casebook" / "harbour.jsonl"
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
def harbour(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A shop's folder with cases."""
    folder = tmp_path_factory.mktemp("harbour")
    (folder / "shop.yaml").write_text("name: The harbour workshop\ncurrency: EUR\n", encoding="utf-8")
    with open_book(folder / "casebook.sqlite3") as book:
        book.add(read_files([HARBOUR]))
    return folder


@pytest.fixture(scope="session")
def found(harbour: Path, known: Knowledge) -> Report:
    """What the cases of that shop add up to."""
    result = cases(Shelf(knowledge=known, folder=harbour), harbour)
    assert result is not None
    return result


@pytest.fixture(scope="session")
def with_cases(known: Knowledge, found: Report) -> dict[str, bytes]:
    """Every file that mkdocs is given for that shop."""
    root = shipped_folder()
    return site(known, Shop(currency="EUR"), building.read_changes(root), building.read_docs(root), found)


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
    """The folder of the built site, of a shop with cases."""

    def fill(folder: Path) -> None:
        building.write(folder / "pages", request.getfixturevalue("with_cases"))
        building.build(shipped_folder(), folder / "site", folder / "pages")

    return shared("whole-handbook", fill) / "site"


@pytest.fixture(scope="session")
def two(book: Handbook, shared: Shared) -> Path:
    """The folder of a built site of two pages, to be read only."""
    pytest.importorskip("material", reason="mkdocs-material is not installed")
    return shared("two-pages", lambda folder: two_pages(book, folder)) / "site"


@pytest.fixture(scope="session")
def _window() -> Iterator[Any]:
    with chromium() as opened:
        yield opened


@pytest.fixture(scope="module")
def browser(_window: Any) -> Any:
    """A window to look at pages in, opened once for all modules, and as new for each."""
    return as_new(_window)
