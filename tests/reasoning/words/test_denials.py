"""What is said of a fault without saying that it is there."""

import pytest

from diagnose.reasoning.words import Lexicon, understand
from tests.words.told import denials

GHOST = {"ghosting"}
# The first half has been read to find faults of the grammar; the second has only been measured on.
FLOORS = [
    pytest.param(slice(0, 75), 45, 7, 11, id="first half, 73 denied"),
    pytest.param(slice(75, None), 28, 10, 27, id="second half, 75 denied"),
]


def not_seen(words: Lexicon, text: str) -> set[str]:
    return set(understand(words, text).not_seen)


@pytest.mark.parametrize(
    "text",
    [
        "no ghosting",
        "there is no ghosting at all",
        "without any ghosting",
        "not a trace of ghosting",
        "no sign of any ghosting",
        "nothing doubled",
        "free of ghosting",
        "forget ghosting",
        "I can rule out ghosting",
        "I don't have any trouble with ghosting",
        "ghosting? no",
        "ghosting: none",
        "ghosting is not there",
        "ghosting isn't visible any more",
        "I would not call it ghosting",
        "neither ghosting nor creases",
    ],
)
def test_it_is_denied(words: Lexicon, text: str) -> None:
    understood = understand(words, text)
    assert not_seen(words, text) >= GHOST
    assert not GHOST & {match.id for match in understood.defects}


@pytest.mark.parametrize(
    "text",
    [
        "no idea where the ghosting comes from",
        "I can't get rid of the ghosting",
        "not only ghosting",
        "not sure why there is ghosting",
        "nothing helps against the ghosting",
        "it's not that it isn't ghosting",
    ],
)
def test_something_else_is_denied(words: Lexicon, text: str) -> None:
    assert [match.id for match in understand(words, text).defects] == ["ghosting"]
    assert not_seen(words, text) == set()


@pytest.mark.parametrize(
    ("text", "seen"),
    [
        ("don't tell me it is pale", ()),
        ("I am afraid of scorching, so I press cooler", ()),
        ("don't tell me it is pale. It has creases", ("creases",)),
    ],
)
def test_what_is_feared_or_refused_to_hear_is_neither(words: Lexicon, text: str, seen: tuple[str, ...]) -> None:
    understood = understand(words, text)
    assert tuple(match.id for match in understood.defects) == seen
    assert understood.not_seen == ()


@pytest.mark.parametrize(
    ("text", "seen", "denied"),
    [
        ("it's not a ghost it's a crease", "creases", "ghosting"),
        ("not pale, it has creases", "creases", "faint-colour"),
        ("no ghosting just creases", "creases", "ghosting"),
    ],
)
def test_a_denial_ends_where_something_is_named_anew(words: Lexicon, text: str, seen: str, denied: str) -> None:
    understood = understand(words, text)
    assert [match.id for match in understood.defects] == [seen]
    assert understood.not_seen == (denied,)


def test_an_or_carries_a_denial_on(words: Lexicon) -> None:
    assert not_seen(words, "no banding or creases") == {"banding", "creases"}
    assert not_seen(words, "no banding, creases") == {"banding"}


@pytest.mark.parametrize(("half", "heard", "wrong", "told"), FLOORS)
def test_denials_that_nobody_tuned_by(words: Lexicon, half: slice, heard: int, wrong: int, told: int) -> None:
    """Of what is denied in a half: how much is heard, how much besides, and how much of it is taken for seen."""
    cases = [(case, understand(words, case.text)) for case in denials()[half]]
    found = [({*case.not_seen}, {*each.not_seen}, {match.id for match in each.defects}) for case, each in cases]
    assert sum(len(meant & taken) for meant, taken, _ in found) >= heard
    assert sum(len(taken - meant) for meant, taken, _ in found) <= wrong
    assert sum(len(meant & seen) for meant, _, seen in found) <= told
