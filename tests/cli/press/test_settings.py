"""``presslore settings``: how goods are pressed, and where to begin with new ones."""

import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from diagnose.cli import exits
from diagnose.cli.press import settings_pages
from diagnose.cli.shop import shelf
from diagnose.cli.shop.shelf import Shelf
from diagnose.foresight.settings import recipe
from diagnose.speech.preparing import part_title, part_words
from tests.cli.playing import PLAIN, play

SCHEMA = Path(__file__).parents[3] / "diagnose" / "dialogue" / "schema" / "settings.json"


@pytest.fixture(autouse=True)
def _no_shop_above(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))


def test_cautions_come_before_anything_to_be_done() -> None:
    code, out, err = play(["settings", "65/35", "tea", "towel"])
    assert (code, err) == (exits.GOOD, "")
    lines = out.splitlines()
    assert lines[0] == "Tea towel, 65/35 polyester and cotton"
    assert lines[1].startswith("! ")
    last = max(number for number, line in enumerate(lines) if line.startswith("! "))
    assert last < next(number for number, line in enumerate(lines) if line.startswith("Heat"))
    for part in ("Pre-press  5–8 s", "Heat       196–204 °C (385–399 °F)", "Time       50–65 s", "Basis of every line"):
        assert part in out


def test_the_shops_own_unit_first(tmp_path: Path) -> None:
    (tmp_path / "shop.yaml").write_text("units: {temperature: F}\n", encoding="utf-8")
    assert "Heat       385–399 °F (196–204 °C)" in play(["settings", "tea-towel-65-35"])[1]
    assert "392 °F (200 °C) on the display" in play(["settings", "--like", "ceramic-tile", "--thickness", "9mm"])[1]


def test_why_gives_the_reasons() -> None:
    assert "Why" not in play(["settings", "mug"])[1].splitlines()
    out = play(["settings", "mug", "--why"])[1]
    assert "- Peel: Hard goods hold heat" in out
    assert "\n\nWhy\n- " in out


def test_the_parts_of_the_page_stand_apart() -> None:
    code, out, _ = play(["settings", "cushion-cover"])
    note = shelf.knowledge().items["cushion-cover"].settings
    assert note is not None
    told, stood = " ".join(note.note.split()), [" ".join(block.split()) for block in out.split("\n\n")]
    assert code == exits.GOOD
    assert [stood[1].startswith("Heat"), stood[2], stood[3].startswith("A place to start from:")] == [True, told, True]
    assert len(stood) == 4


def test_goods_that_may_disappoint_are_warned_of() -> None:
    _, out, _ = play(["settings", "black cushion cover"])
    assert "Speaks against pressing it: The ink is see-through" in " ".join(out.split())
    assert "Speaks against" not in play(["settings", "cushion-cover"])[1]


@pytest.mark.parametrize(
    ("args", "title"),
    [
        (("t-shirt-cotton",), "T-shirt, all cotton (does not take the dye)"),
        (("100% cotton cushion cover",), "Cushion cover, 0 % polyester"),
        (("uncoated tile",), "Ceramic tile, coated"),
        (("hi vis t-shirt",), "T-shirt"),
        (("--like", "apron", "--polyester", "20%"), "Apron, 20 % polyester"),
    ],
)
def test_goods_that_are_not_pressed_get_no_settings(args: tuple[str, ...], title: str) -> None:
    code, out, err = play(["settings", *args])
    assert (code, out) == (exits.PROBLEMS, "")
    assert err.startswith(title)
    assert "Do not press it." in " ".join(err.split())
    assert "°C" not in err.partition("about 150 °C")[0]


def test_a_shops_own_line_is_marked(tmp_path: Path) -> None:
    kb = tmp_path / "kb"
    kb.mkdir()
    (tmp_path / "shop.yaml").write_text("name: The harbour workshop\n", encoding="utf-8")
    own = "handling:\n  cover-cloth: {part: cover, text: Two sheets, why: The quay is dusty., basis: common practice}\n"
    (kb / "own.yaml").write_text(own, encoding="utf-8")
    assert "Covered    Two sheets [this shop]" in play(["settings", "apron"])[1]


def as_told(*args: str) -> dict[str, Any]:
    """The JSON, held against its schema."""
    code, out, err = play(["settings", *args, "--json"])
    assert (code, err) == (exits.GOOD, "")
    told: dict[str, Any] = json.loads(out)
    Draft202012Validator(json.loads(SCHEMA.read_text(encoding="utf-8"))).validate(told)
    return told


def test_as_json() -> None:
    told = as_told("mug")
    assert told["temperature_c"] == [185.0, 195.0]
    assert told["parts"][0]["part"] == "pre-press"
    assert all(part["basis"] for part in told["parts"])


@pytest.mark.parametrize("item", ["mug", "tea-towel-65-35", "apron", "glass-cutting-board"])
def test_each_part_of_the_work_stands_on_its_line_and_in_json(item: str) -> None:
    knowledge = shelf.knowledge()
    found = recipe(knowledge.items[item], knowledge)
    assert found is not None
    parts = {line.part: line for line in found.lines}
    rows = dict(settings_pages.rows(Shelf(knowledge=knowledge), found))
    titles = {part: part_title(part) for part in ("artwork", "pre-press", "face", "held", "cover", "pad")}
    assert list(rows) == [*("Heat", "Time", "Pressure"), *(titles[p] for p in titles if p in parts), "Peel"]
    assert all(rows[titles[part]] == part_words(parts[part]) for part in titles if part in parts)
    least, most = found.settings.temperature
    assert rows["Heat"].startswith(f"{least:g}–{most:g} °C")
    assert rows["Pressure"].startswith(found.settings.pressure)
    assert rows["Peel"].startswith(f"{found.settings.peel}, after {found.settings.settle:g} s. ")
    assert rows["Peel"].endswith(part_words(parts["peel"]))
    assert as_told(item)["parts"] == [
        {
            "part": line.part,
            "text": line.text,
            "seconds": list(line.seconds) if line.seconds else None,
            "why": line.why,
            "basis": list(line.basis),
            "origin": "shipped",
        }
        for line in found.lines
    ]


def test_the_basis_of_each_line_is_told_where_they_differ(tmp_path: Path) -> None:
    assert "Basis of every line: common practice" in play(["settings", "apron"])[1]
    (tmp_path / "kb").mkdir()
    (tmp_path / "shop.yaml").write_text("name: The harbour workshop\n", encoding="utf-8")
    own = "handling:\n  cover-cloth: {part: cover, text: Two sheets, why: Dust., basis: this shop's cases}\n"
    (tmp_path / "kb" / "own.yaml").write_text(own, encoding="utf-8")
    out = play(["settings", "apron"])[1]
    assert "Basis of every line" not in out
    assert "Basis of heat, time and pressure: common practice" in out
    assert "Basis of covered: this shop's cases." in out


def test_new_goods_begin_with_a_reckoning_and_pieces_to_press() -> None:
    told = as_told("--like", "ceramic-tile", "--thickness", "9mm")
    assert told["start"]["temperature_c"] == 200.0
    low, high = told["dwell_band_s"]
    assert low < told["start"]["dwell_s"] < high
    assert [piece["temperature_c"] for piece in told["pieces"]] == [200.0, 200.0, 200.0, 192.0]
    assert all(piece["seen"] for piece in told["pieces"])


@pytest.mark.parametrize(
    "args",
    [("black t-shirt",), ("--like", "apron", "--polyester", "70%"), ("--layer", "hardboard:5mm")],
    ids=" ".join,
)
def test_json_keeps_to_its_schema(args: tuple[str, ...]) -> None:
    assert as_told(*args)["cautions"]


def test_json_says_what_is_not_pressed() -> None:
    code, out, err = play(["settings", "t-shirt-cotton", "--json"])
    told = json.loads(out)
    Draft202012Validator(json.loads(SCHEMA.read_text(encoding="utf-8"))).validate(told)
    assert (code, err, told["format"]) == (exits.PROBLEMS, "", "presslore-not-pressed")
    assert [one["statement"] for one in told["against"]] == ["takes-dye"]


def test_layers_by_hand_find_what_they_are_like() -> None:
    code, out, _ = play(["settings", "--layer", "ceramic:6mm", "--layer", "fibreboard:3mm"])
    assert code == exits.GOOD
    assert out.startswith("New goods, like: Ceramic tile, coated")
    assert "As told: 6 mm ceramic, 3 mm fibreboard, a coat for dye on its face." in out


@pytest.mark.parametrize(
    ("args", "said"),
    [
        ([], "name an item"),
        (["mug", "--like", "mug"], "name the item, or what the new goods are like"),
        (["--layer", "ceramic"], "expected STUFF:LENGTH"),
        (["--layer", "ceramik:6mm"], "Did you mean ceramic?"),
        (["--layer", "ceramic:6"], "has no unit"),
        (["--like", "mug", "--thickness", "6"], "has no unit"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, list) else " ",
)
def test_what_is_not_understood_is_said(args: list[str], said: str) -> None:
    code, out, err = play(["settings", *args])
    assert (code, out) == (exits.USAGE, "")
    assert said in " ".join(err.split())


def test_what_cannot_be_reckoned_is_said() -> None:
    code, out, err = play(["settings", "--like", "ceramic-tile", "--thickness", "900mm"])
    assert (code, out) == (exits.PROBLEMS, "")
    assert err == "No starting point can be reckoned: not within an hour at 200 °C.\n"


def test_an_item_that_nobody_says_how_to_press(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("diagnose.foresight.settings.recipe", lambda *_: None)
    code, out, err = play(["settings", "mug"])
    assert (code, out) == (exits.PROBLEMS, "")
    told = "Nothing says how Mug, ceramic, coated is pressed. Try --like with an item that is known."
    assert " ".join(err.split()) == told


def test_no_item_goes_by_these_words() -> None:
    code, out, err = play(["settings", "xyzzy"])
    assert (code, out) == (exits.NOT_UNDERSTOOD, "")
    assert "No item goes by" in err


def test_nothing_is_wider_than_a_narrow_screen() -> None:
    _, out, _ = play(["settings", "--like", "mug", "--thickness", "6mm"], environment={**PLAIN, "COLUMNS": "40"})
    assert max(map(len, out.splitlines())) <= 40
