"""The opening questions: what was understood is shown, and can be corrected."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.playing import play


def opened(*typed: str, tmp_path: Path) -> tuple[str, list[dict[str, Any]]]:
    """What the screen showed, and the moves that were kept."""
    _, out, _ = play(["diagnose"], [*typed, "s"], somebody=True)
    saved = (tmp_path / "state" / "presslore" / "sessions").iterdir()
    file = max(saved, key=lambda file: file.stat().st_mtime_ns)
    return out, json.loads(file.read_text(encoding="utf-8"))["moves"]


def seen(moves: list[dict[str, Any]], kind: str = "saw") -> list[str]:
    return sorted(defect for move in moves if move["move"] == kind for defect in move["defects"])


def test_the_item_is_shown_and_may_be_unknown(tmp_path: Path) -> None:
    shown, moves = opened("", "ghosting", "y", tmp_path=tmp_path)
    assert "Item not named · Ghosting" in shown
    assert moves[0] == {"move": "pressed", "item": "", "facts": {}}


def test_an_item_that_is_not_known_is_asked_for_again(tmp_path: Path) -> None:
    shown, moves = opened("zxcvbn", "tea towel", "ghosting", "y", tmp_path=tmp_path)
    assert "I do not know that item." in shown
    assert moves[0]["item"] == "tea-towel-polyester"


def test_the_item_is_picked_from_the_list(tmp_path: Path) -> None:
    shown, moves = opened("l", "10", "ghosting", "y", tmp_path=tmp_path)
    assert "10 Ceramic tile, coated\n" in shown
    assert moves[0]["item"] == "ceramic-tile"


def test_a_misheard_item_is_said_again(tmp_path: Path) -> None:
    _, moves = opened("50/50 polycotton t-shirt", "b", "ceramic tile", "ghosting", "y", tmp_path=tmp_path)
    assert [move["move"] for move in moves] == ["pressed", "saw"]
    assert moves[0]["item"] == "ceramic-tile"
    assert "item.polyester" not in moves[0]["facts"]


def test_an_item_named_with_the_sight_is_taken(tmp_path: Path) -> None:
    shown, moves = opened("", "the mug is pale", "y", tmp_path=tmp_path)
    assert "Item: Mug, ceramic, coated" in shown
    assert moves[1]["item"] == "mug"


def test_a_number_strikes_out_one_thing_understood(tmp_path: Path) -> None:
    _, moves = opened("mug", "faint-colour, ghosting", "1", "y", tmp_path=tmp_path)
    assert len(seen(moves)) == 1


def test_what_is_not_there_is_shown_and_can_be_struck_out(tmp_path: Path) -> None:
    shown, moves = opened("mug", "pale, no ghost", "y", tmp_path=tmp_path)
    assert " 2 Not there: Ghosting" in shown
    assert seen(moves, "did-not-see") == ["ghosting"]
    _, moves = opened("mug", "pale, no ghost", "2", "y", tmp_path=tmp_path)
    assert seen(moves, "did-not-see") == []


def test_only_what_is_not_there_is_noted_and_the_sight_asked_for(tmp_path: Path) -> None:
    shown, moves = opened("mug", "no ghost", "y", "pale", "y", tmp_path=tmp_path)
    assert "Noted, so far:" in shown
    assert (seen(moves), seen(moves, "did-not-see")) == (["faint-colour"], ["ghosting"])


@pytest.mark.parametrize("no", ["n", "no", "No", "zxcvbn"])
def test_words_other_than_yes_never_take_what_was_misheard(no: str, tmp_path: Path) -> None:
    _, moves = opened("mug", "ghosting", no, "pale", "y", tmp_path=tmp_path)
    assert seen(moves) == ["faint-colour"]


def test_other_words_take_the_place_of_the_first(tmp_path: Path) -> None:
    _, moves = opened("mug", "ghosting", "pale all over", "y", tmp_path=tmp_path)
    assert seen(moves) == ["faint-colour"]


@pytest.mark.parametrize(
    ("picked", "defects"),
    [("27", ["ghosting"]), ("27 4", ["faint-colour", "ghosting"]), ("27,4,27", ["faint-colour", "ghosting"])],
)
def test_faults_are_picked_from_the_list(picked: str, defects: list[str], tmp_path: Path) -> None:
    _, moves = opened("mug", "list", picked, "y", tmp_path=tmp_path)
    assert seen(moves) == defects


@pytest.mark.parametrize("picked", ["0", "999", "b", "22 999", "zxcvbn"])
def test_a_wrong_pick_picks_nothing(picked: str, tmp_path: Path) -> None:
    _, moves = opened("mug", "l", picked, "b", "mug", "ghosting", "y", tmp_path=tmp_path)
    assert seen(moves) == ["ghosting"]


def test_an_empty_line_is_not_a_sight(tmp_path: Path) -> None:
    shown, _ = opened("mug", "", "ghosting", "y", tmp_path=tmp_path)
    assert shown.count("I did not recognise that.") == 1
