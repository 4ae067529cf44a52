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


@pytest.mark.parametrize(
    ("goods", "reason"),
    [
        ("pvc banner", "hydrogen chloride"),
        ("vinyl banner", "hydrogen chloride"),
        ("pu cushion", "fumes harm the lungs"),
        ("plastic cup", "no plastic can be told from PVC"),
        ("polypropylene bag", "melts at about 165 °C"),
        ("nylon bag", "bleeds in the wash"),
        ("wool scarf", "yellows"),
        ("silk scarf", "yellows"),
        ("sealed tumbler", "until the wall gives way"),
        ("snow globe", "until the wall gives way"),
    ],
)
@pytest.mark.parametrize(
    "how", [["settings"], ["ready", "--item"], ["heat"], ["diagnose", "--saw", "faint-colour", "--item"]]
)
def test_what_must_not_be_pressed_is_refused_with_its_reason(goods: str, reason: str, how: list[str]) -> None:
    _, out, err = play([*how, goods])
    assert reason in spoken(err)
    assert "Item: " not in out
    assert "193" not in out


@pytest.mark.parametrize(
    "goods", ["plastic luggage tag", "coated plastic tag", "plastic name badge", "hard plastic phone case"]
)
def test_coated_plastic_blanks_are_no_unknown_plastic(goods: str) -> None:
    code, out, _ = play(["settings", goods])
    assert code == exits.GOOD
    assert "coated plastic" in out


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
