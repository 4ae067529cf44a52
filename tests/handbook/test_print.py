"""On paper: A4 and Letter, everything unfolded, nothing cut off at the side, no furniture of the screen."""

import base64
import re
from pathlib import Path
from typing import Any

import pytest

from tests.handbook.chromium import resize

pytestmark = pytest.mark.slow

PAPERS = {"A4": (8.27, 11.69), "Letter": (8.5, 11.0)}  # inches
MARGIN = 0.47  # inches, the 12 mm of the style sheet
DOTS = 96  # CSS pixels to the inch
CUT = """
const most = arguments[0];
return [...document.querySelectorAll('.md-content *')]
  .filter(one => one.getClientRects().length && one.getBoundingClientRect().right > most + 1)
  .map(one => one.outerHTML.slice(0, 80));
"""
SHOWN = """
return [...document.querySelectorAll('.md-header, .md-sidebar, .md-footer, .go, .not-printed')]
  .filter(one => one.getClientRects().length).map(one => one.className);
"""


def printed(window: Any, paper: str) -> int:
    """The number of sheets."""
    width, height = PAPERS[paper]
    options = {"paperWidth": width, "paperHeight": height, "preferCSSPageSize": False, "printBackground": False}
    sheet = base64.b64decode(window.execute_cdp_cmd("Page.printToPDF", options)["data"])
    return len(re.findall(rb"/Type\s*/Page\b", sheet))


def lay_out(window: Any, paper: str) -> int:
    """Show the page as it is printed, on the width of the paper; the pixels between its margins."""
    width = round((PAPERS[paper][0] - 2 * MARGIN) * DOTS)
    resize(window, width, 1000)
    window.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": "print"})
    return width


@pytest.fixture(autouse=True)
def on_screen_again(browser: Any) -> Any:
    yield
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": ""})


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("page", ["wall.html"])
def test_the_wall_chart_is_one_sheet(browser: Any, whole: Path, page: str, paper: str) -> None:
    resize(browser, 1280, 900)
    browser.get((whole / page).as_uri())
    assert printed(browser, paper) == 1


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(
    ("page", "most"), [("defects/ghosting.html", 5), ("defects/faint-colour.html", 6), ("settings.html", 4)]
)
def test_a_page_prints_on_few_sheets(browser: Any, whole: Path, page: str, paper: str, most: int) -> None:
    resize(browser, 1280, 900)
    browser.get((whole / page).as_uri())
    assert 1 <= printed(browser, paper) <= most


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(
    "page", ["defects/ghosting.html", "settings.html", "wall.html", "apart/blurred-edges-or-ghosting.html"]
)
def test_nothing_is_cut_and_no_furniture_is_printed(browser: Any, whole: Path, page: str, paper: str) -> None:
    browser.get((whole / page).as_uri())
    width = lay_out(browser, paper)
    assert browser.execute_script(CUT, width) == []
    assert browser.execute_script(SHOWN) == []


def test_what_is_folded_is_printed_and_folded_again(browser: Any, whole: Path) -> None:
    browser.get((whole / "defects/ghosting.html").as_uri())
    folded = "return document.querySelectorAll('details:not([open])').length"
    before = browser.execute_script(folded)
    assert before > 0
    browser.execute_script("window.dispatchEvent(new Event('beforeprint'))")
    assert browser.execute_script(folded) == 0
    browser.execute_script("window.dispatchEvent(new Event('afterprint'))")
    assert browser.execute_script(folded) == before
