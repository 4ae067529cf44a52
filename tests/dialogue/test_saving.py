"""Leaving and resuming: a saved session comes back exactly; a file that is none is refused in plain words."""

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.dialogue.moves import Answered, CannotDo, CannotTell, Cured, Move, Pressed, Saw, TriedFix
from diagnose.dialogue.saving import FORMAT, VERSION, resumed, to_json
from diagnose.dialogue.session import Session
from diagnose.problems import PressloreError
from tests.dialogue.saved import from_json
from tests.dialogue.workshop import KNOWLEDGE, at_work, opened, sessions

SAVED = to_json(
    opened("pale").make(Answered("feel", "damp")).make(TriedFix("pre-press", "better", ("pale",))),
    "workshop-1",
)


@given(session=sessions)
def test_a_session_comes_back_exactly(session: Session) -> None:
    again, version = from_json(to_json(session, KNOWLEDGE.version))
    assert again == session
    assert version == KNOWLEDGE.version
    assert [type(value) for value in again.facts.values()] == [type(value) for value in session.facts.values()]


@settings(max_examples=40, deadline=None)
@given(session=sessions)
def test_a_resumed_session_believes_the_same_bit_for_bit(session: Session) -> None:
    again, _ = from_json(to_json(session, KNOWLEDGE.version))
    assert at_work(again).beliefs == at_work(session).beliefs


# --- files that are no saved session, or no whole one ---


def refused(text: str, tmp_path: Path) -> str:
    file = tmp_path / "towels.json"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(PressloreError) as caught:
        resumed(file, KNOWLEDGE)
    return str(caught.value)


@pytest.mark.parametrize("length", range(0, len(SAVED) - 2, 7))
def test_a_file_cut_short_is_refused(length: int, tmp_path: Path) -> None:
    assert "damaged" in refused(SAVED[:length], tmp_path)


def with_change(**changes: Any) -> str:
    return json.dumps({**json.loads(SAVED), **changes})


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "damaged"),
        ("null", "damaged"),
        ("[]", "damaged"),
        ('"pale"', "damaged"),
        ("{}", "damaged"),
        ("[" * 100_000, "damaged"),
        ('{"format": "cake-recipe", "version": 1}', "not a saved session"),
        (with_change(format="cake-recipe"), "not a saved session"),
        (with_change(version=VERSION + 1), "newer presslore"),
        (with_change(version="1"), "damaged"),
        (with_change(version=None), "damaged"),
        (with_change(moves=None), "damaged"),
        (with_change(moves={"move": "saw"}), "damaged"),
        (with_change(moves=[["saw"]]), "damaged"),
    ],
)
def test_what_is_no_saved_session_is_refused(text: str, says: str, tmp_path: Path) -> None:
    assert says in refused(text, tmp_path)


@pytest.mark.parametrize(
    "move",
    [
        {},
        {"move": "sang"},
        {"move": ["saw"]},
        {"move": "saw"},
        {"move": "saw", "defects": "pale"},
        {"move": "saw", "defects": ["pale", 3]},
        {"move": "saw", "defects": [["pale"]]},
        {"move": "saw", "defects": None},
        {"move": "saw", "defects": ["pale"], "colour": "blue"},
        {"move": "pressed", "item": None},
        {"move": "pressed", "item": {}},
        {"move": "pressed", "item": "fete-towel", "facts": None},
        {"move": "pressed", "item": "fete-towel", "facts": [["item.family", "cloth"]]},
        {"move": "pressed", "item": "fete-towel", "facts": {"item.family": {"cloth": 1}}},
        {"move": "pressed", "item": "fete-towel", "facts": {"item.family": ["cloth"]}},
        {"move": "pressed", "item": "fete-towel", "facts": {"item.thickness": None}},
        {"move": "pressed", "item": "fete-towel", "facts": {"item.thickness": float("nan")}},
        {"move": "answered", "check": {}, "outcome": "damp"},
        {"move": "answered", "check": "feel"},
        {"move": "tried", "fix": "pre-press", "change": 1},
        {"move": "handed-over", "to": "the foreman"},
    ],
)
def test_a_move_that_is_none_is_refused(move: dict[str, Any], tmp_path: Path) -> None:
    assert "damaged" in refused(with_change(moves=[move]), tmp_path)


values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
    max_leaves=6,
)
kinds = st.sampled_from(("pressed", "saw", "did-not-see", "answered", "cannot-tell", "tried", "cannot-do", "cured"))
keys = st.sampled_from(("item", "facts", "defects", "check", "outcome", "fix", "change", "gone"))


@settings(max_examples=300, deadline=None)
@given(moves=st.lists(st.tuples(kinds, st.dictionaries(keys, values, max_size=3)), max_size=3))
def test_no_file_whatever_breaks_through(moves: list[tuple[str, dict[str, Any]]], tmp_path_factory: Any) -> None:
    file = tmp_path_factory.getbasetemp() / "any.json"
    written = [{"move": kind, **told} for kind, told in moves]
    whole = {"format": FORMAT, "version": VERSION, "knowledge": "any", "moves": written}
    file.write_text(json.dumps(whole), encoding="utf-8")
    try:
        session = resumed(file, KNOWLEDGE).session
    except PressloreError:
        return
    assert at_work(session).beliefs.alive
    file.write_text(to_json(session, "any"))
    assert resumed(file, KNOWLEDGE).session == session


@pytest.mark.parametrize(
    ("move", "named"),
    [
        (Pressed("sail"), "sail"),
        (Pressed("fete-towel", {"item.smell": "salty"}), "item.smell"),
        (Saw(("pale", "barnacles")), "barnacles"),
        (Answered("sniff", "salty"), "sniff=salty"),
        (Answered("feel", "salty"), "feel=salty"),
        (CannotTell("sniff"), "sniff"),
        (TriedFix("scrub"), "scrub"),
        (TriedFix("pre-press", "worse"), "worse"),
        (TriedFix("pre-press", "better", ("barnacles",)), "barnacles"),
        (CannotDo("scrub"), "scrub"),
        (Cured("scrub"), "scrub"),
    ],
)
def test_what_is_no_longer_known_is_named(move: Move, named: str, tmp_path: Path) -> None:
    assert refused(to_json(Session((move,)), "old"), tmp_path).endswith(f"no longer known: {named}")


def test_a_file_that_is_not_there_or_not_text_is_refused(tmp_path: Path) -> None:
    (tmp_path / "picture.json").write_bytes(b"\xff\xd8\xff\xe0")
    for name in ("nowhere.json", "picture.json", "."):
        with pytest.raises(PressloreError, match="cannot read"):
            resumed(tmp_path / name, KNOWLEDGE)


@pytest.mark.parametrize(
    "text",
    [
        '{"format": "presslore-session", "version": 1, "knowledge": "k", "moves": ""}',
        '{"format": "presslore-session", "version": 1, "knowledge": "k", "moves": {}}',
        '{"format": "presslore-session", "version": true, "knowledge": "k", "moves": []}',
        '{"format": "presslore-session", "version": 1, "knowledge": "k", "moves": [{"move": "pressed", "item": "", '
        '"facts": {"item.thickness": 1' + "0" * 400 + "}}]}",
    ],
)
def test_odd_kinds_and_absurd_numbers_are_refused(text: str) -> None:
    with pytest.raises(PressloreError, match="damaged"):
        from_json(text)
