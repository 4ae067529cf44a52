"""What was heard is shown: lines are struck out, put right in words, and two near readings are asked about."""

import json
from pathlib import Path
from typing import Any
from unittest import mock

import pytest

from diagnose.cli.asking import echo
from diagnose.dialogue.hearing import Heard, hear_again
from diagnose.dialogue.moves import Move, Named, Saw
from diagnose.knowledge.model import Knowledge
from diagnose.reasoning.words import Lexicon
from tests.cli.playing import play

STORY = "mug, pale and doubled, 350F for 40 seconds"


def opened(*typed: str, tmp_path: Path) -> tuple[str, list[dict[str, Any]]]:
    """What the screen showed, and the moves that were kept."""
    _, out, _ = play(["diagnose"], [*typed, "s"], somebody=True)
    saved = list((tmp_path / "state" / "presslore" / "sessions").iterdir())
    return out, json.loads(saved[0].read_text(encoding="utf-8"))["moves"]


def figures(moves: list[dict[str, Any]]) -> dict[str, float]:
    return {name: round(value) for move in moves for name, value in move.get("figures", {}).items()}


def test_a_story_is_taken_whole_and_nothing_of_it_asked_again(tmp_path: Path) -> None:
    shown, moves = opened(STORY, "y", tmp_path=tmp_path)
    assert shown.count("What was pressed?") == 1
    assert "What do you see?" not in shown
    assert moves[0] == {"move": "pressed", "item": "mug", "facts": {}}
    assert sorted(move["defects"][0] for move in moves if move["move"] == "saw") == ["faint-colour", "ghosting"]
    assert figures(moves) == {"set": 177, "dwell": 40}


def test_each_line_can_be_struck_out_and_several_at_once(tmp_path: Path) -> None:
    _, moves = opened(STORY, "2 4", "y", tmp_path=tmp_path)
    assert [move["move"] for move in moves] == ["pressed", "saw", "measured"]
    assert figures(moves) == {"dwell": 40}


def test_an_item_that_was_struck_out_is_asked_for(tmp_path: Path) -> None:
    shown, moves = opened(STORY, "1", "y", "ceramic tile", tmp_path=tmp_path)
    assert "And what was pressed?" in shown
    assert [move["item"] for move in moves if move["move"] == "pressed"] == ["ceramic-tile"]


@pytest.mark.parametrize(
    ("words", "item", "told"),
    [
        ("no, it's a tile, not a mug", "ceramic-tile", {"set": 177, "dwell": 40}),
        ("385F", "mug", {"set": 196, "dwell": 40}),
    ],
)
def test_words_put_a_line_right_and_leave_the_others(
    words: str, item: str, told: dict[str, float], tmp_path: Path
) -> None:
    _, moves = opened(STORY, words, "y", tmp_path=tmp_path)
    assert moves[0]["item"] == item
    assert figures(moves) == told
    assert sum(move["move"] == "saw" for move in moves) == 2


def test_words_that_say_nothing_leave_all_as_it_was(tmp_path: Path) -> None:
    shown, moves = opened(STORY, "zxcvbn", "y", tmp_path=tmp_path)
    assert "I did not recognise that." in shown
    assert sum(move["move"] == "saw" for move in moves) == 2


def test_stop_leaves_before_anything_is_taken(tmp_path: Path) -> None:
    code, _, _ = play(["diagnose"], [STORY, "stop"], somebody=True)
    assert code == 0
    assert not (tmp_path / "state" / "presslore" / "sessions").exists()


def two_readings(knowledge: Knowledge, lexicon: Lexicon, words: str) -> Heard:
    if words != "it is off":
        return hear_again(knowledge, lexicon, words)
    readings: tuple[tuple[Move, ...], ...] = ((Saw(("colour-cast",)),), (Saw(("crooked-placement",)),))
    return Heard(unsure=readings)


@pytest.mark.parametrize(("number", "defect"), [("1", "colour-cast"), ("2", "crooked-placement")])
def test_of_two_near_readings_the_person_says_which(number: str, defect: str, tmp_path: Path) -> None:
    with mock.patch.object(echo, "hear_again", two_readings):
        shown, moves = opened("mug", "it is off", number, "y", tmp_path=tmp_path)
    assert "Which do you mean?" in shown
    assert moves[-1] == {"move": "saw", "defects": [defect]}


def test_none_of_the_near_readings_is_none(tmp_path: Path) -> None:
    with mock.patch.object(echo, "hear_again", two_readings):
        _shown, moves = opened("mug", "it is off", "none of these", "n", "ghosting", "y", tmp_path=tmp_path)
    assert [move["defects"] for move in moves if move["move"] == "saw"] == [["ghosting"]]


def test_a_cause_that_was_named_is_a_line_and_a_move(tmp_path: Path) -> None:
    def named(knowledge: Knowledge, lexicon: Lexicon, words: str) -> Heard:
        return Heard(defects=("ghosting",), causes=("sheet-not-held",), spoken={"cause sheet-not-held": "not taped"})

    with mock.patch.object(echo, "hear_again", named):
        shown, moves = opened("mug", "ghosting, not taped", "y", tmp_path=tmp_path)
    assert "You think it is this: The sheet is not fastened to the piece (“not taped”)" in " ".join(shown.split())
    assert Named("sheet-not-held") == Named(moves[-1]["cause"])
