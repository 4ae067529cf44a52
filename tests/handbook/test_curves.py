"""The curves of the measures: every cause is drawn, in the unit of the shop, and no line turns back."""

import re
from html import escape
from itertools import pairwise

import pytest

from diagnose.handbook.book import Handbook
from diagnose.handbook.curves import curves
from diagnose.handbook.line_chart import TONES
from diagnose.handbook.pages import figures
from diagnose.knowledge.loading import load
from diagnose.knowledge.measures import Measure
from diagnose.knowledge.shop import Shop

KNOWN = load()
MEASURES = list(KNOWN.readings.values())
LINE = re.compile(r'<polyline points="([^"]+)"')


def drawn(measure: Measure, shop: Shop | None = None) -> list[str]:
    return [each for each in curves(Handbook(KNOWN, shop or Shop()), measure) if each]


@pytest.mark.parametrize("measure", MEASURES, ids=lambda measure: measure.id)
def test_every_cause_is_drawn_once_and_named(measure: Measure) -> None:
    charts = drawn(measure)
    for cause in measure.speaks:
        assert sum(chart.count(f">{escape(KNOWN.causes[cause].title)}<") for chart in charts) == 1
    assert all(1 <= len(LINE.findall(chart)) <= len(TONES) for chart in charts)


@pytest.mark.parametrize("measure", MEASURES, ids=lambda measure: measure.id)
def test_every_line_leads_from_little_to_much_without_turning_back(measure: Measure) -> None:
    """From left to right it falls or rises; where both ways count alike, it falls to the middle and rises from there.
    The lower on the page, the greater its number."""
    either = any(says.either for says in measure.speaks.values())
    for chart in drawn(measure):
        for line in LINE.findall(chart):
            heights = [float(point.split(",")[1]) for point in line.split()]
            falls = all(later >= earlier for earlier, later in pairwise(heights))
            rises = all(later <= earlier for earlier, later in pairwise(heights))
            middle = len(heights) // 2
            valley = either and heights[:middle] == sorted(heights[:middle]) and heights == heights[::-1]
            assert falls or rises or valley
            assert max(heights) - min(heights) > 10


def test_a_curve_of_degrees_is_drawn_in_the_unit_of_the_shop() -> None:
    platen = KNOWN.readings["platen-gap"]
    celsius, fahrenheit = drawn(platen)[0], drawn(platen, Shop(temperature="F"))[0]
    assert ">°C under or over<" in celsius
    assert ">°F under or over<" in fahrenheit
    assert ">−15<" in celsius
    assert ">−30<" in fahrenheit


def test_the_page_holds_each_chart_under_a_name_of_its_own() -> None:
    text = next(figures.leaves(Handbook(KNOWN, Shop()))).file().decode()
    names = re.findall(r'<title id="([^"]+)"', text)
    assert len(names) == len(set(names)) >= len(MEASURES)


def test_sheets_are_counted_whole() -> None:
    assert ">0.5<" not in drawn(KNOWN.readings["layers"])[0]


def test_a_name_that_is_long_finds_room() -> None:
    """In letters of 0.55 of their size, as wide as those of the usual faces."""
    for measure in MEASURES:
        for chart in drawn(measure):
            for x, size, name in re.findall(r'<text x="([\d.]+)"[^>]*font-size="(\d+)"[^>]*>([^<]+)<', chart):
                if name in {escape(KNOWN.causes[cause].title) for cause in measure.speaks}:
                    assert float(x) + 0.55 * float(size) * len(name) <= 420
