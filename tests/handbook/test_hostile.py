"""A shop folder with markup in every field: all of it shows as text, on every page it reaches and in the search."""

from pathlib import Path
from typing import Any

import pytest

from diagnose.cli.handbook import drawn
from diagnose.handbook import building
from diagnose.knowledge.loading import shipped_folder
from tests.handbook.reading import pages, read
from tests.handbook.test_offline import complaints, outside
from tests.handbook.test_search import Search

pytestmark = pytest.mark.slow

FOLDER = Path(__file__).parent / "hostile"
STRUCK = """
const marks = '#struck, iframe[src], [onerror], [onload], [onclick]';
return window.struck === undefined && !document.querySelector(marks);
"""


@pytest.fixture(scope="module")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("hostile")
    building.write(folder / "pages", drawn(shipped_folder(), FOLDER))
    building.build(shipped_folder(), folder / "site", folder / "pages")
    return folder / "site"


@pytest.fixture(scope="module")
def touched(hostile: Path) -> list[str]:
    """The pages that hold something of the shop's."""
    return [page for page in pages(hostile) if "struck" in (hostile / page).read_text(encoding="utf-8")]


def test_every_kind_of_page_is_touched(touched: list[str]) -> None:
    assert {page.split("/")[0] for page in touched} >= {
        "apart",
        "before.html",
        "care",
        "causes",
        "cautions.html",
        "checks",
        "defects",
        "diagnose.html",
        "fixes",
        "glossary.html",
        "index.html",
        "items",
        "settings.html",
    }


def test_no_page_holds_more_markup_than_its_like(hostile: Path, whole: Path) -> None:
    known = set[tuple[str, str]]()
    for page in pages(whole):
        held = read((whole / page).read_text(encoding="utf-8"))
        known |= {("tag", tag) for tag in held.tags} | {("attribute", name) for name in held.attributes}
    for page in pages(hostile):
        held = read((hostile / page).read_text(encoding="utf-8"))
        found = {("tag", tag) for tag in held.tags} | {("attribute", name) for name in held.attributes}
        assert found <= known, page


def test_it_is_shown_as_it_was_written(hostile: Path) -> None:
    seen = read((hostile / "defects/struck-defect.html").read_text(encoding="utf-8")).seen
    assert "</title><script>window.struck = 1</script> defect" in seen
    assert "<script>window.struck = 1</script> --- | a | b | <img src=x onerror='window.struck = 1'>" in seen
    assert "Because </li></ol><script>window.struck = 1</script>" in seen
    assert "&lt;script&gt;struck&lt;/script&gt;" in seen


def test_nothing_happens_in_a_browser(browser: Any, hostile: Path, touched: list[str]) -> None:
    outside(browser), complaints(browser)
    for page in touched:
        browser.get((hostile / page).as_uri())
        assert browser.execute_script(STRUCK), page
    assert outside(browser) + complaints(browser) == []


def test_nothing_happens_in_the_search(browser: Any, hostile: Path) -> None:
    search = Search(browser, hostile.as_uri())
    assert search("struckword")[:1] == ["defects/struck-defect"]
    for words in ("strucky", "struckest", "window.struck", "script"):
        search(words)
    assert browser.execute_script(STRUCK)
    assert outside(browser) + complaints(browser) == []


@pytest.mark.parametrize("answer", ["#saw=struck-defect", "#saw=struck-defect&item=struck-item"])
def test_nothing_happens_in_the_dialogue(browser: Any, hostile: Path, answer: str) -> None:
    browser.get("about:blank")
    browser.get((hostile / "diagnose.html").as_uri() + answer)
    for _ in range(4):
        for button in browser.find_elements("css selector", "#presslore button")[:1]:
            button.click()
        assert browser.execute_script(STRUCK)
    assert outside(browser) + complaints(browser) == []
