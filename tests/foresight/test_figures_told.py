"""Figures in a person's own words: which of them are one, of what, and what only looks like one."""

from time import process_time

import pytest

from diagnose.foresight.figures_told import LONGEST, figures_told, number, without_figures
from diagnose.reasoning.words.spelling import taken
from tests.reasoning.words.hostile import HOSTILE


def told(text: str) -> dict[str, float]:
    return {one.name: round(one.value, 4) for one in figures_told(text)}


def f(degrees: float) -> float:
    return round((degrees - 32) / 1.8, 4)


@pytest.mark.parametrize(
    ("text", "figures"),
    [
        ("350F for 40 seconds", {"set": f(350), "dwell": 40}),
        ("385 / 60 sec", {"set": f(385), "dwell": 60}),
        ("200C 55s", {"set": 200, "dwell": 55}),
        ("350oF", {"set": f(350)}),
        ("385@60", {"set": f(385), "dwell": 60}),
        ("pressed at 400 for 45", {"set": f(400), "dwell": 45}),
        ("60 seconds at 385", {"set": f(385), "dwell": 60}),
        ("three eighty five for forty five seconds", {"set": f(385), "dwell": 45}),
        ("four hundred for one minute", {"set": f(400), "dwell": 60}),
        ("set temp 195, time 60", {"set": 195, "dwell": 60}),
        ("185 degrees C for 4 minutes", {"set": 185, "dwell": 240}),
        ("at 180 degrees", {"set": 180}),
        ("at 350 degrees", {"set": f(350)}),
        ("385F (196C)", {"set": 196}),
        ("2 min", {"dwell": 120}),
        ("one minute ten", {"dwell": 70}),
        ("1 min 10", {"dwell": 70}),
        ("2 min 30 sec", {"dwell": 150}),
        ("1:30", {"dwell": 90}),
        ("a minute and a half", {"dwell": 90}),
        ("half a minute", {"dwell": 30}),
        ("set 200 but my probe says 185", {"set": 200, "probe": 185}),
        ("385F, the probe reads 371", {"set": f(385), "probe": f(371)}),
        ("set 400F, probe says 250", {"set": f(400), "probe": f(250)}),  # the scale of the other
        ("display reads 196 but it is actually 185", {"set": 196, "probe": 185}),
        ("press at 200 probe says 185", {"set": 200, "probe": 185}),
        ("a strip in the stack read 365F", {"strip": f(365)}),
        ("watch says 38 seconds, timer set to 45", {"watch": 38, "dwell": 45}),
        ("two sheets of parchment over it", {"sheets": 2}),
        ("6mm thick board", {"thickness": 0.006}),
        ("pre-press 5 seconds then 385F for 60 seconds", {"set": f(385), "dwell": 60}),
        ("first at 350F then turned up to 400F", {"set": f(400)}),
    ],
)
def test_a_figure_is_taken_for_what_the_words_beside_it_say(text: str, figures: dict[str, float]) -> None:
    assert told(text) == figures


@pytest.mark.parametrize(
    "text",
    [
        "between 190 and 200",
        "190-200C",
        "40 to 50 seconds",
        "20 x 30 cm",
        "50 mugs",
        "85 % polyester",
        "65/35",
        "on 12.03.2026",
        "it cost me $385",
        "40 psi",
        "10 degrees low",
        "20 seconds too long",
        "by 15 degrees",
        "let it cool for 10 minutes",
        "waited 5 minutes",
        "the press warmed up for 20 min",
        "washed at 40 degrees",
        "should be 400",
        "printed 20 sheets",
        "at 350F pale, at 400F scorched",
        "since Monday, only the first 3",
        "I am pressing mugs and they are pale",
        "Am I right, pale mug",
        "at 7 am it was pale",
        "",
    ],
)
def test_what_only_looks_like_a_figure_is_none(text: str) -> None:
    assert told(text) == {}


@pytest.mark.parametrize(
    ("words", "value"),
    [("385", 385.0), ("1,5", 1.5), ("three eighty five", 385.0), ("two hundred and five", 205.0), ("forty-five", 45.0)],
)
def test_numbers_in_words(words: str, value: float) -> None:
    assert number(words) == value


def test_what_is_left_reads_on_without_the_words_that_led_to_a_figure() -> None:
    text = "mug came out pale, 350F for 40 seconds, since Monday"
    left = without_figures(text, figures_told(text))
    assert not any(sign.isdigit() for sign in left)
    assert "for" not in left.split()
    assert left.startswith("mug came out pale")
    assert left.endswith("since Monday")


def test_a_figure_stands_where_its_words_stand() -> None:
    text = "Pressed at 385°F, 60s"
    assert [text[one.first : one.last] for one in figures_told(text)] == ["385°F", "60s"]


@pytest.mark.parametrize(
    ("text", "seconds"), [("for a minute", 60.0), ("half a minute", 30.0), ("a minute and ten", 70.0)]
)
def test_a_minute_is_one_without_a_number(text: str, seconds: float) -> None:
    assert told(text) == {"dwell": seconds}


def test_no_press_is_shut_for_longer_than_half_an_hour() -> None:
    assert told("40 minutes") == {}
    assert told(f"{LONGEST:g} seconds") == {"dwell": LONGEST}


@pytest.mark.parametrize("sign", ["\u00b0", "\u00ba", "\u02da", " deg ", "\u2009\u00b0\u00a0"])
def test_a_degree_counts_however_it_was_typed(sign: str) -> None:
    assert told(f"350{sign}F") == {"set": f(350)}
    assert told(taken(f"350{sign}F for 40s")) == {"set": f(350), "dwell": 40}


ENDLESS = (
    *HOSTILE,
    *(part * 700 for part in ("a minute ", "200 for ", "1:30 ", "6mm thick ", "2 sheets over ", "set 200 ")),
)


@pytest.mark.parametrize("text", ENDLESS, ids=lambda text: repr(text[:12]))
def test_endless_figures_are_read_in_a_moment(text: str) -> None:
    start = process_time()
    figures_told(taken(text))
    assert process_time() - start < 1.0  # a run of digits took seconds


def test_a_long_run_of_digits_is_no_figure() -> None:
    assert told("order 4100000350F, 40s") == {"dwell": 40}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("oven 200 for 15 mins", {"set": 200.0, "dwell": 900.0}),
        ("190 3 min", {"set": 190.0, "dwell": 180.0}),
        ("385 for 1 min 30", {"set": 196.1, "dwell": 90.0}),
        ("2 min 30 200", {"dwell": 150.0}),
        ("200/60", {"set": 200.0, "dwell": 60.0}),
        ("thermometer says 182 in the corner", {"probe": 182.0}),
        ("a 12 in plate at 200", {"set": 200.0}),
        ("press dropped to 160", {}),
        ("tried 60, 75 and 90 seconds", {}),
    ],
)
def test_a_time_after_a_heat_keeps_its_unit_and_a_fall_sets_nothing(text: str, told: dict[str, float]) -> None:
    found = {figure.name: round(figure.value, 1) for figure in figures_told(text)}
    assert found == told
