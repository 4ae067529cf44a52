"""Pages that everybody can read: axe-core finds nothing serious, narrow and wide, light and dark."""

from pathlib import Path
from typing import Any

import pytest

from tests.handbook.chromium import light, resize

pytestmark = pytest.mark.slow

AXE = Path(__file__).parent / "axe" / "axe.min.js"
KINDS = (
    "index",
    "diagnose",
    "pictures",
    "defects/index",
    "defects/ghosting",
    "causes/index",
    "causes/platen-runs-cool",
    "checks/index",
    "checks/probe-the-platen",
    "fixes/index",
    "fixes/set-heat-by-probe",
    "items/index",
    "items/ceramic-tile",
    "apart/index",
    "apart/blurred-edges-or-ghosting",
    "care/index",
    "care/polyester-cloth",
    "lessons/index",
    "lessons/1-how-the-dye-gets-in",
    "before",
    "settings",
    "blends",
    "colour",
    "heat",
    "dangers",
    "cautions",
    "glossary",
    "sources",
    "changes",
    "wall",
)
RUN = """
const done = arguments[arguments.length - 1];
axe.run(document, {resultTypes: ['violations']}).then(found => done(found.violations
  .filter(one => ['serious', 'critical'].includes(one.impact))
  .map(one => one.id + ': ' + one.nodes.slice(0, 3).map(node => node.target.join(' ')).join(' | '))));
"""
UNFOLD = "for (const one of document.querySelectorAll('details')) one.open = true"


def findings(window: Any) -> list[str]:
    window.execute_script(AXE.read_text(encoding="utf-8"))
    found: list[str] = window.execute_async_script(RUN)
    return found


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("width", [320, 1280])
@pytest.mark.parametrize("share", [2, pytest.param(1, marks=pytest.mark.thorough)], ids=["half", "all"])
def test_nothing_serious_on_any_kind_of_page(browser: Any, whole: Path, width: int, dark: bool, share: int) -> None:
    """Each kind narrow and wide, light and dark; daily narrow in the one and wide in the other."""
    resize(browser, width, 800)
    light(browser, dark)
    browser.get((whole / "index.html").as_uri())
    browser.execute_script("localStorage.clear()")
    wrong = {}
    for page in KINDS[((width == 320) == dark) % share :: share]:
        browser.get((whole / f"{page}.html").as_uri())
        assert (browser.execute_script("return document.body.dataset.mdColorScheme") == "slate") == dark
        browser.execute_script(UNFOLD)
        if found := findings(browser):
            wrong[page] = found
    assert wrong == {}


def test_links_in_text_are_underlined(browser: Any, whole: Path) -> None:
    browser.get((whole / "defects/ghosting.html").as_uri())
    bare = browser.execute_script(
        "return [...document.querySelectorAll('.md-content a[href]:not(.md-button)')]"
        ".filter(a => !getComputedStyle(a).textDecorationLine.includes('underline')).map(a => a.outerHTML)"
    )
    assert bare == []


def test_axe_notices(browser: Any, tmp_path: Path) -> None:
    """The test can fail: a button without a name is found."""
    page = tmp_path / "page.html"
    page.write_text('<!doctype html><html lang="en"><title>t</title><main><button></button></main>')
    browser.get(page.as_uri())
    assert [one.split(":")[0] for one in findings(browser)] == ["button-name"]
