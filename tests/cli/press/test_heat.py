"""``presslore heat`` and ``presslore pressure``: what a person asks them, and what comes back."""

import json
import re

import pytest

from diagnose.cli import exits
from diagnose.cli.terminal.plot import at
from tests.cli.playing import PLAIN, play

NARROW = {**PLAIN, "COLUMNS": "40"}


def heat(*words: str) -> str:
    code, out, err = play(["heat", *words])
    assert (code, err) == (exits.GOOD, "")
    return " ".join(out.split())


def test_how_long_at_190_instead_of_200() -> None:
    told = re.search(
        r"At 190 °C \(374 °F\) instead: (\d+) s for the same as this job got",
        heat("tea", "towel", "--set", "200C", "--dwell", "60s", "--instead", "190C"),
    )
    assert told
    assert 90 <= int(told[1]) <= 130


def test_the_probe_reads_8_under_the_display() -> None:
    out = heat("tea-towel-65-35", "--set", "200C", "--probe", "192C")
    assert "The platen stood 8 °C (14 °F) under its display." in out
    assert re.search(r"Colour: about [678]\d % of full, and likely between \d+ % and \d+ %\.", out)
    assert re.search(r"Within 58 s: 20[789] °C \(\d+ °F\) on the display\.", out)
    assert re.search(r"With 200 °C \(392 °F\) on the display: (8|9|10)\d s is just right\.", out)


def test_how_long_for_a_tile_through_its_back() -> None:
    out = heat("ceramic-tile", "--thickness", "6mm", "--through-back")
    assert "heated through its back" in out
    assert re.search(r"on the display: 3[23]\d s \(5\.[45] min\) is just right", out)


def test_two_sheets_more() -> None:
    assert re.search(
        r"The sheets, 2 more than usual, alone make it 0\.\d+ times the dose", heat("mug", "--sheets", "2")
    )


def test_cautions_come_before_anything_to_do() -> None:
    out = heat("mug")
    assert out.index("The platen burns") < out.index("What to set")
    assert "press a test piece" in out


def test_the_shops_unit_comes_first() -> None:
    from pathlib import Path

    Path("shop.yaml").write_text("units: {temperature: F}\n", encoding="utf-8")
    out = heat("mug", "--set", "370F")
    assert "Set: 370 °F (188 °C)" in out
    assert "°F; * at the dye" in out


def test_what_polyester_does_not_bear_is_warned_of() -> None:
    assert "Too hot: polyester softens" in heat("flag", "--set", "240C")
    assert "Too hot" in heat("flag", "--set", "210C", "--probe", "225C")
    assert "Too hot" in heat("flag", "--instead", "230C")
    assert "Too hot" not in heat("flag", "--set", "215C")


def test_what_takes_no_dye_gets_no_settings() -> None:
    code, out, err = play(["heat", "tea-towel-cotton"])
    assert (code, out) == (exits.PROBLEMS, "")
    assert "Do not press it." in err


def test_a_blend_is_told_what_full_means() -> None:
    assert "its 35 % of other fibre stays bare" in heat("tea-towel-65-35")


def test_json_says_the_same() -> None:
    code, out, err = play(["heat", "mug", "--sheets", "2", "--instead", "200C", "--json"])
    assert (code, err) == (exits.GOOD, "")
    told = json.loads(out)
    assert told["item"]["id"] == "mug"
    assert told["settings"]["cover_sheets"] == 2
    low, high = told["result"]["share_band"]
    assert 0 <= low < told["result"]["share"] < high <= 1
    assert told["instead"]["same_dwell_s"] < told["settings"]["dwell_s"]
    assert told["track"][0] == {"s": 0.0, "dye_c": pytest.approx(20, abs=0.1), "platen_c": 190.0}
    assert told["track"][-1]["s"] == 180.0
    assert "hot-platen" in told["cautions"]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["mug", "--set", "200"], "200F or 200C"),
        (["mug", "--dwell", "0s"], "above 0"),
        (["mug", "--through-back", "--through-sheet"], "give one of them"),
    ],
)
def test_what_is_unclear_is_refused(words: list[str], said: str) -> None:
    code, out, err = play(["heat", *words])
    assert (code, out) == (exits.USAGE, "")
    assert said in " ".join(err.split())


def test_an_unknown_item() -> None:
    code, out, err = play(["heat", "blimp"])
    assert (code, out) == (exits.NOT_UNDERSTOOD, "")
    assert "presslore items" in err


@pytest.mark.parametrize(
    "words",
    [
        ["heat", "ceramic-tile", "--instead", "190C"],
        ["pressure", "--gauge", "6bar", "--bore", "80mm", "--platen", "40x50cm", "--item", "20x20cm"],
    ],
)
def test_it_fits_a_narrow_screen(words: list[str]) -> None:
    code, out, _ = play(words, environment=NARROW)
    assert code == exits.GOOD
    assert max(map(len, out.splitlines())) <= 40


def test_a_plot_reads_values_between_points() -> None:
    points = [(0.0, 20.0), (10.0, 120.0), (30.0, 140.0)]
    assert [at(points, time) for time in (0.0, 5.0, 20.0, 30.0)] == [20.0, 70.0, 130.0, 140.0]


def test_pressure_from_the_gauge() -> None:
    code, out, err = play(["pressure", "--gauge", "6bar", "--bore", "80mm", "--platen", "40x50cm", "--item", "20x20cm"])
    assert (code, err) == (exits.GOOD, "")
    text = " ".join(out.split())
    assert "pushes with 3016 N" in text
    assert "Over the whole platen: 15.1 kPa (0.15 bar, 2.2 psi), light." in text
    assert "Over the item: 75.4 kPa" in text
    assert text.index("Keep hands out") < text.index("3016 N"), "the caution comes first"


def test_pressure_as_json() -> None:
    call = ["pressure", "--gauge", "6bar", "--bore", "80mm", "--platen", "40x50cm", "--json"]
    told = json.loads(play(call)[1])
    reached = {"gauge_for_medium_kpa": None, "most_kpa": 20.11, "medium_over_m": 0.366}
    assert told == {"push_n": 3015.9, "platen_kpa": 15.08, "item_kpa": None, **reached}
    told = json.loads(play([*call, "--item", "20x20cm"])[1])
    reached = {"gauge_for_medium_kpa": 238.7, "most_kpa": None, "medium_over_m": None}
    assert told == {"push_n": 3015.9, "platen_kpa": 15.08, "item_kpa": 75.4, **reached}


def test_no_gauge_is_named_that_no_compressor_reaches() -> None:
    """8 bar is what small workshops reach: a person who gives 60 psi is not told of 20 bar."""
    _, out, _ = play(["pressure", "--gauge", "60psi", "--bore", "63mm", "--platen", "16x20in"])
    text = " ".join(out.split())
    assert "at 116 psi, the most it reaches, 12.1 kPa (0.12 bar, 1.8 psi) come to it, light." in text
    assert "Lift the print on a pad of at most 29 × 29 cm (11 × 11 in)" in text
    assert "on the gauge" not in text


@pytest.mark.parametrize(
    ("gauge", "said"),
    [("60psi", "35 psi on the gauge"), ("6 bar", "2.4 bar on the gauge"), ("600kPa", "239 kPa on the gauge")],
)
def test_the_gauge_is_told_in_its_own_unit(gauge: str, said: str) -> None:
    _, out, _ = play(["pressure", "--gauge", gauge, "--bore", "80mm", "--platen", "40x50cm", "--item", "20x20cm"])
    assert said in " ".join(out.split())
