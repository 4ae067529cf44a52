"""What the cases add up to, worked out by hand on a few."""

import json
import xml.etree.ElementTree as ElementTree
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.casebook.case import Case
from diagnose.casebook.costing import reckon
from diagnose.casebook.report.charts import Words, pareto, weeks
from diagnose.casebook.report.page import charts, page
from diagnose.casebook.report.report import CauseShare, Report, interval, report
from diagnose.casebook.report.run_chart import Run, Shift, run_chart, shifts
from diagnose.casebook.report.tables import tables
from diagnose.casebook.report.words import left_out, run_words, sums
from diagnose.casebook.store.casebook import Casebook
from diagnose.dialogue.moves import Answered, Cured, HandedOver, Pressed, Saw, TriedFix
from diagnose.dialogue.session import Session
from diagnose.knowledge.loading import load
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Rates, Shop
from tests.casebook.some import a_case

TOWEL = Pressed("tea-towel-65-35")


@pytest.fixture(scope="module")
def knowledge() -> Knowledge:
    return load()


def some_year() -> list[Case]:
    """Four cases of ghosting cured by the same fix, one that nobody could explain, one handed over, one of a defect
    that is no longer known."""
    ghosts = [
        a_case(
            number,
            [TOWEL, Saw(("ghosting",)), TriedFix("tape-two-edges", "same"), Cured("peel-in-one-stroke")],
            spoilt=2,
            minutes=10.0,
            lost=5.0,
        )
        for number in range(4)
    ]
    return [
        *ghosts,
        a_case(60, [Pressed("mug"), Saw(("haze",)), Cured()], spoilt=1, lost=8.0),
        a_case(61, [Pressed("mug"), Saw(("haze",)), HandedOver()], spoilt=1, lost=120.0, minutes=30.0),
        a_case(62, [Saw(("sung-flat",)), Cured()], spoilt=3, lost=1.0),
    ]


@pytest.fixture
def found(book: Casebook, knowledge: Knowledge) -> Report:
    book.add(some_year())
    return report(book.groups(), book.days(), knowledge, Shop())


def test_the_sums(found: Report) -> None:
    assert (found.cases, found.cured, found.handed_over, found.not_worked_out) == (7, 6, 1, 1)
    assert (found.spoilt, found.minutes, found.lost) == (13, 70.0, 149.0)
    assert sums(found, "EUR") == (
        "7 cases: 6 cured, 1 handed over. As far as known they cost 13 pieces spoilt, 1 h 10 min, EUR 149.00."
    )
    assert left_out(found).startswith("1 case speaks of what is no longer known")


def test_causes_come_by_how_many_cases_they_were_behind(found: Report, knowledge: Knowledge) -> None:
    amounts = [share.amount for share in found.causes]
    assert amounts == sorted(amounts, reverse=True)
    assert sum(share.share for share in found.causes) == pytest.approx(1.0)
    assert found.causes[-1].up_to == pytest.approx(1.0)
    first = found.causes[0]
    assert first.id in knowledge.fixes["peel-in-one-stroke"].cures
    assert 2.0 < first.amount <= 4.0
    assert first.title == knowledge.causes[first.id].title


def test_the_money_is_shared_out_and_none_is_lost(found: Report) -> None:
    assert sum(share.amount for share in found.losses) == pytest.approx(148.0, abs=0.01)  # all but what is not known


def test_fixes_with_what_they_cured(found: Report) -> None:
    records = {record.id: (record.tried, record.cured) for record in found.fixes}
    assert records == {"peel-in-one-stroke": (4, 4), "tape-two-edges": (4, 0)}


def test_the_dearest_without_a_known_cause(found: Report) -> None:
    first, *_ = found.unexplained
    assert (first.cases, first.handed_over, first.lost) == (2, 1, 128.0)
    assert first.seen == ("Haze over the print",)


def test_nothing_adds_up_to_nothing(knowledge: Knowledge) -> None:
    empty = report([], [], knowledge, Shop())
    assert (empty.cases, empty.causes, empty.fixes, empty.run.weeks) == (0, (), (), ())
    assert "Nothing to show yet" in page(empty, "", "")
    json.dumps(empty.to_plain())


@pytest.mark.parametrize(
    ("hits", "of", "low", "high"),
    # R. G. Newcombe, "Two-sided confidence intervals for the single proportion", 1998, table I, method 3
    [(81, 263, 0.2553, 0.3662), (15, 148, 0.0624, 0.1605), (0, 20, 0.0, 0.1611), (1, 29, 0.0061, 0.1718)],
)
def test_the_interval_is_as_published(hits: int, of: int, low: float, high: float) -> None:
    assert interval(hits, of) == pytest.approx((low, high), abs=5e-5)


@given(st.integers(0, 300), st.integers(1, 300))
def test_an_interval_holds_what_was_found(hits: int, more: int) -> None:
    low, high = interval(hits, hits + more)
    assert 0.0 <= low <= hits / (hits + more) <= high <= 1.0


# --- week by week ---


MONDAY = date(2026, 1, 5)


def test_weeks_without_a_case_count_as_none_spoilt() -> None:
    run = run_chart({MONDAY + timedelta(days=day): pieces for day, pieces in ((0, 2), (6, 1), (22, 5))})
    assert [week.spoilt for week in run.weeks] == [3, 0, 0, 5]
    assert [week.begins.weekday() for week in run.weeks] == [0] * 4
    assert run.median == 1.5


@pytest.mark.parametrize(
    ("values", "found"),
    [
        ([5] * 8, []),  # on the median: no side
        ([9] * 7 + [1] * 7, []),
        ([9] * 8 + [1] * 8, [(0, 7, True), (8, 15, False)]),
        ([9] * 4 + [5] + [9] * 4, [(0, 8, True)]),  # one on the median neither counts nor breaks the row
        ([1, 9] * 10, []),
    ],
)
def test_eight_in_a_row_on_one_side_are_a_shift(values: list[float], found: list[Any]) -> None:
    assert shifts(values, 5) == [Shift(first=first, last=last, above=above) for first, last, above in found]


@given(st.lists(st.integers(0, 20), max_size=60))
def test_rows_of_shifts_are_on_one_side_and_do_not_touch_each_other(values: list[int]) -> None:
    places: list[int] = []
    for shift in shifts(values, 7):
        row = [value for value in values[shift.first : shift.last + 1] if value != 7]
        assert len(row) >= 8
        assert all((value > 7) == shift.above for value in row)
        places += range(shift.first, shift.last + 1)
    assert len(places) == len(set(places))


def test_a_shift_is_told() -> None:
    run = run_chart({MONDAY + timedelta(weeks=week): 1 if week < 8 else 9 for week in range(16)})
    assert "Less than usual from the week of 2026-01-05 to that of 2026-02-23" in run_words(run)
    assert "common practice" in run_words(run)
    assert "There is nothing to show." in run_words(Run(weeks=(), median=0.0, shifts=()))


# --- drawn ---


def shares(number: int, title: str = "A cause") -> list[CauseShare]:
    return [
        CauseShare(id=f"c{n}", title=title, amount=10.0 / (n + 1), share=0.1, up_to=0.1 * (n + 1))
        for n in range(number)
    ]


@pytest.mark.parametrize("number", [0, 1, 2, 10])
def test_a_chart_is_whole_and_says_what_it_shows(number: int) -> None:
    svg = pareto(shares(number), "{:.1f}".format, Words("x", "Causes & more", "What <it> says"))
    root = ElementTree.fromstring(svg)
    names = {name: root.find(f"{{http://www.w3.org/2000/svg}}{name}") for name in ("title", "desc")}
    assert names["title"] is not None
    assert names["title"].text == "Causes & more"
    assert names["desc"] is not None
    assert names["desc"].text == "What <it> says"
    assert svg.count("<rect") == number
    assert "\n" not in svg


def test_weeks_of_a_shift_stand_out_by_their_shape() -> None:
    run = run_chart({MONDAY + timedelta(weeks=week): 1 if week < 8 else 9 for week in range(16)})
    svg = weeks(run, Words("w", "Weeks", "told"))
    assert (svg.count("<rect"), svg.count("<circle")) == (16, 0)
    ElementTree.fromstring(svg)
    ElementTree.fromstring(weeks(run_chart({MONDAY: 0}), Words("w", "Weeks", "told")))


def luminance(colour: str) -> float:
    """Relative luminance, as in WCAG 2.2."""
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("ground", ["#ffffff", "#1b1b1f"])
def test_marks_stand_out_from_a_light_and_a_dark_ground(ground: str) -> None:
    from diagnose.casebook.report.charts import BAR, LINE, SHIFTED

    for colour in (BAR, LINE, SHIFTED):
        lighter, darker = sorted((luminance(colour), luminance(ground)), reverse=True)
        assert (lighter + 0.05) / (darker + 0.05) >= 3.0  # WCAG 2.2, 1.4.11: graphics


def test_the_page_needs_nothing_else_and_runs_nothing(found: Report) -> None:
    whole = page(found, "<script>alert(1)</script>", "EUR")
    assert "<script" not in whole
    assert "http" not in whole.replace("http://www.w3.org/2000/svg", "")
    assert "prefers" in whole or "color-scheme: light dark" in whole
    for table in tables(found, "EUR"):
        assert table.title in whole
        assert all(len(row) == len(table.head) for row in table.rows)
    assert list(charts(found, "EUR")) == ["causes", "losses", "weeks"]


# --- what a case costs ---


def bill(*moves: Any, item: str = "tea-towel-65-35", minutes: float | None = None, **more: Any) -> tuple[int, float]:
    session = Session((Pressed(item), Saw(("ghosting",)), *moves))
    rates = Rates(minute=1.0, paper=0.1, scrap=0.2, blank=5.0, help=100.0)
    found = reckon(session, load(), rates, minutes, **more)
    return found.spoilt, found.lost


def test_the_piece_it_began_with_and_its_sheet_are_spoilt(knowledge: Knowledge) -> None:
    towel = knowledge.items["tea-towel-65-35"].blank_price
    assert bill(Cured()) == (1, pytest.approx(towel + 0.1))
    assert bill(Cured(), item="") == (1, pytest.approx(5.1))
    assert bill(Cured(), minutes=7.0) == (1, pytest.approx(towel + 7.1))
    assert bill(HandedOver()) == (1, pytest.approx(towel + 100.1))


def test_a_test_piece_of_cloth_is_scrap_and_one_of_hard_goods_is_a_blank(knowledge: Knowledge) -> None:
    towel, mug = (knowledge.items[item].blank_price for item in ("tea-towel-65-35", "mug"))
    free = next(
        fix.id for fix in knowledge.fixes.values() if not fix.spends.money + fix.spends.paper + fix.spends.blank
    )
    assert bill(TriedFix(free), Cured(free)) == (1, pytest.approx(towel + 3 * 0.1 + 2 * 0.2))
    assert bill(TriedFix(free), Cured(free), item="mug") == (2, pytest.approx(2 * mug + 3 * 0.1))
    assert bill(TriedFix(free), Cured(free), item="mug", spoilt=6) == (6, pytest.approx(6 * mug + 3 * 0.1))


def test_what_checks_use_up_counts(knowledge: Knowledge) -> None:
    check = next(check for check in knowledge.checks.values() if check.spends.paper == 1 and not check.spends.money)
    more = bill(Answered(check.id, check.outcomes[0].id), Cured())[1] - bill(Cured())[1]
    assert more >= 0.1 - 1e-9
