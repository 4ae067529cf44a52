"""What a case holds, and its plain form."""

import json
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.casebook.case import (
    BY_HAND,
    CURED,
    HANDED_OVER,
    LEFT,
    VERSION,
    Case,
    fit,
    from_plain,
    line,
    new_id,
    now,
    to_plain,
)
from diagnose.dialogue.moves import (
    Answered,
    Cured,
    FoundLately,
    HandedOver,
    LastGood,
    Move,
    Pressed,
    Saw,
    TriedFix,
    Used,
)
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


@pytest.mark.parametrize(
    "move",
    [
        Answered("listen-for-the-sheet", "slides", again=True),
        LastGood("2026-11-12", {"set": 200.0}, {"paper": "the green box"}),
        FoundLately("sheet-slides", "2026-11-20", 2.5),
        Used({"paper": "the blue box"}),
    ],
    ids=lambda move: type(move).__name__,
)
def test_a_case_of_the_newest_moves_is_kept_and_taken_in_again(move: Move) -> None:
    kept = case(move, Cured())
    assert fit(kept) == kept == from_plain(to_plain(kept))
    assert kept.evidence == case(*([move] if isinstance(move, Answered) else []), Cured()).evidence


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
    changes: tuple[tuple[str, Any], ...] = (
        ("lost", 1e13),
        ("press", "a\nb"),
        ("press", "a\udce9"),
        ("ended", AT.replace(year=206)),
        ("took", {"a": -1.0}),
    )
    for field, spoilt in changes:
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


plainest = st.none() | st.booleans() | st.integers() | st.floats() | st.text()
values = st.recursive(
    plainest | st.sampled_from([10**400, "2026-03-02T09:30:00Z"]),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
    max_leaves=5,
)
WHOLE = case(Cured("peel-slowly"), press="left", minutes=31.5, spoilt=2, lost=6.0, took={"a": 1.0})


@given(key=st.sampled_from(sorted(to_plain(WHOLE))), value=values)
def test_what_is_taken_in_can_always_go_out_and_in_again(key: str, value: Any) -> None:
    taken, refused = attempt(lambda: from_plain({**to_plain(WHOLE), key: value}))
    if taken is None:
        assert 0 < len(refused) < 500
    else:
        assert fit(taken) == taken
        assert from_plain(json.loads(line(taken))) == taken


short = st.text(max_size=3)
moves = st.lists(
    st.one_of(
        st.builds(Pressed, short, st.dictionaries(short, short | st.booleans() | st.floats())),
        st.builds(Saw, st.lists(short).map(tuple)),
        st.builds(Answered, short, short),
        st.builds(TriedFix, short, st.sampled_from(["", SAME, "better"])),
    ),
    max_size=4,
)


@given(moves=moves, end=st.sampled_from([(), (Cured(),), (HandedOver(),)]))
def test_whatever_a_dialogue_held_is_kept_exactly_or_refused_by_name(moves: list[Move], end: tuple[Move, ...]) -> None:
    held = replace(WHOLE, session=Session((*moves, *end)))
    kept, refused = attempt(lambda: fit(held))
    if kept is None:
        assert refused.startswith("this case cannot be kept: moves: ")
    else:
        assert kept == held
        assert from_plain(json.loads(line(kept))) == held


def attempt(read: Callable[[], Case]) -> tuple[Case | None, str]:
    """The case, or the words in which it was refused."""
    try:
        return read(), ""
    except PressloreError as error:
        return None, str(error)
