"""Figures typed as flags of ``diagnose``, and in answer to a check in the dialogue."""

import json
import subprocess
import sys
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from diagnose.cli import exits
from diagnose.cli.options import FIGURE_FLAGS
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import CannotDo, CannotTell, Measured, Move, Pressed, Saw
from diagnose.dialogue.saving import to_json
from diagnose.dialogue.session import Session
from diagnose.foresight.figures import COLOURS, FIGURES
from diagnose.knowledge.loading import load
from diagnose.knowledge.shop import Shop
from tests.cli.diagnosis.test_consulting import SCHEMA
from tests.cli.playing import AT_ROOT, play

PALE = ["diagnose", "--item", "cushion cover", "--saw", "washed out"]
PROBED = ["--set", "385F", "--probe", "371F"]


def whole(*flags: str) -> dict[str, Any]:
    code, out, _ = play([*PALE, *flags, "--json"])
    assert code == exits.GOOD
    told: dict[str, Any] = json.loads(out)
    jsonschema.validate(told, SCHEMA)
    return told


def test_every_figure_has_a_flag() -> None:
    assert set(FIGURE_FLAGS) == set(FIGURES) | {f"{colour}_lab" for colour in COLOURS}


def test_a_probe_reading_changes_the_first_cause() -> None:
    before, after = whole(), whole(*PROBED)
    assert before["causes"][0]["id"] != "platen-runs-cool"
    assert after["causes"][0]["id"] == "platen-runs-cool"
    assert after["causes"][0]["probability"] > 0.5
    assert after["understood"]["figures"] == {"set": 196.1111, "probe": 188.3333}
    assert {reading["id"] for reading in after["readings"]} == {"platen-gap", "set-gap"}


def test_all_figures_at_once() -> None:
    flags = [f"--{name}={figure.example}" for name, figure in FIGURES.items()]
    lab = ["--proof-lab=52,40,20", "--print-lab=58,33,18", "--blank-lab=95,0,2", "--ground-lab=93,1,8"]
    told = whole(*flags, *lab)
    assert {reading["id"] for reading in told["readings"]} == {
        "platen-gap", "set-gap", "dwell-gap", "clock-gap", "layers", "layers-dose", "stack-gap", "lightness", "chroma",
        "hue", "yellowness",
    }  # fmt: skip


def test_the_whole_press_is_reckoned_where_the_figures_are_enough() -> None:
    assert whole(*PROBED)["reckoned"] is None
    enough = whole("--set", "385F", "--dwell", "45s")["reckoned"]
    short = whole(*PROBED, "--dwell", "45s", "--sheets", "2")["reckoned"]
    least, most = short["share_band"]
    assert least < short["share"] < most < 1
    assert short["dose_ratio"] < 0.5 * enough["dose_ratio"]
    assert short["peak"] < 188.3 < enough["peak"] < 196.2
    assert short["text"].startswith("Reckoned from the figures: the dye came to ")


def test_the_share_of_polyester_is_a_fact_of_the_job() -> None:
    assert whole("--polyester", "65%")["understood"]["facts"]["item.polyester"] == 65


@pytest.mark.parametrize(
    ("flags", "wrong"),
    [
        (["--set", "196"], "'--set': '196' has no unit: is it 196F or 196C?"),
        (["--probe", "900F"], "'--probe': '900F' makes no sense as a temperature"),
        (["--dwell", "45F"], "is not a unit of dwell"),
        (["--sheets", "many"], "not a number of sheets"),
        (["--print-lab", "52,40"], "'--print-lab': '52,40' is not a colour"),
        (["--polyester", "130"], "'--polyester': '130' makes no sense as a share"),
    ],
)
def test_what_cannot_be_taken_is_refused_with_its_flag(flags: list[str], wrong: str) -> None:
    code, _, err = play([*PALE, *flags])
    assert code == exits.USAGE
    assert wrong in " ".join(err.split())


def test_a_figure_that_says_nothing_is_told_on_standard_error() -> None:
    code, out, err = play([*PALE, "--probe", "371F", "--json"])
    assert code == exits.GOOD
    assert json.loads(out)["readings"] == []
    assert "What the probe reads on the platen says nothing without the temperature on the display." in err


def talk(*typed: str, flags: tuple[str, ...] = ()) -> str:
    code, out, err = play(["diagnose", *flags], typed, somebody=True)
    assert code == exits.GOOD
    return out + err


@cache
def session_at(check: str) -> Session:
    return session_with((), check)


def session_with(more: Sequence[Move], check: str) -> Session:
    """A session in which this check is asked: whatever else was advised can neither be told nor done."""
    session, knowledge = Session((Pressed("cushion-cover"), Saw(("faint-colour",)), *more)), load()
    while (advice := Consultation(knowledge, Shop(), session).advice).id != check:
        session = session.make(CannotTell(advice.id) if advice.kind == "check" else CannotDo(advice.id))
    return session


def asked(check: str, *typed: str, more: Sequence[Move] = ()) -> str:
    """A dialogue gone on with where this check is asked."""
    session = session_with(more, check) if more else session_at(check)
    Path("session.json").write_text(to_json(session, load().version))
    return talk(*typed, "s", flags=("--resume", "session.json", "--save", "after.json", "--force"))


def test_a_figure_answers_the_check() -> None:
    shown = asked("probe-the-platen", "188C against 196C", "w")
    assert "or the figure: 188C against 196C" in shown
    assert "The probe read 188 °C (370 °F) where 196 °C (385 °F) was set: 8 °C (14 °F) short." in shown
    assert "1 The platen runs cooler than its display" in shown.split("short.")[1]


def test_the_figure_beside_it_is_asked_for_once() -> None:
    shown = asked("probe-the-platen", "371F", "385F")
    assert "And the temperature on the display? Such as 196C." in shown
    assert "8 °C (14 °F) short." in shown
    again = asked("probe-the-platen", "371F", more=[Measured({"set": (385 - 32) / 1.8})])
    assert "And the temperature" not in again
    assert "8 °C (14 °F) short." in again


@pytest.mark.parametrize(
    ("typed", "wrong"),
    [
        (["371F", ""], "'' is not a temperature"),
        (["188 against 196"], "'188' has no unit"),
        (["188C against 9999C"], "makes no sense"),
    ],
)
def test_what_is_no_figure_is_said_and_the_check_asked_again(typed: list[str], wrong: str) -> None:
    shown = asked("probe-the-platen", *typed, "2")
    assert wrong in shown
    assert "short." not in shown


def test_words_still_answer_the_check() -> None:
    assert "Do you mean" in asked("probe-the-platen", "reads too cold", "y")


def test_back_takes_a_figure_back_and_saving_keeps_it() -> None:
    shown = asked("probe-the-platen", "188C against 196C", "b")
    assert shown.count("or the figure: 188C against 196C") == 2
    assert "The probe read" not in talk("w", "s", flags=("--resume", "after.json"))
    asked("probe-the-platen", "188C against 196C")
    assert "The probe read 188 °C" in talk("w", "s", flags=("--resume", "after.json"))


def test_neither_numpy_nor_the_press_is_loaded_without_figures() -> None:
    code = (
        "import sys; from diagnose.cli.program import run; run(['diagnose', '--saw', 'ghosting', '--json']); "
        "heavy = ['numpy', 'diagnose.press.pressing', 'diagnose.press.colour.difference']; "
        "print([name for name in heavy if name in sys.modules], file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], env=AT_ROOT, capture_output=True, text=True)
    assert done.stderr.endswith("[]\n")


def test_a_case_written_down_by_hand_keeps_its_figures(tmp_path: Path) -> None:
    book = ["--book", str(tmp_path / "cases.db")]
    told = ["--item", "cushion cover", "--saw", "washed out", *PROBED, "--cured-by", "set-heat-by-probe"]
    code, _, err = play(["cases", "add", *told, *book])
    assert code == exits.GOOD, err
    code, out, _ = play(["cases", "show", "last", *book])
    assert "- The probe read 188 °C (371 °F) where 196 °C (385 °F) was set: 8 °C (14 °F) short" in " ".join(out.split())
