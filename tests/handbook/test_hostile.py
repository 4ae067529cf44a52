"""A shop folder with markup in every field: all of it shows as text, on every page it reaches and in the search."""

import json
import re
from pathlib import Path
from typing import Any

import pytest

from diagnose.characters import stripped, unsafe
from diagnose.cli.handbook import drawn
from diagnose.handbook import building
from diagnose.handbook.text import shown
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
    known = {("tag", "bdi")}  # it sets words apart and does nothing else
    for page in set(pages(whole)) - {"casebook.html"}:  # with charts that the shop in this folder has none of
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
    glossary = read((hostile / "glossary.html").read_text(encoding="utf-8")).seen
    assert "<script>window.struck = 1</script> escaped" in glossary
    assert (
        "<img src=x onerror='window.struck = 1'> [a](javascript:struck) &lt;b&gt; \u05e9\u05dc\u05d5\u05dd 3 (4)"
        in glossary
    )
    assert "Because </li></ol><script>window.struck = 1</script>" in seen
    assert "&lt;script&gt;struck&lt;/script&gt;" in seen


ARTICLE = re.compile(r"<article.*</article>", re.DOTALL)
LEFTWARD = re.compile("[\u0590-\u08ff]")
BESIDE = re.compile(r"<bdi>[^<]*</bdi>|<[^>]*>")


def test_words_written_from_right_to_left_stand_apart_on_every_page(hostile: Path) -> None:
    held = 0
    for page in pages(hostile):
        article = ARTICLE.search((hostile / page).read_text(encoding="utf-8"))
        assert article, page
        held += "<bdi>" in article[0]
        assert not LEFTWARD.search(BESIDE.sub("", article[0])), page
    assert held >= 12


def test_no_sign_that_acts_on_its_surroundings_is_on_any_page(hostile: Path) -> None:
    for path in (path for path in hostile.rglob("*") if path.suffix in (".html", ".svg", ".xml")):
        assert [*unsafe(path.read_text(encoding="utf-8"))] == [], path


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


# --- the words that the dialogue's scripts show ---

SIGNS = """
const { clean, line } = presslore.page.dom;
const found = [[], []];
for (let code = 0; code <= 0x10ffff; code += 1) {
  const sign = String.fromCodePoint(code);
  if (clean(sign) === '') found[0].push(code);
  else if (line(sign).querySelector('bdi')) found[1].push(code);
}
return found;
"""
PLACES = """
const paper = document.body.appendChild(presslore.page.dom.line(arguments[0]));
const walk = document.createTreeWalker(paper, NodeFilter.SHOW_TEXT);
const left = arguments[1].map((word) => {
  walk.currentNode = paper;
  while (walk.nextNode()) {
    const at = walk.currentNode.data.indexOf(word);
    if (at < 0) continue;
    const range = document.createRange();
    range.setStart(walk.currentNode, at);
    range.setEnd(walk.currentNode, at + word.length);
    return range.getBoundingClientRect().left;
  }
});
paper.remove();
return left;
"""
TURNED = """
const walk = document.createTreeWalker(document.getElementById('presslore'), NodeFilter.SHOW_TEXT);
const found = [];
while (walk.nextNode()) {
  const { data, parentElement } = walk.currentNode;
  if (/[\\u202a-\\u202e\\u2066-\\u2069\\u001b]/.test(data)) found.push(data);
  if (/[\\u0590-\\u08ff]/.test(data) && !parentElement.closest('bdi, textarea')) found.push(data);
}
return found;
"""
KEPT: dict[str, Any] = {
    "format": 1,
    "at": "",
    "stage": "understood",
    "item": None,
    "itemWords": "",
    "words": "",
    "defects": [],
    "notSeen": [],
    "answers": [],
    "left": [],
    "opening": 0,
    "warned": [],
    "after": "",
    "session": '{"format": "presslore-session", "version": 1, "knowledge": "", "moves": []}',
}
WORD = "\u05e9\u05dc\u05d5\u05dd"


def test_the_scripts_and_the_pages_keep_out_and_set_apart_the_same(browser: Any, hostile: Path) -> None:
    browser.get((hostile / "diagnose.html").as_uri())
    out, apart = browser.execute_script(SIGNS)
    signs = [chr(code) for code in range(0x110000)]
    assert out == [ord(sign) for sign in signs if stripped(sign, lines=True) == ""]
    assert apart == [ord(sign) for sign in signs if stripped(sign, lines=True) and "<bdi>" in shown(sign)]


def test_words_beside_stay_where_they_are(browser: Any, hostile: Path) -> None:
    browser.get((hostile / "diagnose.html").as_uri())
    for text in (f"Press {WORD}: 12 pieces", f"Press \u202e{WORD}: 12 pieces", f"Press {WORD} {WORD}: 12 pieces"):
        places = browser.execute_script(PLACES, text, ["Press", WORD, "12", "pieces"])
        assert places == sorted(places), text


def test_a_dialogue_that_somebody_else_kept_turns_and_does_nothing(browser: Any, hostile: Path) -> None:
    nasty = f"\u202e<img src=x onerror='window.struck = 1'> {WORD} \x1b]52;c;\x07"
    fact = {"move": "pressed", "item": "struck-item", "facts": {"item.family": nasty}}
    moves = [fact, {"move": "saw", "defects": ["struck-defect"]}]
    session = {"format": "presslore-session", "version": 1, "knowledge": nasty, "moves": moves}
    told = {"itemWords": nasty, "words": nasty, "left": [nasty], "warned": [nasty], "at": nasty}
    kept = KEPT | told | {"item": {"id": "struck-item", "facts": {}}, "session": json.dumps(session)}
    kept |= {"defects": ["struck-defect"], "answers": [["struck-check", "quiet"]]}
    complaints(browser)
    for stage in ("item", "seen", "understood", "list", "pictures", "step", "known"):
        browser.get("about:blank")
        browser.get((hostile / "diagnose.html").as_uri())
        browser.execute_script(
            "localStorage.setItem('presslore.diagnosis', arguments[0])", json.dumps({**kept, "stage": stage})
        )
        browser.refresh()
        assert "Going on from where you left" in browser.find_element("css selector", "#presslore .notice").text, stage
        browser.execute_script("document.querySelectorAll('#presslore details').forEach((one) => { one.open = true; })")
        assert browser.execute_script(TURNED) == []
        assert browser.execute_script(STRUCK)
    assert complaints(browser) == []
    browser.execute_script("localStorage.clear()")


WRONG: tuple[dict[str, Any], ...] = (
    {"warned": {}},
    {"warned": [1]},
    {"left": "text"},
    {"item": {"id": "struck-item"}},
    {"item": 1},
    {"opening": "1"},
    {"answers": [["struck-check"]]},
    {"answers": [1]},
    {"defects": {"length": 1}},
    {"stage": "__proto__"},
    {"words": None},
)


@pytest.mark.parametrize("wrong", WRONG, ids=json.dumps)
def test_what_is_kept_and_damaged_gives_way_to_a_new_start(wrong: dict[str, Any], browser: Any, hostile: Path) -> None:
    browser.get((hostile / "diagnose.html").as_uri())
    browser.execute_script("localStorage.setItem('presslore.diagnosis', arguments[0])", json.dumps(KEPT | wrong))
    complaints(browser)
    browser.refresh()
    assert "does not fit any more" in browser.find_element("css selector", "#presslore .notice").text
    assert complaints(browser) == []
