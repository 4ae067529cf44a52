"""What a case holds, and its plain form."""

from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

import pytest

from diagnose.casebook.case import (
    BY_HAND,
    CURED,
    HANDED_OVER,
    LEFT,
    VERSION,
    Case,
    fit,
    from_plain,
    new_id,
    now,
    to_plain,
)
from diagnose.dialogue.moves import Answered, Cured, HandedOver, Move, Pressed, Saw, TriedFix
from diagnose.dialogue.session import Session
from diagnose.problems import PressloreError
from diagnose.reasoning.evidence import SAME, Tried

AT = datetime(2026, 3, 2, 9, 30, tzinfo=UTC)
MOVES: tuple[Move, ...] = (
    Pressed("tea-towel", {"item.polyester": 65.0}),
    Saw(("ghosting",)),
    Answered("listen-for-the-sheet", "slides"),
    TriedFix("tape-the-sheet", SAME),
)


def case(*more: Move, **fields: Any) -> Case:
    return Case(id=new_id(AT), ended=AT, session=Session((*MOVES, *more)), **fields)


def test_a_cure_is_evidence_that_the_fix_made_all_go_away() -> None:
    cured = case(Cured("peel-slowly"))
    assert cured.ending == CURED
    assert cured.evidence.tried == (Tried("tape-the-sheet", SAME), Tried("peel-slowly", "", ("ghosting",)))


def test_without_a_fix_named_a_cure_is_no_evidence() -> None:
    assert case(Cured()).evidence == case().evidence


@pytest.mark.parametrize(("end", "ending"), [((Cured(),), CURED), ((HandedOver(),), HANDED_OVER), ((), LEFT)])
def test_endings(end: tuple[Move, ...], ending: str) -> None:
    assert case(*end).ending == ending


def test_the_plain_form_comes_back_exactly() -> None:
    whole = case(Cured("peel-slowly"), press="left", minutes=31.5, spoilt=2, lost=6.0, took={"a": 1.0}, source=BY_HAND)
    assert from_plain(to_plain(whole)) == whole


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("id", "../../etc"),
        ("ended", "yesterday"),
        ("minutes", float("nan")),
        ("minutes", 10**400),
        ("minutes", True),
        ("spoilt", -1),
        ("spoilt", 2.5),
        ("press", "left\x1b[31m"),
        ("press", "x" * 1001),
        ("ended", "1999-12-31T23:59:59Z"),
        ("lost", "six"),
        ("took", [1]),
        ("moves", [{"move": "danced"}]),
        ("moves", None),
        ("version", VERSION + 1),
        ("format", "something-else"),
    ],
)
def test_a_damaged_case_is_refused(key: str, value: Any) -> None:
    with pytest.raises(PressloreError):
        from_plain({**to_plain(case()), key: value})


def test_what_could_not_be_read_again_is_not_kept() -> None:
    whole = case(Cured(), press="left", minutes=3.0)
    assert fit(whole) == whole
    for field, spoilt in (("lost", 1e13), ("press", "a\nb"), ("ended", AT.replace(year=206)), ("took", {"a": -1.0})):
        with pytest.raises(PressloreError, match=f"this case cannot be kept: {field}: "):
            fit(replace(whole, **{field: spoilt}))
    many = tuple(Saw((f"sight-{number}",)) for number in range(30_000))
    with pytest.raises(PressloreError, match="moves: these take more than 1,000,000 bytes"):
        fit(replace(whole, session=Session(many)))


@pytest.mark.parametrize("plain", [None, [], "case", {}, 3])
def test_anything_else_is_refused(plain: Any) -> None:
    with pytest.raises(PressloreError):
        from_plain(plain)


def test_ids_made_later_sort_later() -> None:
    later = datetime(2026, 3, 2, 9, 31, tzinfo=UTC)
    assert new_id(AT) < new_id(later)
    assert now().microsecond == 0
