"""Chances, minutes and facts as a person says them."""

import pytest

from diagnose.casebook.proposing import values
from diagnose.casebook.proposing.values import Wrong
from diagnose.knowledge.model import Knowledge


@pytest.mark.parametrize(
    ("said", "chance"), [("likely", "likely"), (" Very  Likely ", "very likely"), ("0.6", 0.6), ("60 %", 0.6), ("1", 1)]
)
def test_chances(knowledge: Knowledge, said: str, chance: object) -> None:
    assert values.chance(knowledge, said) == chance


@pytest.mark.parametrize("said", ["", "lots", "1.5", "-1", "nan", "inf", "certain", "impossible", "120 %"])
def test_no_chances(knowledge: Knowledge, said: str) -> None:
    with pytest.raises(Wrong, match="is no chance - expected very likely"):
        values.chance(knowledge, said)


@pytest.mark.parametrize(
    ("said", "wanted"),
    [
        ("under 65", "< 65"),
        ("at most 65 %", "<= 65"),
        ("more than 10", "> 10"),
        ("at least 50", ">= 50"),
        ("50 to 80", "50..80"),
        ("between 50 and 80", "50..80"),
        (">= 50", ">= 50"),
        ("65", 65),
        ("65 %", 65),
    ],
)
def test_what_a_number_must_be(knowledge: Knowledge, said: str, wanted: object) -> None:
    assert values.requirement(knowledge, f"item.polyester={said}") == ("item.polyester", wanted)


def test_what_other_facts_must_be(knowledge: Knowledge) -> None:
    assert values.requirement(knowledge, "item.hard=no") == ("item.hard", False)
    assert values.requirement(knowledge, "item.family=cloth") == ("item.family", "cloth")
    assert values.requirement(knowledge, "item.family=tea towel, ceramic") == ("item.family", ["cloth", "ceramic"])


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ("item.polyester", "no two sides"),
        ("item.poliester=5", "did you mean item.polyester"),
        ("item.polyester=lots", "a number from 0 to 100 %"),
        ("item.polyester=150", "a number from 0 to 100 %"),
        ("item.polyester=80..50", "the smaller number first"),
        ("item.polyester=over 150", "outside what item.polyester can be"),
        ("item.hard=maybe", "yes or no"),
        ("item.family=cloht", "did you mean cloth"),
    ],
)
def test_what_no_fact_can_be(knowledge: Knowledge, said: str, words: str) -> None:
    with pytest.raises(Wrong) as caught:
        values.requirement(knowledge, said)
    assert words in str(caught.value)


def test_minutes() -> None:
    assert [values.minutes(said) for said in ("4", "0.5", "6 min")] == [4, 0.5, 6]
    for said in ("", "-1", "soon", "1_0", "5000"):
        with pytest.raises(Wrong):
            values.minutes(said)
