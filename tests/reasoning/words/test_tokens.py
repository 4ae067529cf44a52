"""A text as the listener reads it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.reasoning.words import Lexicon
from diagnose.reasoning.words.groups import NOT
from diagnose.reasoning.words.spelling import clauses, taken
from diagnose.reasoning.words.tokens import A_FIGURE, Spelt, key_of, pair


def read(words: Lexicon, text: str) -> list[Spelt]:
    cut = clauses(taken(text))
    return words.tokens(cut, words.reader.typed(cut, words.speller))


def keys(words: Lexicon, text: str) -> list[str]:
    return [token.key for token in read(words, text)]


def test_every_word_but_articles_is_a_token(words: Lexicon) -> None:
    assert keys(words, "The edges of my mug") == [key_of(word) for word in ("edges", "of", "mug")]


@pytest.mark.parametrize("no", ["no", "not", "never", "isn't", "without", "kein"])
def test_all_that_denies_has_one_key(words: Lexicon, no: str) -> None:
    assert keys(words, f"{no} ghosting")[0] == NOT


@pytest.mark.parametrize("figure", ["180", "45s", "3rd"])
def test_all_figures_have_one_key(words: Lexicon, figure: str) -> None:
    assert keys(words, f"at {figure} now")[1] == A_FIGURE


@pytest.mark.parametrize(("typed", "meant"), [("ghosttng", "ghosting"), ("blured", "blurred"), ("creasse", "crease")])
def test_a_slip_is_read_as_the_word_that_was_meant(words: Lexicon, typed: str, meant: str) -> None:
    assert keys(words, f"it is {typed}") == keys(words, f"it is {meant}")


def test_groups_stand_with_the_first_word_of_what_belongs_to_them(words: Lexicon) -> None:
    second, copy = read(words, "second copy")
    assert "#second-copy" in second.groups
    assert "#second-copy" not in copy.groups


def test_two_words_are_a_pair_within_one_clause_only(words: Lexicon) -> None:
    one, other = read(words, "pale corner")
    assert pair(one, other) == f"{one.key} {other.key}"
    assert pair(*read(words, "pale. corner")) == ""


@given(st.text(max_size=200))
def test_any_text_is_read_in_order(words: Lexicon, text: str) -> None:
    found = read(words, text)
    assert [token.word for token in found] == sorted({token.word for token in found})
    assert [token.clause for token in found] == sorted(token.clause for token in found)
    assert all(token.key for token in found)
