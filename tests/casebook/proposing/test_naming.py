"""Ids made from titles."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.casebook.proposing.entries import new_id
from diagnose.knowledge.documents.schema_check import schema

ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


@pytest.mark.parametrize(
    ("title", "made"),
    [
        ("The door to the quay stands open", "door-quay-stands-open"),
        ("The clerk's café", "clerks-cafe"),
        ("Is it the", "is-it-the"),
        ("雪", "own-cause"),
        ("", "own-cause"),
    ],
)
def test_ids(title: str, made: str) -> None:
    assert new_id(title, (), "own-cause") == made


def test_a_taken_id_gets_a_number() -> None:
    assert new_id("Damp", {"damp", "damp-2"}, "own-cause") == "damp-3"


@given(title=st.text(max_size=300), taken=st.sets(st.sampled_from(["own-cause", "a", "b", "own-cause-2"])))
def test_any_title_gives_an_id_of_its_own(title: str, taken: set[str]) -> None:
    made = new_id(title, taken, "own-cause")
    assert ID.fullmatch(made)
    assert len(made) <= 60
    assert made not in taken


@pytest.mark.parametrize("word", ["index", "con", "nul", "aux", "prn", "com1", "lpt9"])
def test_no_title_makes_an_id_that_is_refused(word: str) -> None:
    refused = re.compile(schema("kb")["$defs"]["id"]["allOf"][0]["not"]["pattern"])
    assert refused.search(word)
    assert new_id(word.title(), (), "own-cause") == f"{word}-2"
    assert not refused.search(f"{word}-2")
