"""Folding, clauses, stems, and how typing errors are told."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.reasoning.words.slips import Speller, distance, nearest
from diagnose.reasoning.words.spelling import clauses, cut, cut_each, fold
from diagnose.reasoning.words.stems import stem

LETTERS = st.text("abcdefgh", max_size=9)


def test_folding_takes_case_accents_and_apostrophes_away() -> None:
    assert fold("Didn’t TAKE the Décor") == "didnt take the decor"


def test_signs_and_joining_words_end_a_clause() -> None:
    found = [(word.text, word.clause) for word in clauses("Pale, and blurred; but no ghost.")]
    assert found == [("pale", 0), ("blurred", 1), ("no", 2), ("ghost", 2)]


def test_many_texts_are_cut_as_each_would_be() -> None:
    assert cut_each(["one two", "", "three\nfour"]) == [["one", "two"], [], ["three", "four"]]
    assert cut_each([]) == []
    assert cut("one, two") == ["one", "two"]


@pytest.mark.parametrize(
    "family",
    [
        ("blur", "blurred", "blurring", "blurry", "blurs"),
        ("fade", "faded", "fades", "fading"),
        ("patch", "patches", "patchy", "patchiness"),
        ("brown", "browned", "brownish", "browning", "browns"),
        ("stick", "sticks", "stuck", "sticking", "sticky"),
        ("tear", "tore", "torn", "tearing"),
        ("haze", "hazy", "haziness"),
    ],
)
def test_inflections_share_a_stem(family: tuple[str, ...]) -> None:
    assert len({stem(word) for word in family}) == 1


@pytest.mark.parametrize("pair", [("pale", "pile"), ("mug", "mud"), ("bleed", "blade"), ("tile", "tilt")])
def test_other_words_keep_apart(pair: tuple[str, str]) -> None:
    assert stem(pair[0]) != stem(pair[1])


@pytest.mark.parametrize(
    ("one", "other", "slips"), [("pale", "pael", 1), ("pale", "pal", 1), ("pale", "pales", 1), ("pale", "bald", 2)]
)
def test_a_swap_of_neighbours_is_one_slip(one: str, other: str, slips: int) -> None:
    assert distance(one, other, 2) == slips


@given(LETTERS, LETTERS)
def test_distance_is_the_same_both_ways_and_nought_only_for_the_same(one: str, other: str) -> None:
    assert distance(one, other, 9) == distance(other, one, 9)
    assert (distance(one, other, 9) == 0) == (one == other)


def test_a_mistyped_word_is_mended_and_a_short_one_left_alone() -> None:
    speller = Speller.of(["ghosting", "pale", "mug", "tape"])
    assert speller.meant("ghosttng") == ["ghosting"]
    assert speller.meant("gohsitng") == ["ghosting"]
    assert speller.meant("pael") == ["pale"]
    assert speller.meant("mgu") == []
    assert speller.meant("palm") == ["pale"]


def test_words_run_together_are_split() -> None:
    speller = Speller.of(["pale", "corner", "corn", "er"])
    assert speller.split("palecorner") == ["pale", "corner"]
    assert speller.split("xyzzy") == []


def test_the_nearest_name_is_named_or_none() -> None:
    assert nearest(["faint-colour", "ghosting"], "faint-color") == "faint-colour"
    assert nearest(["faint-colour", "ghosting"], "elephant") == ""
    assert nearest([], "anything") == ""
