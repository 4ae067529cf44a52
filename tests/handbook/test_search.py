"""The search of the built site, typed into in a browser, as a file and served: it finds what people type."""

from pathlib import Path
from time import monotonic, sleep
from typing import Any

import pytest

from diagnose.knowledge.model import Knowledge
from tests.handbook.chromium import resize, served

pytestmark = pytest.mark.slow

HEAVIEST = 3_000_000  # bytes of the index: far below what a browser can take in at once from a file
READY = """
return document.querySelector('.md-search-result__meta').textContent.trim() === 'Type to start searching';
"""
# All at once, as if pasted: a search for each letter typed would come to the same.
TYPE = """
document.querySelector('.md-search-result__list').replaceChildren();
document.querySelector('.md-search-result__meta').textContent = 'waiting';
const field = document.querySelector('[data-md-component=search-query]');
field.value = arguments[0];
field.dispatchEvent(new KeyboardEvent('keyup', { bubbles: true }));
field.dispatchEvent(new InputEvent('input', { bubbles: true }));
"""
# The pages found; null while the search goes on, or says of pages that it does not show yet.
FOUND = """
const meta = document.querySelector('.md-search-result__meta').textContent.trim();
if (meta === 'waiting' || meta === 'Type to start searching') return null;
const found = [...document.querySelectorAll('.md-search-result__item > a')].map((a) => a.pathname);
return found.length || meta.startsWith('No ') ? found : null;
"""


class Search:
    """The search field of a page."""

    def __init__(self, window: Any, address: str) -> None:
        self.window = window
        resize(window, 1280, 900)
        window.get(f"{address}/index.html")
        window.find_element("css selector", "[data-md-component=search-query]").click()
        self._until(READY)

    def __call__(self, words: str) -> list[str]:
        """The pages found, the best first, as paths from the top of the site without their ending."""
        self.window.execute_script(TYPE, words)
        found: list[str] = self._until(FOUND)
        return list(dict.fromkeys("/".join(path.removesuffix(".html").split("/")[-2:]) for path in found))

    def _until(self, script: str) -> Any:
        last = monotonic() + 120
        while (found := self.window.execute_script(script)) in (None, False):
            assert monotonic() < last, script
            sleep(0.01)
        return found


@pytest.fixture(scope="module")
def search(browser: Any, whole: Path) -> Search:
    return Search(browser, whole.as_uri())


@pytest.mark.parametrize(
    ("typed", "page"),
    [
        ("ghosing", "ghosting"),
        ("ghosts", "ghosting"),
        ("toned down", "faint-colour"),
        ("double image", "ghosting"),
        ("washed out", "faint-colour"),
        ("fuzzy", "blurred-edges"),
        ("black is brown", "browned-blacks"),
        ("shiny box", "press-box"),
        ("yelow", "yellowed-ground"),
    ],
)
def test_what_people_type_finds_the_right_page_first(search: Search, typed: str, page: str) -> None:
    assert search(typed)[:1] == [f"defects/{page}"]


def test_every_defect_is_found_by_its_names(search: Search, known: Knowledge) -> None:
    asked = [(name, f"defects/{d.id}") for d in known.defects.values() for name in (d.title, *d.said[:3])]
    places = [(name, page, search(name)) for name, page in asked]
    first = [name for name, page, found in places if found[:1] == [page]]
    assert len(first) >= 0.9 * len(asked), [
        (name, page, found[:2]) for name, page, found in places if name not in first
    ]
    assert [(name, page) for name, page, found in places if page not in found[:5]] == []


def test_the_served_site_finds_the_same(browser: Any, whole: Path) -> None:
    with served(whole) as address:
        assert Search(browser, address)("ghosing")[:1] == ["defects/ghosting"]


def test_the_index_stays_light(whole: Path) -> None:
    assert (whole / "search" / "search_index.js").stat().st_size < HEAVIEST
