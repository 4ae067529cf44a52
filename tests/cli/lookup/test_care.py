"""``presslore care``, and the care note where a diagnosis ends."""

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from diagnose.cli import exits
from tests.cli.playing import PLAIN, play

SCHEMA = Path(__file__).parents[3] / "diagnose" / "dialogue" / "schema" / "diagnosis.json"
SHOP = """\
name: The harbour workshop
address: [3 Net Loft Lane, "Open on market days & feast days"]
handbook: https://handbook.example/press
"""


@pytest.fixture(autouse=True)
def _no_shop_above(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    path = tmp_path / "shop.yaml"
    path.write_text(SHOP, encoding="utf-8")
    return path


def test_without_an_item_the_notes_are_listed() -> None:
    code, out, _ = play(["care"])
    assert code == exits.GOOD
    assert "ceramic-mug " in out


@pytest.mark.parametrize(
    ("words", "title"),
    [
        (["tea", "towel"], "Tea towel, 100 % polyester"),
        (["65/35 tea towel"], "Tea towel, 65/35 polyester and cotton"),
        (["cotton tea towel"], "Tea towel, all cotton (does not take the dye)"),
        (["glass", "cutting", "board"], "Glass board, coated on the back"),
        (["aluminium-panel"], "Photo panel, coated aluminium"),
        (["blend"], "Polyester and cotton blend"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, list) else " ",
)
def test_an_item_in_words_or_by_id_or_a_note(words: list[str], title: str) -> None:
    code, out, err = play(["care", *words])
    assert (code, err) == (exits.GOOD, "")
    assert out.splitlines()[0] == title
    assert "Washing: " in out
    assert "If a customer comes back with it" in out
    assert "Basis: " in out


@pytest.mark.parametrize("words", ["xyzzy", "100% cotton cushion cover"])
def test_words_that_name_no_item_or_one_of_another_stuff(words: str) -> None:
    code, out, err = play(["care", words])
    assert (code, out) == (exits.NOT_UNDERSTOOD, "")
    assert words in err


def test_the_text_keeps_within_the_screen() -> None:
    _, out, _ = play(["care", "mug"], environment={**PLAIN, "COLUMNS": "40"})
    assert max(map(len, out.splitlines())) <= 40


def test_cards_carry_the_shop_and_a_code(shop: Path) -> None:
    code, out, err = play(["care", "mug", "--html"])
    assert (code, err) == (exits.GOOD, "")
    assert out.isascii()
    assert out.count("<address><strong>The harbour workshop</strong><br>3 Net Loft Lane<br>") == 4
    assert "Open on market days &amp; feast days" in out
    assert out.count("<svg ") == 4
    assert 'href="https://handbook.example/press/care/ceramic-mug.html"' in out


def test_the_address_of_the_call_goes_before_the_shops_own(shop: Path) -> None:
    _, out, _ = play(["care", "mug", "--html", "--shop", str(shop), "--address", "http://other.example/"])
    assert 'href="http://other.example/care/ceramic-mug.html"' in out


def test_cards_without_a_shop_say_what_is_missing() -> None:
    code, out, err = play(["care", "mug", "--html"])
    assert code == exits.GOOD
    assert "<svg" not in out
    assert "No code on the cards" in err
    assert "No name on the cards" in err


@pytest.mark.parametrize("address", ["handbook.example", "javascript:alert(1)", "https://a b", 'https://x"y\n'])
def test_an_address_that_is_none(address: str) -> None:
    code, _, err = play(["care", "mug", "--html", "--address", address])
    assert code == exits.USAGE
    assert "expected a web address" in err


def test_a_shop_file_with_an_address_that_is_none(tmp_path: Path) -> None:
    (tmp_path / "shop.yaml").write_text("handbook: javascript:alert(1)\naddress: 3 Net Loft Lane\n", encoding="utf-8")
    code, out, err = play(["care", "mug", "--html"])
    assert code == exits.GOOD
    assert "javascript" not in out
    assert "shop.yaml:1:11" in err
    assert "shop.yaml:2:10" in err


def test_pages_of_defects_and_items_name_the_note() -> None:
    assert "Polyester and cotton blend [blend]" in play(["defects", "wash-out"])[1]
    assert "presslore care tea-towel-65-35" in play(["items", "tea-towel-65-35"])[1]
    assert "Care notes" not in play(["defects", "ghosting"])[1]


def reported(*args: str) -> dict[str, object]:
    _, out, _ = play(["diagnose", *args, "--json"])
    report: dict[str, object] = json.loads(out)
    Draft202012Validator(json.loads(SCHEMA.read_text(encoding="utf-8"))).validate(report)
    return report


def test_the_report_says_what_to_tell_the_customer() -> None:
    told = reported("--item", "tea-towel-65-35", "--saw", "wash-out")["care"]
    assert isinstance(told, dict)
    assert (told["id"], told["origin"]) == ("blend", "shipped")
    assert "nature of a blend" in told["tell"]


def test_the_report_has_nothing_to_tell_of_what_the_note_does_not_speak_of() -> None:
    told = reported("--item", "tea-towel-65-35", "--saw", "ghosting")["care"]
    assert isinstance(told, dict)
    assert (told["id"], told["tell"]) == ("blend", "")
    assert reported("--saw", "wash-out")["care"] is None


def test_a_diagnosis_by_flags_says_what_to_tell_the_customer() -> None:
    out = play(["diagnose", "--item", "mug", "--saw", "haze"])[1]
    assert "presslore care mug" in out
    assert "If a customer came back with it: “I am sorry about the picture." in out
    assert "presslore care" not in play(["diagnose", "--item", "mug", "--saw", "ghosting"])[1]


def test_another_fibre_is_not_taken_for_polyester_of_the_same_shape() -> None:
    code, out, err = play(["care", "silk", "scarf"])
    assert (code, out) == (exits.NOT_UNDERSTOOD, "")
    assert "Silk takes no dye." in err
    assert play(["care", "silk", "look", "scarf"])[0] == exits.GOOD  # a name of polyester satin


def test_a_message_is_a_sentence_or_two() -> None:
    code, out, err = play(["care", "mug", "--message"])
    assert (code, err) == (exits.GOOD, "")
    assert out.startswith("Wash by hand with a soft sponge;")
    assert len(out.split()) <= 40
    assert "In a message: Wash by hand" in play(["care", "mug"])[1]


def test_what_is_said_fits_the_item() -> None:
    assert "inside out" in play(["care", "t-shirt-polyester"])[1]
    assert "inside out" not in play(["care", "tea-towel-polyester"])[1]
    assert "inside out" in play(["care", "polyester-cloth"])[1]
