"""What whole sentences are taken for."""

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.reasoning.words import Lexicon, rank_defects, understand
from diagnose.reasoning.words.understand import CERTAIN
from tests.bench.words import mistyped

SINGLE = {
    "The print is too pale all over": "faint-colour",
    "every letter has a second, weaker copy beside it": "ghosting",
    "the outlines are blurred and fuzzy": "blurred-edges",
    "a rectangle round the picture where the paper ended": "press-box",
    "brown scorch marks and a burnt smell": "scorching",
    "the blacks came out brown": "browned-blacks",
    "fine stripes across the picture at even spacing": "banding",
    "the magenta ink is missing completely": "missing-colour",
    "one corner stays pale every time": "cold-corners",
    "white line along the seam": "gaps-at-seams",
    "little blue hairs and specks on the white ground": "dark-specks",
    "white pinholes in the dark solid": "white-specks",
    "the picture shows through on the back of the shirt": "through-back",
    "the paper sticks and tears when I peel it": "paper-sticks",
    "sticky residue where the tape was": "tape-marks",
    "the fleece is flattened where it was pressed": "crushed-pile",
    "lettering reads backwards like in a mirror": "mirrored-image",
    "it faded after washing": "wash-out",
    "bubbles in the coating of the tile": "blisters",
    "the panel is warped and rocks on the table": "warping",
    "nothing transferred, the mug is still blank": "no-transfer",
    "the colour rubs off on my fingers": "rubs-off",
}
SEVERAL = {
    "print is pale and there is a faint second copy of the text": {"faint-colour", "ghosting"},
    "blacks look brown and there's a second copy of the text": {"browned-blacks", "ghosting"},
    "The mug has bubbles in the coating. The picture is mirrored.": {"blisters", "mirrored-image"},
    "tape marks, and the white has gone yellow": {"tape-marks", "yellowed-ground"},
    "too dark, and the letters are fuzzy": {"too-dark", "blurred-edges"},
}


def best(words: Lexicon, text: str) -> str:
    return rank_defects(words, text)[0].id


@pytest.mark.parametrize(("text", "defect"), SINGLE.items())
def test_one_defect_is_told(words: Lexicon, text: str, defect: str) -> None:
    assert [match.id for match in understand(words, text).defects] == [defect]


@pytest.mark.parametrize(("text", "defect"), SINGLE.items())
def test_case_and_signs_change_nothing(words: Lexicon, text: str, defect: str) -> None:
    assert best(words, text.upper() + "!!") == best(words, text.title()) == defect


@pytest.mark.parametrize(("text", "defect"), SINGLE.items())
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_one_typing_error_leaves_it_among_the_first_three(words: Lexicon, text: str, defect: str, seed: int) -> None:
    wrong = mistyped(text, random.Random(seed))
    assert defect in [match.id for match in rank_defects(words, wrong)[:3]]


@pytest.mark.parametrize(("text", "defects"), SEVERAL.items())
def test_several_defects_are_told_apart(words: Lexicon, text: str, defects: set[str]) -> None:
    assert {match.id for match in understand(words, text).defects} == defects


def test_the_order_of_clauses_changes_nothing(words: Lexicon) -> None:
    one = understand(words, "the paper sticks, the blacks look brown")
    other = understand(words, "the blacks look brown, the paper sticks")
    assert {match.id for match in one.defects} == {match.id for match in other.defects}


@pytest.mark.parametrize(("one", "many"), [("a white dot", "white dots"), ("brown mark", "brown marks")])
def test_plurals_change_nothing(words: Lexicon, one: str, many: str) -> None:
    assert best(words, one) == best(words, many)


def test_what_is_denied_is_not_seen(words: Lexicon) -> None:
    understood = understand(words, "no ghost, not blurred, but pale")
    assert [match.id for match in understood.defects] == ["faint-colour"]
    assert set(understood.not_seen) == {"ghosting", "blurred-edges"}


def test_a_denied_virtue_is_a_fault(words: Lexicon) -> None:
    understood = understand(words, "the edges are not sharp")
    assert [match.id for match in understood.defects] == ["blurred-edges"]
    assert understood.not_seen == ()


def test_ids_are_always_understood(words: Lexicon) -> None:
    understood = understand(words, "Faint-colour and no-transfer.")
    assert [(match.id, match.score) for match in understood.defects] == [
        ("faint-colour", CERTAIN),
        ("no-transfer", CERTAIN),
    ]


def test_the_words_that_led_there_are_shown(words: Lexicon) -> None:
    (match,) = understand(words, "The fleece is flattned").defects
    assert match.because == ("fleece", "flattned")


def test_an_answer_to_a_check_is_heard_without_a_defect(words: Lexicon) -> None:
    understood = understand(words, "the platen reads low on the probe")
    assert [told[:2] for told in understood.outcomes] == [("probe-the-platen", "reads-low")]
    assert understood.defects == ()


def test_item_and_defect_are_told_together(words: Lexicon) -> None:
    understood = understand(words, "black polyester t-shirt, the print is crooked")
    assert understood.item is not None
    assert (understood.item.id, understood.item.facts["item.colour"]) == ("t-shirt-polyester", "black")
    assert [match.id for match in understood.defects] == ["crooked-placement"]


def test_what_leads_nowhere_is_handed_back(words: Lexicon) -> None:
    assert understand(words, "pale, xylophonquix").not_understood == ("xylophonquix",)


@pytest.mark.parametrize("text", ["", "   ", "hello, can you help me please", "?!"])
def test_words_without_meaning_name_nothing(words: Lexicon, text: str) -> None:
    assert understand(words, text).defects == ()


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=200))
def test_any_text_gives_a_result(words: Lexicon, text: str) -> None:
    understood = understand(words, text)
    ids = [match.id for match in understood.defects]
    assert len(ids) == len(set(ids))
    assert not set(ids) & set(understood.not_seen)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.sampled_from("not no pale ghost , and but print corner washed tape box 65/35 mug blurrred".split())))
def test_any_words_give_the_same_result_twice(words: Lexicon, pieces: list[str]) -> None:
    text = " ".join(pieces)
    assert understand(words, text) == understand(words, text)


def test_a_very_long_text_is_answered(words: Lexicon) -> None:
    assert understand(words, "the print is pale, " * 5000).defects[0].id == "faint-colour"
