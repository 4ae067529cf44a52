"""A danger is told before anything else, wherever words are typed."""

import io
from collections.abc import Callable
from typing import Any

import click
import pytest

from diagnose.cli.asking import alarms, echo, prompts
from diagnose.cli.asking.opening import Opening
from diagnose.cli.terminal.screen import Screen
from diagnose.dialogue.hearing import Heard, hear_again
from diagnose.dialogue.session import Session
from diagnose.knowledge.loading import load
from diagnose.reasoning.words import lexicon

KNOWN = load()


def at(typed: list[str], monkeypatch: pytest.MonkeyPatch, what: Callable[[Screen], Any]) -> tuple[Any, str]:
    """What comes of lines typed at a prompt, and what stands on the screen."""
    left = iter(typed)

    def next_line() -> str:
        try:
            return next(left)
        except StopIteration:
            raise EOFError from None

    monkeypatch.setattr("builtins.input", next_line)
    shown = io.StringIO()
    screen = Screen(shown, 88, False, True)
    try:
        return what(screen), shown.getvalue()
    except EOFError:
        return None, shown.getvalue()


@pytest.mark.parametrize("typed", ["the press is smoking", "HELP smoke out of the press", "smok from the plug!!"])
def test_a_prompt_for_words_tells_it_and_asks_again(typed: str, monkeypatch: pytest.MonkeyPatch) -> None:
    reply, shown = at([typed, "mug"], monkeypatch, lambda screen: prompts.ask_words(screen, "What?", {}))
    assert reply.words == "mug"
    danger = KNOWN.dangers["smoke"]
    places = [shown.index(text[:40]) for text in (danger.title.upper(), *danger.steps, danger.call, *danger.never)]
    assert places == sorted(places)
    assert "go on where you were" in shown


def test_a_prompt_for_a_choice_tells_it_too(monkeypatch: pytest.MonkeyPatch) -> None:
    reply, shown = at(
        ["i burnt my hand", "2"], monkeypatch, lambda screen: prompts.ask(screen, numbers=3, letters=("u",))
    )
    assert reply.number == 2
    assert "SOMEBODY IS BURNT" in shown


@pytest.mark.parametrize("typed", ["the shirt is burnt", "smoke-grey mug", "no smoke", "y", "12", "", "?"])
def test_all_else_is_an_answer(typed: str, monkeypatch: pytest.MonkeyPatch) -> None:
    reply, shown = at([typed], monkeypatch, lambda screen: prompts.ask_words(screen, "What?", {}))
    assert reply.words == typed
    assert "CALL" not in shown


def test_who_writes_of_a_danger_is_not_stopped(monkeypatch: pytest.MonkeyPatch) -> None:
    typed = "the paper is smoking"
    reply, _ = at([typed], monkeypatch, lambda screen: prompts.ask_words(screen, "Why?", {}, alarmed=False))
    assert reply.words == typed


def test_words_given_with_a_call_end_it(capsys: pytest.CaptureFixture[str]) -> None:
    alarms.stop_for(KNOWN, ("tea towel", "pale"))
    with pytest.raises(click.exceptions.Exit) as ended:
        alarms.stop_for(KNOWN, ("tea towel", "my finger is stuck in the press"))
    assert ended.value.exit_code == 1
    assert KNOWN.dangers["caught-hand"].title.upper() in capsys.readouterr().err


def test_another_craft_is_said_to_be_one(monkeypatch: pytest.MonkeyPatch) -> None:
    craft = KNOWN.elsewhere["embroidery"]
    monkeypatch.setattr("diagnose.cli.asking.echo.hear_again", lambda *_: Heard(elsewhere="embroidery"))
    _, shown = at(
        ["mug", "thread keeps breaking"],
        monkeypatch,
        lambda screen: Opening(screen, KNOWN, lexicon(KNOWN)).go(Session()),
    )
    said = " ".join(shown.split())
    assert craft.says in said
    assert craft.turn_to in said
    assert "not recognise" not in said


@pytest.mark.parametrize("before", [[], ["mug"]], ids=["at the item", "at what is seen"])
def test_answers_heard_in_words_of_another_craft_are_not_taken(
    before: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    craft = KNOWN.elsewhere["vinyl"]
    heard = Heard(answers=(("tug-the-wrap", "wrap-sits-tight"),), elsewhere="vinyl")
    hearing = hear_again
    monkeypatch.setattr(
        echo, "hear_again", lambda *given: heard if given[-1].startswith("my vinyl") else hearing(*given)
    )
    typed = [*before, "my vinyl decals peel off the cups", *([] if before else ["mug"]), "ghosting", "y"]
    session, shown = at(typed, monkeypatch, lambda screen: Opening(screen, KNOWN, lexicon(KNOWN)).go(Session()))
    assert craft.turn_to in " ".join(shown.split())
    assert session.evidence.seen == ("ghosting",)
    assert not session.evidence.answers


def test_a_defect_is_told_rather_than_another_craft(monkeypatch: pytest.MonkeyPatch) -> None:
    heard = Heard(defects=("ghosting",), elsewhere="embroidery")
    monkeypatch.setattr("diagnose.cli.asking.echo.hear_again", lambda *_: heard)
    session, shown = at(
        ["mug", "doubled", "y"], monkeypatch, lambda screen: Opening(screen, KNOWN, lexicon(KNOWN)).go(Session())
    )
    assert session.evidence.seen == ("ghosting",)
    assert KNOWN.elsewhere["embroidery"].says not in " ".join(shown.split())
