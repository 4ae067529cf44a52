"""The page on heat and dye: its charts and tables say what the reckoning says, in the shop's unit."""

import re
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from diagnose.casebook.report.charts import Words
from diagnose.handbook.book import Handbook
from diagnose.handbook.line_chart import Axis, ChartLine, line_chart
from diagnose.handbook.pages import heat
from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop

TOWEL = "tea-towel-polyester"


@pytest.fixture(scope="module")
def knowledge() -> Knowledge:
    return load(shipped_folder())


def text(knowledge: Knowledge, shop: Shop | None = None) -> str:
    (leaf,) = heat.leaves(Handbook(knowledge, shop or Shop()))
    return leaf.file().decode()


def test_charts_and_tables_stand_on_the_page(knowledge: Knowledge) -> None:
    page = text(knowledge)
    charts = re.findall(r"<svg.*?</svg>", page)
    assert len(charts) == 2
    warming = ElementTree.fromstring(charts[0])
    lines = [each for each in warming if each.tag.endswith("polyline")]
    assert len(lines) == len(heat.SHOWN)
    assert "Tile, by its back: 186 °C after 330 s." in charts[0]
    assert page.index("The platen burns") < page.index("<table"), "cautions come first"
    tile = re.search(r"Ceramic tile, coated</a></th>(.*?)</tr>", page)
    assert tile
    assert "<span>330 s</span>" in tile[1], "at 200 °C, the middle of its own window"
    seconds = [int(each) for each in re.findall(r"<span>(\d+) s</span>", tile[1])]
    assert seconds == sorted(seconds, reverse=True)


def test_every_material_has_its_row_and_basis(knowledge: Knowledge) -> None:
    page = text(knowledge)
    for material in knowledge.materials.values():
        assert f'<th scope="row">{material.title}</th>' in page
    assert "sources.html#en-12524" in page
    assert "from memory" in page


def test_the_shops_unit_comes_first(knowledge: Knowledge) -> None:
    page = text(knowledge, Shop(temperature="F"))
    assert "392 °F (200 °C)" in page
    assert "°F at the dye" in page


def test_what_cannot_be_reckoned_is_left_out(knowledge: Knowledge) -> None:
    items = {name: item for name, item in knowledge.items.items() if name != TOWEL}
    assert "Hardboard coaster" in text(replace(knowledge, items=items))
    bare = text(replace(knowledge, bodies={}, materials={}))
    assert "<svg" not in bare
    assert "<table" not in bare
    assert "Why ten degrees matter" in bare


def test_a_chart_keeps_within_its_frame() -> None:
    line = ChartLine("<one> & two", [(0.0, 0.0), (5.0, 50.0), (10.0, 100.0)])
    drawn = line_chart([line], Axis("s", [0, 10]), Axis("%", [0, 100]), Words("few", "Title", "About"))
    root = ElementTree.fromstring(drawn)
    points = next(each for each in root if each.tag.endswith("polyline")).attrib["points"].split()
    assert points == ["38.0,236.0", "223.0,131.0", "408.0,26.0"]
    assert "&lt;one&gt; &amp; two" in drawn
