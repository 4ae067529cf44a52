"""``presslore colour`` and ``presslore blend``, as they are called."""

import csv
import io
import json
import subprocess
import sys
from pathlib import Path

import pytest

from diagnose.cli import exits
from tests.cli.playing import AT_ROOT, PLAIN, play

PAIR = ["colour", "--proof", "52,40,20", "--print", "58,33,18"]
MANY = {**PLAIN, "FORCE_COLOR": "1", "COLORTERM": "truecolor", "TERM": "xterm-256color", "NO_COLOR": ""}


@pytest.fixture(autouse=True)
def _no_shop_above(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))


@pytest.fixture
def measured(tmp_path: Path) -> Path:
    path = tmp_path / "measured.csv"
    sheet = (
        "name;L*;a*;b*\nfête red proof;52;40;20\nfête red print;58;33;18\ncloth proof;95;0;0\ncloth print;94,8;0;0,4\n"
    )
    path.write_bytes(sheet.encode("cp1252"))
    return path


def test_a_pair_by_hand() -> None:
    code, out, err = play(PAIR)
    assert (code, err) == (exits.GOOD, "")
    assert "6.3 apart, plainly different; fails at 2" in out
    assert "much lighter, less colourful and slightly turned towards yellow" in out
    assert "Grade for change of colour 2 (ISO 105-A05); for staining 3-4 (ISO 105-A04)" in out
    assert "Faint colour [faint-colour]" in out
    assert "\n  presslore diagnose --saw faint-colour\n" in out
    assert "\x1b" not in out


def test_the_call_to_go_on_is_one_that_works() -> None:
    code, out, _ = play(["diagnose", "--saw", "faint-colour", "--json"])
    assert code == exits.GOOD
    assert json.loads(out)["understood"]["defects"][0]["id"] == "faint-colour"


def test_before_and_after_the_wash() -> None:
    _, out, _ = play([*PAIR, "--washed"])
    assert "presslore diagnose --saw wash-out" in out


def test_a_yellowed_ground() -> None:
    _, out, _ = play(["colour", "--proof", "95,0,0", "--print", "92;1;6,5"])
    assert "Yellowed ground [yellowed-ground], or\n" in out or "[yellowed-ground], or Scorching" in out


def test_the_tolerance_is_the_shops_or_the_option(tmp_path: Path) -> None:
    (tmp_path / "shop.yaml").write_text("tolerance: 7\n", encoding="utf-8")
    assert "passes at 7" in play(PAIR)[1]
    assert "fails at 1.5" in play([*PAIR, "--tolerance", "1.5"])[1]
    assert "within 7 of its proof" in play(["shop", "show"])[1]


@pytest.mark.parametrize("tolerance", ["none", "0", "-1", "200"])
def test_a_tolerance_that_is_none_is_named(tmp_path: Path, tolerance: str) -> None:
    (tmp_path / "shop.yaml").write_text(f"tolerance: {tolerance}\n", encoding="utf-8")
    code, out, err = play(["rules", "check"])
    assert code == exits.PROBLEMS
    assert "shop.yaml:1:12" in out + err
    assert "fails at 2" in play(PAIR)[1]  # the file is left out, and the usual tolerance serves


def test_a_sheet(measured: Path) -> None:
    code, out, _ = play(["colour", str(measured)])
    assert code == exits.GOOD
    assert "2 pairs: 1 pass, 1 fail at a tolerance of 2" in out
    assert out.index("fête red: 6.3") < out.index("cloth: 0.")


def test_a_sheet_as_a_sheet(measured: Path) -> None:
    rows = list(csv.DictReader(io.StringIO(play(["colour", str(measured), "--csv"])[1])))
    assert [(row["name"], row["passes"], row["kind"]) for row in rows] == [
        ("fête red", "no", "weaker"),
        ("cloth", "yes", ""),
    ]
    assert rows[0]["ciede2000"] == "6.29"
    assert rows[0]["change"] == "2"


def test_a_sheet_as_json(measured: Path) -> None:
    found = json.loads(play(["colour", str(measured), "--json"])[1])
    assert (found["pairs"], found["failed"], found["tolerance"]) == (2, 1, 2.0)
    first = found["judged"][0]
    assert first["ciede2000"] == pytest.approx(6.2857, abs=1e-4)
    assert first["difference"]["L"] == 6.0
    assert first["points_to"][0]["defects"][0] == "faint-colour"


def test_a_name_cannot_be_a_formula(tmp_path: Path) -> None:
    path = tmp_path / "sheet.csv"
    path.write_text("name,L,a,b\n=1+1,50,0,0\n=1+1,60,0,0\n", encoding="utf-8")
    assert "\n'=1+1," in play(["colour", str(path), "--csv"])[1]


def test_of_many_pairs_the_worst_are_shown(tmp_path: Path) -> None:
    path = tmp_path / "sheet.csv"
    path.write_text("L,a,b\n" + "".join(f"{50 + n},0,0\n" for n in range(40)), encoding="utf-8")
    _, out, _ = play(["colour", str(path), "--proof", "50,0,0"])
    assert out.count("apart, ") == 12
    assert "line 41: " in out
    assert "Shown are the 12 worst that fail" in out
    _, out, _ = play(["colour", str(path), "--proof", "70,0,0", "--tolerance", "50"])
    assert "None of them fails; every pair: --csv" in out


@pytest.mark.parametrize(
    ("args", "says"),
    [
        (["colour"], "two colours or a file is missing"),
        (["colour", "--proof", "1,2,3"], "--print is missing"),
        (["colour", "--proof", "mauvish", "--print", "1,2,3"], "no colour goes by 'mauvish'"),
        (["colour", "--proof", "#12", "--print", "1,2,3"], "#b03a2e"),
        ([*PAIR, "--tolerance", "0"], "--tolerance"),
        ([*PAIR, "--tolerance", "nan"], "--tolerance"),
        (["colour", "nowhere.csv"], "nowhere.csv"),
        (["blend", "--print", "mauve"], "one of black, navy"),
        (["blend", "--share", "130"], "0 to 1"),
        (["blend", "--ground", "1,2"], "three numbers"),
    ],
)
def test_a_call_that_is_not_understood(args: list[str], says: str) -> None:
    code, out, err = play(args)
    assert (code, out) == (exits.USAGE, "")
    assert says in " ".join(err.split())


def test_a_broken_sheet_is_named(tmp_path: Path) -> None:
    (tmp_path / "bad.csv").write_text("name,L,a,b\nx,52,?,1\n", encoding="utf-8")
    code, out, err = play(["colour", "bad.csv"])
    assert (code, out) == (exits.PROBLEMS, "")
    assert "bad.csv:2:3: '?' is not a number" in err


def test_swatches_where_there_is_colour() -> None:
    assert "\x1b[48;2;" in play(PAIR, environment=MANY)[1]
    assert "\x1b[48;5;" in play(PAIR, environment={**MANY, "COLORTERM": ""})[1]
    assert "\x1b[48" not in play(PAIR, environment={**MANY, "NO_COLOR": "1"})[1]
    assert "\x1b[48" not in play(PAIR, environment={**MANY, "COLORTERM": "", "TERM": "xterm"})[1]
    assert "\x1b" not in play(["blend"])[1]
    assert play(["blend"], environment=MANY)[1].count("\x1b[48;2;") == 24


def test_a_colour_beyond_the_screen_is_told_beside_its_swatch() -> None:
    beyond, within = (play(["blend", "--print", each], environment=MANY)[1] for each in ("50,-60,-20", "45,60,38"))
    assert "more than a screen can show" in beyond
    assert "more than a screen can show" not in within


def test_a_sheet_from_standard_input(tmp_path: Path) -> None:
    sheet = b"name,L,a,b\nred,50,40,20\nred,56,33,18\n"
    call = [sys.executable, "-m", "diagnose", "colour", "-", "--csv"]
    done = subprocess.run(call, input=sheet, capture_output=True, cwd=tmp_path, env={**AT_ROOT, "NO_COLOR": "1"})
    assert done.returncode == exits.GOOD
    assert b"\nred,6." in done.stdout


def test_a_blend() -> None:
    code, out, err = play(["blend", "--print", "navy", "--share", "65%", "--share", "100"])
    assert (code, err) == (exits.GOOD, "")
    assert "Dark blue print: 22.0, 8.0, -35.0 on white polyester" in out
    assert "All polyester: it stays as it was printed." in out
    assert "35 % of it cotton" in out
    assert "press a trial" in " ".join(out.split())


def test_a_blend_as_json() -> None:
    found = json.loads(play(["blend", "--print", "45,60,38", "--json"])[1])
    blends = found["prints"][0]["blends"]
    assert [each["polyester"] for each in blends] == [1.0, 0.65, 0.5, 0.35]
    lost = [each["lost_in_wash"] for each in blends]
    assert lost == sorted(lost)
    assert lost[0] < 0.05 < 3 < lost[1]
    assert set(blends[1]["washed"]["by"]) == {"Stearns–Noechel", "Friele", "Kubelka–Munk"}


def test_a_tinted_ground_and_all_cotton() -> None:
    _, out, _ = play(["blend", "--print", "yellow", "--ground", "navy", "--share", "0", "--share", "100"])
    text = " ".join(out.split())
    assert "On dark blue cloth the print is" in text
    assert "it can hardly be seen. The ink has no white" in text
    assert "All cotton holds no dye" in text


def test_another_light_is_carried_over() -> None:
    day, warm = (
        json.loads(play(["blend", "--print", "45,60,38", "--light", light, "--json"])[1])["prints"][0]["print"]
        for light in ("D65", "D50")
    )
    assert day == {"L": 45.0, "a": 60.0, "b": 38.0}
    assert warm != day
    assert abs(warm["L"] - 45.0) < 2.0


def test_a_colour_goes_by_its_name() -> None:
    by_name = json.loads(play(["colour", "--proof", "red", "--print", "Pale  grey", "--json"])[1])
    assert by_name == json.loads(play(["colour", "--proof", "45,60,38", "--print", "82,0,0", "--json"])[1])
