"""Goods that should not be pressed: that is said first, with what to offer instead, and gone on with only if wanted."""

import json
from pathlib import Path

import pytest

from diagnose.cli import exits
from tests.cli.playing import play

BARRED = "! Cotton has no place for disperse dye."
BARE = ["diagnose", "--item", "mug", "--saw", "poor-uptake", "--answer", "ask-what-the-blank-is-made-for=other-use"]
ASKED = "Go on and look for the fault all the same?"


def flat(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("goods", ["cotton t-shirt", "supermarket mug", "tote-bag-cotton"])
def test_it_is_said_before_the_first_question_and_asked_whether_to_go_on(goods: str) -> None:
    _, out, _ = play(["diagnose"], [goods, "y", "pale", "y", "s"], somebody=True)
    out = flat(out)
    assert 0 < out.index("Do not press it.") < out.index(ASKED) < out.index("What do you see")


def test_who_does_not_want_to_go_on_is_asked_nothing_more() -> None:
    code, out, _ = play(["diagnose"], ["cotton t-shirt", "n"], somebody=True)
    assert code == exits.GOOD
    assert flat(out).endswith("n no > n")


def test_it_is_said_once() -> None:
    _, out, _ = play(["diagnose"], ["cotton t-shirt", "y", "pale", "y", "u", "u", "s"], somebody=True)
    assert flat(out).count(BARRED) == 1


def test_an_answer_that_tells_it_says_it_then() -> None:
    bare = "! Dye needs a polymer to go into."
    assert bare not in flat(play(BARE[:-2])[1])
    assert flat(play(BARE)[1]).startswith(bare)


def test_a_stuff_that_is_refused_is_gone_on_with_only_if_wanted() -> None:
    first = "my silk scarf came out pale"
    _, out, _ = play(["diagnose"], [first, "n"], somebody=True)
    assert out.index("Silk takes no dye") < out.index(ASKED)
    assert "Faint colour" not in out[out.index(ASKED) :]


def test_flags_say_it_first_and_json_carries_it() -> None:
    args = ["diagnose", "--item", "cotton t-shirt", "--saw", "pale"]
    assert flat(play(args)[1]).startswith(BARRED)
    (barred,) = json.loads(play([*args, "--json"])[1])["barred"]
    assert barred["id"] == "takes-dye"
    assert "Offer the same thing in polyester" in barred["instead"]
    refused = json.loads(play(["diagnose", "--item", "pvc coated polyester banner", "--saw", "pale", "--json"])[1])
    assert [each["id"] for each in refused["barred"]] == ["pvc"]
    assert json.loads(play(["diagnose", "--item", "tea towel", "--saw", "pale", "--json"])[1])["barred"] == []


def test_in_the_middle_of_a_dialogue_it_is_said_and_asked_once_an_answer_tells_it(tmp_path: Path) -> None:
    """A dialogue saved with the answer in it is what one is that has just been answered."""
    kept = str(tmp_path / "kept.json")
    play([*BARE, "--save", kept])
    _, out, _ = play(["diagnose", "--resume", kept], ["y", "u", "s"], somebody=True)
    said = flat(out)
    assert said.index("! Dye needs a polymer to go into.") < said.index(ASKED)
    assert said.count(ASKED) == 1


def test_what_is_neither_yes_nor_no_is_asked_again() -> None:
    _, out, _ = play(["diagnose"], ["cotton t-shirt", "no wait, let me look", "y", "pale", "y", "s"], somebody=True)
    assert "Say yes or no." in out
    assert "What do you see" in out[out.index("Say yes or no.") :]


def test_barred_goods_are_never_noted_as_good() -> None:
    play(["diagnose"], ["cotton t-shirt", "y", "pale, 200C 60s", "y", "t", "1"], somebody=True)
    assert "No good piece is noted yet" in play(["good"])[1]


def test_figures_without_goods_are_not_noted() -> None:
    code, _, err = play(["good", "--set", "200C"])
    assert code == exits.USAGE
    assert "say what came out well as well" in err
