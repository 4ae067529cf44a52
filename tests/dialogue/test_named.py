"""A cause that the person names: what it weighs, how it is told, kept and taken back."""

import json

import pytest

from diagnose.dialogue.moves import Named, TriedFix
from diagnose.dialogue.saving import VERSION, to_json, to_plain, unknown_ids
from diagnose.dialogue.session import Session
from diagnose.reasoning.evidence import NAMED_RATIO
from diagnose.speech.talk import told
from tests.dialogue.saved import from_json
from tests.dialogue.workshop import KNOWLEDGE, at_work, opened


def cool(session: Session) -> float:
    consultation = at_work(session)
    return consultation.beliefs.alive[consultation.net.index["runs-cool"]]


def test_it_multiplies_the_odds_of_its_cause_and_settles_nothing() -> None:
    before, after = cool(opened("pale")), cool(opened("pale").make(Named("runs-cool")))
    assert after / (1 - after) == pytest.approx(NAMED_RATIO * before / (1 - before))
    assert after < 1.0


def test_named_twice_it_counts_once() -> None:
    once = opened("pale").make(Named("runs-cool"))
    assert cool(once.make(Named("runs-cool"))) == cool(once)


def test_a_fix_that_puts_it_right_speaks_against_it_again_unless_it_is_named_anew() -> None:
    tried = opened("pale").make(Named("runs-cool")).make(TriedFix("turn-up-heat", "same"))
    assert cool(tried) < cool(opened("pale").make(Named("runs-cool")))
    assert cool(tried.make(Named("runs-cool"))) > cool(tried)


def test_it_stands_among_the_reasons() -> None:
    first = told(at_work(opened("pale").make(Named("runs-cool"))), 1)[0]
    assert any(reason.startswith("You think it is this: runs-cool (speaks ") for reason in first.reasons)


def test_it_is_kept_and_read_back_and_only_then_asks_for_the_newest_version() -> None:
    session = opened("pale").make(Named("runs-cool"))
    text = to_json(session, "any")
    assert from_json(text)[0] == session
    assert json.loads(text)["version"] == 3 < VERSION
    assert json.loads(to_json(opened("pale"), "any"))["version"] == 1
    assert to_plain(session)[-1] == {"move": "named", "cause": "runs-cool"}


def test_a_cause_that_is_not_known_is_named_as_such() -> None:
    assert unknown_ids(Session((Named("gremlins"),)), KNOWLEDGE) == {"gremlins"}
