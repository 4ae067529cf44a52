"""The shop's own folder: laying it out, what of it is in force, and every command using it."""

import json
import os
from pathlib import Path
from typing import Any
from unittest import mock

import pytest

from diagnose.cli import exits
from diagnose.cli.shop import command, new_shop, shelf
from diagnose.knowledge.loading import load_shop
from tests.cli.playing import PLAIN, play

HARBOUR = str(Path(__file__).parents[2] / "cases" / "harbour")
NAMES = ["The harbour workshop", 'Net "Loft": #1 {%}', "- Möwe & Söhne", "yes"]
OWN_DEFECT = "adds-to: {0}\nstatus: trial\ndate: 2026-11-24\nrules: [{1}]\n"


@pytest.mark.parametrize("name", NAMES)
def test_a_new_folder_is_clean_whatever_it_is_called(name: str) -> None:
    code, out, err = play(["shop", "new", "own", "--name", name, "--currency", "EUR", "--temperature", "F"])
    assert (code, err) == (exits.GOOD, "")
    assert "shop.yaml" in out
    assert {path.name for path in Path("own").iterdir()} == {"README.md", "kb", "mkdocs.yml", "rules", "shop.yaml"}
    assert play(["rules", "check", "own"])[0] == exits.GOOD
    shop = load_shop(Path("own")).shop
    assert (shop.name, shop.currency, shop.temperature, shop.pressure) == (name, "EUR", "F", "bar")


def test_its_examples_serve_once_the_marks_are_taken_away() -> None:
    play(["shop", "new", "own", "--name", "Harbour"])
    text = Path("own/shop.yaml").read_text(encoding="utf-8")
    head, presses = text.split("# presses:", 1)
    lines = ["presses:", *(line.removeprefix("# ") for line in presses.splitlines()[1:])]
    Path("own/shop.yaml").write_text(head + "\n".join(lines) + "\n", encoding="utf-8")
    for part, name in (("rules", "water-marks"), ("kb", "own")):
        readme = Path(f"own/{part}/README.md").read_text(encoding="utf-8")
        example = readme.split("```yaml\n")[1].split("```")[0]
        assert example.startswith(f"# {part}/{name}.yaml\n")
        Path(f"own/{part}/{name}.yaml").write_text(example, encoding="utf-8")
    code, out, err = play(["shop", "show", "--shop", "own"])
    assert (code, err) == (exits.GOOD, "")
    assert "The press by the window [left]" in out


def test_a_folder_that_is_not_empty_is_left_alone() -> None:
    Path("own").mkdir()
    Path("own/towels.txt").write_text("forty", encoding="utf-8")
    code, _, err = play(["shop", "new", "own", "--name", "Harbour"])
    assert code == exits.PROBLEMS
    assert "not empty" in err
    assert [path.name for path in Path("own").iterdir()] == ["towels.txt"]
    assert play(["shop", "new", "own/towels.txt"])[0] == exits.PROBLEMS


def test_an_empty_folder_will_do() -> None:
    Path("own").mkdir()
    assert play(["shop", "new", "own"])[0] == exits.GOOD
    assert load_shop(Path("own")).shop.name == "own"


def test_a_disk_that_refuses_leaves_nothing_behind() -> None:
    with mock.patch.object(os, "replace", side_effect=OSError(28, "No space left on device")):
        code, _, err = play(["shop", "new", "own", "--name", "Harbour"])
    assert code == exits.PROBLEMS
    assert "No space left on device" in err
    assert list(Path().iterdir()) == []


@pytest.mark.parametrize("flags", [["--name", " "], ["--name", "x" * 61], ["--currency", "shillings"]])
def test_what_the_file_could_not_hold_is_refused(flags: list[str]) -> None:
    assert play(["shop", "new", "own", *flags])[0] == exits.USAGE
    assert not Path("own").exists()


def test_in_a_terminal_it_asks_for_what_no_option_says() -> None:
    with mock.patch.object(command, "both_terminals", return_value=True):
        code, out, _ = play(["shop", "new", "own", "--currency", "EUR"], ["The harbour workshop", "f", ""])
    assert code == exits.GOOD
    assert "What is the shop called?" in out
    assert "currency" not in out
    shop = load_shop(Path("own")).shop
    assert (shop.name, shop.temperature, shop.pressure) == ("The harbour workshop", "F", "bar")


def test_a_new_folder_is_found_from_below() -> None:
    new_shop.write(Path("own"), new_shop.ToldShop(name="Harbour"))
    below = Path("own/rules")
    os.chdir(below)
    assert shelf.shop().name == "Harbour"
    assert shelf.shop_folder() == Path.cwd().parent


def test_without_a_shop_it_says_how_to_get_one() -> None:
    code, out, err = play(["shop", "show"])
    assert (code, out) == (exits.PROBLEMS, "")
    assert "presslore shop new" in err


def test_show_as_json() -> None:
    code, out, _ = play(["shop", "show", "--shop", HARBOUR, "--json"])
    told = json.loads(out)
    assert code == exits.GOOD
    assert (told["name"], told["left_out"]) == ("The harbour workshop", [])
    assert [press["id"] for press in told["presses"]] == ["left", "right"]
    assert told["own"] == {"rules": {"added": ["water-marks/sheet-not-held"], "replaced": [], "retired": []}}


# --- every command uses it ---


@pytest.fixture
def own() -> Path:
    """A shop with a word and an item of its own, one item retired, and one broken file."""
    new_shop.write(Path("own"), new_shop.ToldShop(name="Harbour"))
    text = (
        "glossary:\n  quay: {term: Quay, means: Where we are., basis: common practice}\n"
        "cautions:\n  wind: {title: Wind, text: Hold the sheet., basis: common practice}\n"
    )
    Path("own/kb/own.yaml").write_text(text, encoding="utf-8")
    rule = "{cause: sheet-not-held, brings: rarely, why: The quay wind lifts it., basis: common practice}"
    Path("own/rules/wind.yaml").write_text(OWN_DEFECT.format("water-marks", rule), encoding="utf-8")
    Path("own/rules/spoilt.yaml").write_text("adds-to: [\n", encoding="utf-8")
    return Path("own")


SAID = "1 file of this shop is left out: own/rules/spoilt.yaml; presslore rules check tells why."


@pytest.mark.parametrize(
    ("call", "shows"),
    [
        (["defects", "water-marks"], "; this shop): The quay wind lifts it."),
        (["causes", "sheet-not-held"], "; this shop) [water-marks]"),
        (["why", "sheet-not-held", "water-marks"], "· this shop"),
        (["care", "mug"], "Coated"),
        (["diagnose", "--saw", "ghosting"], "Ghosting"),
    ],
)
def test_lookups_say_whose_it_is_and_what_is_left_out(own: Path, call: list[str], shows: str) -> None:
    code, out, err = play([*call, "--shop", str(own)], environment={**PLAIN, "COLUMNS": "300"})
    assert code == exits.GOOD
    assert shows in " ".join(out.split())
    assert err.startswith("own/rules/spoilt.yaml:")
    assert SAID in " ".join(err.split())


def test_the_environment_names_it_as_well(own: Path) -> None:
    _, out, _ = play(["why", "sheet-not-held", "water-marks"], environment={**PLAIN, shelf.SHOP_VARIABLE: str(own)})
    assert "this shop" in out


def test_the_dialogue_says_at_the_start_what_is_left_out(own: Path) -> None:
    _, out, err = play(["diagnose", "--shop", str(own), "--item", "mug"], [], somebody=True)
    assert " ".join(out.split()).startswith(SAID)
    assert err == "\nStopped. Nothing is left half done.\n"


def test_rules_check_covers_both_and_names_what_is_wrong(own: Path) -> None:
    code, out, _ = play(["rules", "check", "--shop", str(own)])
    assert code == exits.PROBLEMS
    assert out.startswith("own/rules/spoilt.yaml:")
    (own / "rules" / "spoilt.yaml").unlink()
    assert "747 rules" in " ".join(play(["rules", "check", "--shop", str(own)])[1].split())


# --- presses ---

PALE = ["diagnose", "--item", "cushion cover", "--saw", "washed out", "--json"]


def diagnosed(*flags: str) -> dict[str, Any]:
    code, out, _ = play([*PALE, *flags])
    assert code == exits.GOOD
    whole: dict[str, Any] = json.loads(out)
    return whole


def chance(whole: dict[str, Any], cause: str) -> float:
    return next(float(each["probability"]) for each in whole["causes"] if each["id"] == cause)


def test_what_is_known_of_a_press_counts_on_that_press_alone() -> None:
    left, right = (diagnosed("--shop", HARBOUR, "--press", press) for press in ("left", "right"))
    none = diagnosed("--fact", "press.kind=clamshell")
    assert chance(left, "platen-runs-cool") > 0.7 > 0.2 > chance(right, "platen-runs-cool")
    assert chance(right, "platen-runs-cool") == chance(none, "platen-runs-cool")
    [first, *_] = left["causes"]
    assert first["for"][0]["text"] == "This press: runs 6 °C cool at the left rear corner since March"
    assert (left["press"]["id"], right["press"]["known"], none["press"]) == ("left", [], None)


def test_the_only_press_is_taken_as_given() -> None:
    text = Path(HARBOUR, "shop.yaml").read_text(encoding="utf-8").partition("  - id: right")[0]
    Path("shop.yaml").write_text(text, encoding="utf-8")
    assert diagnosed()["press"]["id"] == "left"
    _, out, _ = play(["diagnose"], ["cushion cover", "washed out", "y", "s"], somebody=True)
    assert "On which press?" not in out
    assert "Cushion cover, polyester · The press by the window" in out


@pytest.mark.parametrize(("typed", "shown"), [("2", "The big press"), ("big press", "The big press"), ("u", "")])
def test_the_dialogue_asks_for_the_press(typed: str, shown: str) -> None:
    _, out, _ = play(["diagnose", "--shop", HARBOUR], ["mug", typed, "ghosting", "y", "s"], somebody=True)
    heading = out[out.index("y right") :].splitlines()[3]
    assert heading == " · ".join(filter(None, ("Coated ceramic mug", shown, "Ghosting"))) or shown in heading
    assert out.count("On which press?") == 1


def test_a_press_that_is_not_there_is_a_slip_in_the_call() -> None:
    code, _, err = play([*PALE, "--shop", HARBOUR, "--press", "lft"])
    assert (code, "Did you mean left?" in err) == (exits.USAGE, True)
    code, _, err = play([*PALE, "--press", "left"])
    assert (code, "no shop.yaml names presses" in " ".join(err.split())) == (exits.USAGE, True)


def test_the_press_is_kept_with_the_session() -> None:
    play([*PALE, "--shop", HARBOUR, "--press", "left", "--save", "towels.json"])
    code, out, _ = play(["diagnose", "--shop", HARBOUR, "--resume", "towels.json", "--json"])
    assert (code, json.loads(out)["press"]["id"]) == (exits.GOOD, "left")
    assert '"press"' not in _saved_without()


def _saved_without() -> str:
    play([*PALE, "--save", "plain.json"])
    return Path("plain.json").read_text(encoding="utf-8")
