"""Care cards and the pages of care notes, drawn from what ships and from hostile words."""

import re
from html.parser import HTMLParser
from xml.etree import ElementTree

import pytest

from diagnose.handbook.book import Handbook
from diagnose.handbook.care.cards import PAPERS, STYLE, Card, code, page_address, sheet
from diagnose.handbook.care.notes import leaves
from diagnose.knowledge.care import by_kind
from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.model import CareNote, CareStatement, Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.problems import Place

HOSTILE = "</style><script>alert('1')</script> \"><img src=x onerror=alert(1)> &amp; {{ x }} ![](y)"
VOID = {"meta"}


@pytest.fixture(scope="module")
def knowledge() -> Knowledge:
    return load(shipped_folder())


class Tags(HTMLParser):
    """The tags of a page, in order; a tag that is not closed, or closed twice, is an error."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.seen: list[str] = []
        self.words = ""
        self.feed(text)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append(tag)
        assert not [name for name, _ in attrs if name.startswith("on")]
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.words += data


def note(text: str = "Wash mild.") -> CareNote:
    statement = CareStatement(kind="washing", text=text, basis=("common practice",))
    return CareNote(id="towels", title=text, place=Place("kb"), items=(), defects=(), tell="-", statements=(statement,))


# --- cards ---


@pytest.mark.parametrize("paper", PAPERS)
def test_every_note_makes_a_sheet_of_four_whole_cards(knowledge: Knowledge, paper: str) -> None:
    shop = Shop(name="The harbour workshop", address=("3 Net Loft Lane",), handbook="https://handbook.example")
    for each in knowledge.care.values():
        page = sheet(Card(note=each, shop=shop), paper)
        assert page.count("<article ") == 4
        words = " ".join(Tags(page.replace("<br>", "")).words.replace("\u00a0", " ").split())
        said = [f"{title} {' '.join(one.text for one in group)}" for title, group in by_kind(each)]
        assert [text for text in said if words.count(text) != 4] == []


def test_a_card_shows_no_picture_but_the_code(knowledge: Knowledge) -> None:
    page = sheet(Card(note=knowledge.care["blend"], shop=Shop(handbook="https://handbook.example")))
    assert not re.search(r"<img|<picture|<canvas|url\(|@import|@font-face|<link|<script", page)
    assert (
        re.findall(r"<svg [^>]*aria-label=\"([^\"]*)\"", page)
        == ["Code for https://handbook.example/care/blend.html"] * 4
    )


def test_only_the_first_card_is_seen_on_a_screen(knowledge: Knowledge) -> None:
    page = sheet(Card(note=knowledge.care["blend"], shop=Shop()))
    assert page.count('<article class="card copy" aria-hidden="true">') == 3
    assert ".copy { display: none }" in STYLE.read_text(encoding="utf-8")


def test_hostile_words_show_as_words() -> None:
    shop = Shop(name=HOSTILE, address=(HOSTILE,))
    page = sheet(Card(note=note(HOSTILE), shop=shop))
    tags = Tags(page.replace("<br>", ""))
    assert not {"script", "img"} & set(tags.seen)
    assert tags.words.count("<script>alert('1')</script>") >= 4 * 4
    assert page.count("</style>") == 1


def test_a_number_keeps_its_unit() -> None:
    assert "30\u00a0°C (86\u00a0°F)" in sheet(Card(note=note("Wash at 30 °C (86 °F)."), shop=Shop()))


def test_the_address_of_a_page() -> None:
    assert page_address("https://handbook.example/press/", "blend") == "https://handbook.example/press/care/blend.html"


def test_a_code_is_dark_on_light_with_a_quiet_zone() -> None:
    drawn = code('https://handbook.example/?a="b"&c')
    root = ElementTree.fromstring(drawn.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1))
    assert root.get("viewBox")
    assert root.get("aria-label") == 'Code for https://handbook.example/?a="b"&c'
    ground, modules = list(root)
    assert (ground.get("fill"), modules.get("stroke")) == ("#fff", "#000")
    assert (modules.get("d") or "").startswith("M4 4.5")


# --- pages ---


def test_a_page_for_each_note_and_their_list(knowledge: Knowledge) -> None:
    paths = [leaf.path for leaf in leaves(Handbook(knowledge))]
    assert paths == ["care/index.md", *(f"care/{each}.md" for each in knowledge.care)]


def test_a_page_says_everything_with_its_basis_and_links_both_ways(knowledge: Knowledge) -> None:
    page = {leaf.path: leaf for leaf in leaves(Handbook(knowledge))}["care/blend.md"].file().decode()
    assert "## Washing" in page
    assert "[Heywood and Lambert, 1977](../sources.md#heywood-lambert-1977)" in page
    assert "(../items/tea-towel-65-35.md)" in page
    assert "(../defects/wash-out.md)" in page
    assert "kb/care.yaml:" in page


def test_what_to_say_at_the_counter_is_not_on_the_customers_page(knowledge: Knowledge) -> None:
    pages = b"".join(leaf.file() for leaf in leaves(Handbook(knowledge)))
    assert b"I am sorry" not in pages
