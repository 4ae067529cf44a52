"""Every page, opened from its folder with the network cut: nothing is asked of it, nothing goes wrong, nothing
is wider than a small phone."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.handbook.chromium import resize, served
from tests.handbook.reading import pages

pytestmark = pytest.mark.slow

NARROWEST = 320
DAILY = 70  # pages of some 770
AT_HOME = ("file:", "data:", "blob:", "about:", "chrome:", "http://127.0.0.1:")
WIDER = """
const most = document.documentElement.clientWidth;
return document.documentElement.scrollWidth > most || document.body.scrollWidth > most;
"""


def asked_for(window: Any) -> list[str]:
    """Every address asked for since the last look."""
    events = (json.loads(entry["message"])["message"] for entry in window.get_log("performance"))
    return [e["params"]["request"]["url"] for e in events if e["method"] == "Network.requestWillBeSent"]


def outside(window: Any) -> list[str]:
    return [address for address in asked_for(window) if not address.startswith(AT_HOME)]


def complaints(window: Any) -> list[str]:
    return [entry["message"] for entry in window.get_log("browser") if entry["level"] in ("SEVERE", "WARNING")]


def wrong_with(window: Any, folder: Path, some: list[str]) -> dict[str, list[str]]:
    """What is wrong with some pages of a site, by page."""
    resize(window, NARROWEST, 640)
    asked_for(window), complaints(window)
    wrong: dict[str, list[str]] = {}
    for page in some:
        window.get((folder / page).as_uri())
        found = outside(window) + complaints(window)
        found += ["scrolls sideways"] if window.execute_script(WIDER) else []
        if found:
            wrong[page] = found
    return wrong


def of_each_kind(folder: Path, most: int) -> list[str]:
    """The heaviest page of each kind, and so many of all, as evenly as may be."""
    every = [page for page in pages(folder) if page != "404.html"]
    by_weight = sorted(every, key=lambda page: (folder / page).stat().st_size)
    heaviest = {page.partition("/")[0]: page for page in by_weight}
    return sorted({*heaviest.values(), *every[:: max(1, len(every) // most)]})


@pytest.mark.parametrize("most", [DAILY, pytest.param(10**6, marks=pytest.mark.thorough)])
def test_every_page_from_a_folder(browser: Any, whole: Path, most: int) -> None:
    assert wrong_with(browser, whole, of_each_kind(whole, most)) == {}


@pytest.mark.parametrize("page", ["index.html", "defects/ghosting.html", "settings.html"])
def test_served_pages_ask_their_own_server_only(browser: Any, whole: Path, page: str) -> None:
    with served(whole) as address:
        asked_for(browser), complaints(browser)
        browser.get(f"{address}/{page}")
        assert outside(browser) == []
        assert complaints(browser) == []


def test_a_cut_network_is_noticed(browser: Any, tmp_path: Path) -> None:
    """The test can fail: a page that asks for something outside is caught."""
    page = tmp_path / "page.html"
    page.write_text('<!doctype html><img src="https://outside.invalid/x.png" alt="">')
    asked_for(browser)
    browser.get(page.as_uri())
    assert outside(browser) == ["https://outside.invalid/x.png"]
