"""The pages on blends and on judging a colour difference."""

import re
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from diagnose.handbook.book import Handbook
from diagnose.handbook.cloth import Panel, chips, strip
from diagnose.handbook.pages import blends, colour
from diagnose.press.colour.blend import SHARES
from diagnose.press.colour.grades import GRADES
from diagnose.press.colour.lab import Lab

SVG = "{http://www.w3.org/2000/svg}"


def drawings(page: str) -> list[ElementTree.Element]:
    return [ElementTree.fromstring(one) for one in re.findall(r"<svg.*?</svg>", page, flags=re.DOTALL)]


@pytest.fixture(scope="module")
def on_blends(book: Handbook) -> str:
    (leaf,) = blends.leaves(book)
    return leaf.file().decode()


@pytest.fixture(scope="module")
def judging(book: Handbook) -> str:
    (leaf,) = colour.leaves(book)
    return leaf.file().decode()


def test_every_strip_says_in_words_what_it_shows(on_blends: str, judging: str) -> None:
    found = [*drawings(on_blends), *drawings(judging)]
    assert len(found) == len(blends.SHOWN) + 1 + 2
    names = set()
    for drawing in found:
        title, about = drawing.find(f"{SVG}title"), drawing.find(f"{SVG}desc")
        assert title is not None
        assert about is not None
        assert len(title.text or "") > 10
        assert (about.text or "").count(";") >= 3
        assert drawing.get("aria-labelledby") == f"{title.get('id')} {about.get('id')}"
        names |= {title.get("id"), about.get("id")}
    assert len(names) == 2 * len(found)


def test_words_take_the_colour_of_the_text_around(on_blends: str) -> None:
    for drawing in drawings(on_blends):
        assert {text.get("fill") for text in drawing.iter(f"{SVG}text")} == {"currentColor"}


def test_the_less_polyester_the_lighter_the_cloth_is_drawn(on_blends: str) -> None:
    black = drawings(on_blends)[0]
    fills = [box.get("fill") or "" for box in black.iter(f"{SVG}rect") if box.get("fill") != "none"]
    tones = [int(fill[1:3], 16) for fill in fills]
    fresh, washed = tones[: len(SHARES)], tones[len(SHARES) :]
    assert fresh == sorted(fresh)
    assert washed == sorted(washed)
    assert all(after > before for before, after in zip(fresh[1:], washed[1:], strict=True))


def test_threads_of_both_fibres_show_only_where_there_is_cotton() -> None:
    dyed, bare = Lab(30, 0, 0), Lab(95, 0, 0)
    panels = [Panel(dyed, "100 %"), Panel(Lab(60, 0, 0), "50 %", (dyed, bare), 0.5)]
    (drawing,) = drawings(strip("one", "a title", "about", [("washed", panels)]))
    paths = [path.get("d") or "" for path in drawing.iter(f"{SVG}path")]
    assert len(paths) == 2
    assert abs(paths[0].count("M") - paths[1].count("M")) <= 1


def test_numbers_and_the_customers_words_stand_beside_the_strips(on_blends: str) -> None:
    for share in ("65 %", "50 %", "35 %"):
        assert on_blends.count(f'<th scope="row">{share}</th>') == len(blends.SHOWN)
        assert f"**{share} polyester**" in on_blends
    assert "press a piece of the very cloth" in on_blends
    assert "sources.md#stearns-noechel-1944" in on_blends


def test_every_grade_stands_in_both_tables(judging: str) -> None:
    for grade in GRADES:
        assert judging.count(f'<th scope="row">{grade}</th>') == 2
    assert "](defects/faint-colour.md)" in judging
    assert "](defects/wash-out.md)" in judging


def test_the_shops_own_tolerance_is_told(book: Handbook, judging: str) -> None:
    assert "passes by common practice up to 2." in judging
    (leaf,) = colour.leaves(replace(book, shop=replace(book.shop, tolerance=1.5)))
    assert "passes in this shop up to 1.5." in leaf.file().decode()


def test_a_defect_that_a_shop_retired_is_not_named(book: Handbook) -> None:
    left = {key: value for key, value in book.knowledge.defects.items() if key not in ("too-dark", "haze")}
    (leaf,) = colour.leaves(replace(book, knowledge=replace(book.knowledge, defects=left)))
    page = leaf.file().decode()
    assert "**Stronger**" not in page
    assert "defects/haze.md" not in page


def test_chips_carry_their_labels() -> None:
    (drawing,) = drawings(
        chips("two", "a title", "about", [("5", Lab(40, 0, 0), Lab(40, 0, 0)), ("1", Lab(40, 0, 0), Lab(54, 0, 0))])
    )
    assert [text.text for text in drawing.iter(f"{SVG}text")] == ["5", "1"]
