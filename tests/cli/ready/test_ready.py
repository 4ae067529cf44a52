"""``presslore ready``: by prompts, by flags and by a job file."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from diagnose.cli import exits
from diagnose.cli.asking.prompts import Reply
from diagnose.cli.ready.asking import _picked, _read
from diagnose.press.quantities import Unclear
from tests.cli.playing import AT_ROOT, CTRL_C, PLAIN, play

ROOT = Path(__file__).parents[3]
SCHEMA = ROOT / "diagnose" / "dialogue" / "schema" / "ready.json"


@pytest.fixture(autouse=True)
def _no_shop_above(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))


def told(*args: str) -> tuple[int, dict[str, object]]:
    """The exit code and the JSON, held against its schema."""
    code, out, err = play(["ready", *args, "--json"])
    assert err == ""
    value = json.loads(out)
    Draft202012Validator(json.loads(SCHEMA.read_text(encoding="utf-8"))).validate(value)
    return code, value


def test_a_black_cotton_shirt_is_stopped() -> None:
    code, out, _ = play(["ready", "--item", "black cotton t-shirt"])
    assert code == exits.PROBLEMS
    assert "\nStop.\n" in out
    assert "1 Enough polyester: not so. Do not press it." in out
    assert "2 White or very light: not so." in out


def test_a_usual_job_goes() -> None:
    code, value = told("--item", "apron", "--rest-so", "--set", "385F", "--dwell", "0:55")
    assert (code, value["verdict"]) == (exits.GOOD, "go")
    assert value["changes"] == []
    assert value["last_look"]


@pytest.mark.parametrize(
    "args",
    [
        ("--item", "mug", "--not-so", "wrap-tight", "--pieces", "6", "--spoilt", "2%"),
        ("--item", "ceramic-tile", "--set", "200C", "--dwell", "60s", "--probe", "190C", "--sheets", "2"),
        ("--item", "slate", "--thickness", "12mm", "--set", "200C", "--dwell", "5min", "--pressure", "15kPa"),
        ("--fact", "item.hard=yes", "--fact", "item.coated=no"),
        ("--item", "t-shirt-50-50", "--unsure", "blend-agreed", "--so", "mirrored"),
    ],
    ids=" ".join,
)
def test_json_keeps_to_its_schema(args: tuple[str, ...]) -> None:
    code, value = told(*args)
    assert code == (exits.PROBLEMS if value["verdict"] == "stop" else exits.GOOD)


def test_the_money_is_the_shops(tmp_path: Path) -> None:
    (tmp_path / "shop.yaml").write_text("currency: EUR\nunits: {temperature: F}\n", encoding="utf-8")
    _, out, _ = play(["ready", "--item", "apron", "--set", "180C", "--dwell", "50s", "--pieces", "20"])
    assert "Expected loss on the 20 pieces: EUR " in out
    assert "356 °F (180 °C)" in out


def test_how_many_go_wrong_is_the_shops_own(tmp_path: Path) -> None:
    (tmp_path / "shop.yaml").write_text("spoilt: 0.02\n", encoding="utf-8")
    assert told("--item", "apron")[1]["spoilt"] == pytest.approx(0.02, abs=1e-5)
    assert told("--item", "apron", "--spoilt", "8%")[1]["spoilt"] == pytest.approx(0.08, abs=1e-5)
    (tmp_path / "shop.yaml").write_text("spoilt: 3\n", encoding="utf-8")
    assert "shop.yaml:1:9:" in play(["ready", "--item", "apron"])[2]


def test_cautions_stand_before_what_is_to_be_done() -> None:
    _, out, _ = play(["ready", "--item", "apron", "--not-so", "pressure-enough"])
    body = out[out.index("Before you press") :]
    assert body.index("! Closing platens crush fingers.") < body.index("Turn the pressure up")


def test_a_job_file_says_it_all(tmp_path: Path) -> None:
    job = tmp_path / "fete.yaml"
    job.write_text(
        "item: 65/35 tea towel\nset: 196C\ndwell: 60s\npressure: light to medium\nsheets: 1\npieces: 24\n"
        "not-so: [held]\nso: [blend-agreed]\nrest-so: true\n",
        encoding="utf-8",
    )
    code, value = told("--job", str(job))
    assert code == exits.PROBLEMS
    assert value["pieces"] == 24
    assert [change["statement"] for change in value["changes"]] == ["held"]  # type: ignore[attr-defined]
    assert value["settings"]["pressure"] == "as listed"  # type: ignore[index]
    _, fewer = told("--job", str(job), "--pieces", "2")
    assert fewer["pieces"] == 2  # a flag counts before the file


def test_colour_share_and_coat_are_told_by_flag_or_file(tmp_path: Path) -> None:
    _, value = told("--item", "t-shirt", "--colour", "navy", "--polyester", "65%")
    assert value["facts"]["item.colour"] == "dark"  # type: ignore[index]
    assert value["facts"]["item.polyester"] == 65  # type: ignore[index]
    assert told("--item", "mug", "--uncoated")[1]["verdict"] == "stop"
    (tmp_path / "job.yaml").write_text('item: apron\ncolour: black\npolyester: "62.5%"\n', encoding="utf-8")
    _, value = told("--job", "job.yaml")
    assert value["facts"]["item.colour"] == "black"  # type: ignore[index]
    assert value["facts"]["item.polyester"] == 62.5  # type: ignore[index]
    (tmp_path / "job.yaml").write_text("item: mug\ncoated: false\nfacts: {item.thickness: 4.5}\n", encoding="utf-8")
    _, value = told("--job", "job.yaml")
    assert value["facts"]["item.coated"] is False  # type: ignore[index]
    assert value["facts"]["item.thickness"] == 4.5  # type: ignore[index]


def test_values_are_taken_as_people_type_them() -> None:
    _, out, err = play(["ready", "--item", "apron", "--set", "392", "--dwell", "50", "--polyester", "0.65", "--json"])
    value = json.loads(out)
    assert (value["settings"]["temperature_c"], value["settings"]["dwell_s"]) == (pytest.approx(200.0), 50.0)
    assert value["facts"]["item.polyester"] == 65
    for said in ("392: taken as °F", "50: taken as seconds", "0.65: taken as a share of 1"):
        assert said in err
    _, value = told("--item", "apron", "--polyester", "65/35")
    assert value["facts"]["item.polyester"] == 65  # type: ignore[index]


@pytest.mark.parametrize(
    ("typed", "heat", "time"),
    [
        ("196C 50", 196.0, 50.0),
        ("50 196C", 196.0, 50.0),
        ("385F/50s", 1765 / 9, 50.0),
        ("392 50", 200.0, 50.0),
        ("392", 200.0, None),
        ("1:00 385 F", 1765 / 9, 60.0),
        ("196C", 196.0, None),
    ],
)
def test_heat_and_time_in_one_line(typed: str, heat: float, time: float | None) -> None:
    assert _read(typed) == (pytest.approx(heat), time)


@pytest.mark.parametrize("typed", ["196 60s", "196C 3", "196C 50 40", "60 45"])
def test_a_number_that_may_be_two_things_is_asked_about(typed: str) -> None:
    with pytest.raises(Unclear):
        _read(typed)


@given(st.text(alphabet="item:mug \n-[]{}'\"&*!#0123456789CFs%pieces", max_size=60))
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_no_job_file_breaks_it(tmp_path: Path, text: str) -> None:
    (tmp_path / "job.yaml").write_text(text, encoding="utf-8")
    code, _, err = play(["ready", "--job", str(tmp_path / "job.yaml")])
    assert code in (exits.GOOD, exits.PROBLEMS, exits.USAGE, exits.NOT_UNDERSTOOD)
    assert "Traceback" not in err


def test_everything_wrong_with_a_job_file_is_told(tmp_path: Path) -> None:
    job = tmp_path / "fete.yaml"
    job.write_text("itm: tea towel\npieces: 0\nsheets: two\n", encoding="utf-8")
    code, out, err = play(["ready", "--job", str(job)])
    assert (code, out) == (exits.PROBLEMS, "")
    for place in ("fete.yaml:1:1:", "fete.yaml:2:9:", "fete.yaml:3:9:"):
        assert place in err
    code, _, err = play(["ready", "--job", "nowhere.yaml"])
    assert code == exits.PROBLEMS
    assert "nowhere.yaml: this is not there" in err


@pytest.mark.parametrize(
    ("args", "said"),
    [
        (["--item", "mug", "--not-so", "mirored"], "Did you mean mirrored?"),
        (["--item", "mug", "--so", "dry", "--not-so", "dry"], "cannot be both so and not so"),
        (["--item", "mug", "--set", "200"], "has no unit"),
        (["--item", "mug", "--probe", "190C"], "--probe without --set"),
        (["--item", "mug", "--pressure", "gentle"], "expected light, light to medium"),
        (["--item", "mug", "--press", "big-one"], "no shop.yaml names presses"),
        ([], "nothing is said of the job"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, list) else " ",
)
def test_what_is_not_understood_is_said(args: list[str], said: str) -> None:
    code, out, err = play(["ready", *args])
    assert (code, out) == (exits.USAGE, "")
    assert said in " ".join(err.split())


def test_a_value_without_sense_in_a_job_file(tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text('item: mug\nset: "200"\n', encoding="utf-8")
    code, _, err = play(["ready", "--job", "job.yaml"])
    assert code == exits.USAGE
    assert "200" in err
    assert "has no unit" in " ".join(err.split())


def test_no_item_goes_by_these_words() -> None:
    code, out, err = play(["ready", "--item", "xyzzy"])
    assert (code, out) == (exits.NOT_UNDERSTOOD, "")
    assert "No item goes by" in err
    code, value = told("--item", "xyzzy")
    assert code == exits.NOT_UNDERSTOOD
    assert value["not_understood"] == ["xyzzy"]


def test_three_questions_and_enter_is_the_usual_answer() -> None:
    code, out, _ = play(["ready"], ["apron", "", ""], somebody=True)
    assert code == exits.GOOD
    assert out.count("> ") == 3
    assert "\nGo.\n" in out


def test_numbers_say_what_is_not_so_and_what_nobody_is_sure_of() -> None:
    _, out, _ = play(["ready"], ["apron", "u", "?", "1 11? 40", "nonsense", "1 11?"], somebody=True)
    assert out.count("Type numbers from the list") == 2
    assert "1 Mirrored: not so." in out
    assert "2 Dry: not sure." in out


def test_an_item_told_by_flag_is_not_asked_for() -> None:
    _, out, _ = play(["ready", "--item", "mug"], ["", ""], somebody=True)
    assert "What is to be pressed" not in out
    assert "wrap" not in out.split("Look.")[0]
    assert "Wrap tight" in out


def test_the_list_of_items_and_one_that_is_not_known() -> None:
    _, out, _ = play(["ready"], ["xyzzy", "l", "1", "", ""], somebody=True)
    assert "I do not know that item." in out
    assert "none of these" in out


@pytest.mark.parametrize("keys", [["apron", CTRL_C], ["apron"]], ids=["ctrl-c", "end of input"])
def test_stopped_in_the_middle(keys: list[str]) -> None:
    code, out, _ = play(["ready"], keys, somebody=True)
    assert code == exits.STOPPED
    assert "Stop." not in out


def test_the_press_that_the_shop_knows_counts(tmp_path: Path) -> None:
    (tmp_path / "shop.yaml").write_text(
        "presses:\n- id: the-clam\n  title: The clam\n  facts: {press.kind: clamshell}\n"
        "  known:\n  - {cause: platen-runs-cool, turns-up: very likely, note: reads 8 °C low}\n",
        encoding="utf-8",
    )
    code, value = told("--item", "apron")
    assert value["facts"]["press.name"] == "the-clam"  # type: ignore[index]
    assert value["risks"][0]["causes"][0]["cause"] == "platen-runs-cool"  # type: ignore[index]
    assert told("--item", "apron", "--press", "the-clam")[0] == code


def test_the_statements_are_listed() -> None:
    code, out, _ = play(["ready", "--list"])
    assert code == exits.GOOD
    assert "mirrored " in out


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("196C 60s", (196.0, 60.0)),
        ("1:00, 385 F", (pytest.approx(196.11, abs=0.01), 60.0)),
        ("200 °C", (200.0, None)),
        ("45 s", (None, 45.0)),
    ],
)
def test_heat_and_time_in_any_order(typed: str, read: tuple[float, float]) -> None:
    assert _read(typed) == read


@pytest.mark.parametrize(
    ("typed", "picked"),
    [("", ([], [])), ("2, 5?", ([2], [5])), ("3 ?", ([], [3])), ("9", None), ("two", None), ("0", None)],
)
def test_numbers_from_the_list(typed: str, picked: object) -> None:
    assert _picked(Reply(words=typed), 8) == picked


def test_a_narrow_terminal_without_letters_beyond_ascii() -> None:
    environment = {**AT_ROOT, "COLUMNS": "40", "PYTHONIOENCODING": "ascii", "NO_COLOR": "1"}
    command = [sys.executable, "-m", "diagnose", "ready", "--item", "mug", "--set", "170C", "--dwell", "60s"]
    done = subprocess.run(command, env=environment, cwd=os.getcwd(), capture_output=True, timeout=300)
    text = done.stdout.decode("ascii")
    assert "?" not in text
    assert max(map(len, text.splitlines())) <= 40
    assert "deg C" in text


def test_plain_is_plain() -> None:
    assert "\x1b" not in play(["ready", "--item", "mug"], environment=PLAIN)[1]
