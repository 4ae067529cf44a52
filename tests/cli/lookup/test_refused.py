"""Stuffs that take no dye are refused alike, whichever command they are named to, with what to offer instead."""

from pathlib import Path

import pytest

from diagnose.cli import exits
from tests.cli.playing import play

SAID = "Silk takes no dye. "
INSTEAD = "Offer polyester satin"


@pytest.fixture(autouse=True)
def _no_shop_above(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))


def spoken(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize(
    "args",
    [
        ["settings", "silk", "scarf"],
        ["settings", "--like", "silk scarf"],
        ["heat", "silk", "scarf"],
        ["care", "silk", "scarf"],
        ["ready", "--item", "silk scarf"],
    ],
    ids=" ".join,
)
def test_a_command_refuses_what_takes_no_dye(args: list[str]) -> None:
    code, out, err = play(args)
    assert (code, out) == (exits.NOT_UNDERSTOOD, "")
    assert SAID in spoken(err)
    assert INSTEAD in spoken(err)


@pytest.mark.parametrize("how", [["--item", "silk scarf", "--saw", "faint-colour"], ["--saw", "my silk scarf is pale"]])
def test_a_diagnosis_by_flags_takes_it_for_no_other_goods(how: list[str]) -> None:
    code, out, err = play(["diagnose", *how])
    assert code == exits.GOOD
    assert SAID in spoken(err)
    assert "Not understood: silk scarf" not in err
    assert "Item not named" in out


def test_the_dialogue_says_so_and_asks_again() -> None:
    _, out, _ = play(["diagnose"], ["silk scarf", "polyester scarf", "s"], somebody=True)
    before, after = spoken(out).split(SAID)
    assert INSTEAD in after
    assert "Item:" not in before
    assert "Item: Scarf" in after


def test_the_questions_before_a_press_say_so_and_ask_again() -> None:
    _, out, _ = play(["ready"], ["silk scarf", "polyester scarf"], somebody=True)
    assert out.count("What is to be pressed?") == 2
    assert INSTEAD in spoken(out)
