"""The report: valid at every point of a session, in the order it promises, and the same for the same session."""

import json
from dataclasses import replace
from importlib.resources import files
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import CannotTell, Cured, HandedOver, Move, Pressed, Saw, TriedFix
from diagnose.dialogue.session import Session
from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.model import Wait
from diagnose.knowledge.shop import Rates, Shop
from diagnose.speech.afterwards import afterwards
from diagnose.speech.report import to_plain
from tests.dialogue.workshop import KNOWLEDGE, at_work, opened, sessions

SCHEMA = json.loads(files("diagnose.dialogue").joinpath("schema", "diagnosis.json").read_text(encoding="utf-8"))
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)
NOTHING: dict[str, Any] = {
    "item": None,
    "facts": {},
    "defects": [],
    "not_seen": [],
    "outcomes": [],
    "not_understood": [],
}


def reported(session: Session) -> dict[str, Any]:
    return to_plain(at_work(session), NOTHING)


def test_the_schema_is_one() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@settings(max_examples=40, deadline=None)
@given(session=sessions)
def test_any_session_gives_a_report_that_keeps_to_the_schema(session: Session) -> None:
    whole = reported(session)
    VALIDATOR.validate(whole)
    assert json.loads(json.dumps(whole, allow_nan=False)) == whole
    chances = [cause["probability"] for cause in whole["causes"]]
    assert chances == sorted(chances, reverse=True)
    assert reported(session) == whole


def test_what_becomes_of_piece_and_order_is_in_the_report() -> None:
    knowledge = load(shipped_folder())
    session = Session((Pressed("hoodie"), Saw(("press-box",))))
    for end in ((), (HandedOver(),), (Cured(min(knowledge.fixes)),)):
        now = Consultation(knowledge, Shop(), Session((*session.moves, *end)))
        whole = to_plain(now, NOTHING)
        VALIDATOR.validate(whole)
        assert [way["way"] for way in whole["piece"]["ways"]][:2] == ["clean-up", "second"]
        assert whole["piece"]["cautions"] == ["steam"]
        assert whole["rest"]["verdict"] in ("go", "go with care", "stop")
        assert afterwards(now) == [
            *whole["piece"]["text"].split(" Else")[:1],
            *afterwards(now)[1:2],
            whole["rest"]["text"],
        ]
    assert (reported(opened("pale"))["piece"], reported(opened("pale"))["rest"]) == (None, None)
    assert reported(opened("pale"))["expected_questions"] == round(at_work(opened("pale")).advice.questions, 1)


def test_what_is_waited_for_is_told_apart_from_the_minutes_of_hands() -> None:
    cooling = Wait(minutes=60.0, what="the press to cool")
    checks = {key: replace(check, waits=cooling) for key, check in KNOWLEDGE.checks.items()}
    fixes = {key: replace(fix, minutes=40.0, waits=cooling) for key, fix in KNOWLEDGE.fixes.items()}
    known = replace(KNOWLEDGE, checks=checks, fixes=fixes)
    whole = to_plain(Consultation(known, Shop(rates=Rates(waiting=0.0)), opened("pale")), NOTHING)
    VALIDATOR.validate(whole)
    assert whole["next"]["waits"] == {"minutes": 60.0, "for": "the press to cool"}
    assert whole["next"]["minutes"] == known.checks[whole["next"]["id"]].minutes
    assert whole["expected_wait"] >= 60.0
    bare = reported(opened("pale"))
    assert bare["next"]["waits"] is None
    assert bare["expected_wait"] == 0.0


def test_the_next_step_is_the_one_advised() -> None:
    session = opened("pale")
    for _ in range(12):
        whole, advice = reported(session), at_work(session).advice
        assert (whole["next"]["kind"], whole["next"]["id"]) == (advice.kind, advice.id)
        if advice.kind == "call":
            return
        move: Move = CannotTell(advice.id) if advice.kind == "check" else TriedFix(advice.id, "same")
        if advice.kind == "check":
            outcomes = [outcome["id"] for outcome in whole["next"]["outcomes"]]
            assert outcomes == [outcome.id for outcome in KNOWLEDGE.checks[advice.id].outcomes]
        session = session.make(move)
    pytest.fail("never came to an end")


@pytest.mark.parametrize("end", [Cured("pre-press"), HandedOver()])
def test_when_it_is_over_nothing_is_left_to_do(end: Move) -> None:
    whole = reported(opened("pale").make(end))
    assert whole["next"]["kind"] == "done"
    assert (whole["alternatives"], whole["would_change"]) == ([], [])
    assert (whole["expected_minutes"], whole["expected_cost"]) == (0, 0)


def test_where_nothing_was_seen_there_is_something_to_say_first() -> None:
    whole = reported(Session())
    assert whole["next"]["kind"] == "say"
    assert (whole["causes"], whole["alternatives"], whole["expected_cost"]) == ([], [], 0)


def test_reasons_point_the_way_they_are_listed() -> None:
    whole = reported(opened("pale", "steam-marks").make(TriedFix("press-longer", "same")))
    for cause in whole["causes"]:
        assert all(reason["decibans"] >= 0 for reason in cause["for"])
        assert all(reason["decibans"] <= 0 for reason in cause["against"])
