"""Folding, clauses, stems, and how typing errors are told."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.reasoning.words.slips import Speller, distance, nearest
from diagnose.reasoning.words.spelling import LONGEST_TEXT, clauses, cut, cut_each, fold, is_cut, taken
from diagnose.reasoning.words.stems import stem

LETTERS = st.text("abcdefgh", max_size=9)


def test_folding_takes_case_accents_and_apostrophes_away() -> None:
    assert fold("Didn’t TAKE the Décor") == "didnt take the decor"


def test_signs_and_joining_words_end_a_clause() -> None:
    found = [(word.text, word.clause) for word in clauses("Pale, and blurred; but no ghost.")]
    assert found == [("pale", 0), ("blurred", 1), ("no", 2), ("ghost", 2)]


def test_many_texts_are_cut_as_each_would_be() -> None:
    assert cut_each(["one two", "", "three\nfour"]) == [["one", "two"], [], ["three", "four"]]
    assert cut("one, two") == ["one", "two"]


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("  65" + " " * 1000 + "x\t\u00a0\ufeff", "65 x"),
        ("pale \r\n\n \t blurred", "pale\nblurred"),
        ("65" + "\u00a8" * 1000 + "x", "65 x"),  # a sign that is a blank once its accent is taken off
        ("65" + " \u0301" * 900 + "x", "65 x"),
        ("Mug", "Mug"),
    ],
)
def test_white_space_collapses_before_anything_looks_at_a_text(typed: str, read: str) -> None:
    assert taken(typed) == read


@given(st.text(" \n\ta65é\u00a8\u0301İ", max_size=60) | st.text(max_size=40))
def test_taking_a_text_twice_changes_nothing_more(text: str) -> None:
    once = taken(text)
    assert taken(once) == once
    assert "  " not in fold(once)


def test_of_a_longer_text_the_beginning_is_read() -> None:
    short, long = "a" * LONGEST_TEXT, "a" * (LONGEST_TEXT + 1)
    assert (taken(short), is_cut(short), is_cut(short + " " * 5000)) == (short, False, False)
    assert (taken(long), is_cut(long)) == (short, True)


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


@given(LETTERS, LETTERS, st.integers(0, 4))
def test_past_the_most_slips_it_says_no_more_than_that(one: str, other: str, most: int) -> None:
    assert distance(one, other, most) == min(distance(one, other, 9), most + 1)


def test_long_words_that_differ_little_cost_no_square_of_their_letters() -> None:
    """Only letters that stand near each other are compared: a word of 100,000 letters is gone through in a moment."""
    assert distance("ab" * 50_000, "ab" * 49_999 + "ba", 2) == 1


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
