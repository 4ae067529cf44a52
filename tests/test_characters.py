"""Which characters may reach a terminal, held against Python's copy of the Unicode Character Database."""

import sys
import unicodedata

import pytest

from diagnose.characters import named, stripped, unsafe

ACTING = {"Cc", "Cf", "Zl", "Zp", "Cs"}


def test_everything_that_acts_on_its_surroundings_is_kept_out() -> None:
    acting = [sign for sign in map(chr, range(sys.maxunicode + 1)) if unicodedata.category(sign) in ACTING]
    assert [hex(ord(sign)) for sign in acting if sign != "\t" and stripped(sign)] == []
    assert stripped("\t") == " "


def test_whatever_else_is_assigned_stays() -> None:
    kept = [sign for sign in map(chr, range(sys.maxunicode + 1)) if unicodedata.category(sign) not in {*ACTING, "Cn"}]
    assert [hex(ord(sign)) for sign in kept if stripped(sign) != sign] == []


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("\x1b]52;c;aGk=\x07clipboard", "]52;c;aGk=clipboard"),
        ("\x1b[2Jgone", "[2Jgone"),
        ("a\u202eb\u202c", "ab"),
        ("first\rsecond", "firstsecond"),
        ("\x9b31mred", "31mred"),
        ("half \ud800 a letter", "half  a letter"),
        ("two\nlines", "twolines"),
        ("grün, naïve, 布", "grün, naïve, 布"),
    ],
)
def test_a_text_without_what_acts(text: str, shown: str) -> None:
    assert stripped(text) == shown


def test_line_feeds_stay_where_they_are_wanted() -> None:
    assert stripped("a\r\nb\x1b\n", lines=True) == "a\nb\n"


def test_what_is_unsafe_is_found_with_its_place() -> None:
    assert list(unsafe("a\nb\x1bc\u202e")) == [(3, "\x1b"), (5, "\u202e")]
    assert list(unsafe("plain\ntext, naïve")) == []


def test_a_character_is_named_in_words() -> None:
    assert named("\u202e") == "U+202E, right-to-left override"
    assert named("\x1b") == "U+001B"
