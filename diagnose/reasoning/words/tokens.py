"""A text as the listener reads it: word by word, each with the features that the table knows it by."""

from collections.abc import Sequence
from dataclasses import dataclass

from diagnose.reasoning.words.groups import GROUP, NEGATORS, NOT
from diagnose.reasoning.words.slips import Speller
from diagnose.reasoning.words.spelling import Word
from diagnose.reasoning.words.stems import stem
from diagnose.reasoning.words.units import Unit

ARTICLES = frozenset(
    "a an the it its is my our your his her their this that these those very so quite really such".split()
)
AFTER_ALL = ("after", "all")  # says nothing at the end of a clause
A_FIGURE = "0"


@dataclass(frozen=True, slots=True)
class Spelt:
    """One word. ``key``: its stem as it was meant; ``NOT`` for a word that denies, ``A_FIGURE`` for a number.
    ``groups``: the groups of words that mean the same, and the set phrases, that begin with it. ``word``: its place
    among the words of the text. ``mended``: whether it was taken for a typing error."""

    key: str
    groups: tuple[str, ...]
    clause: int
    word: int
    mended: bool = False

    @property
    def features(self) -> tuple[str, ...]:
        return self.groups if self.key == A_FIGURE else (self.key, *self.groups)


def tokens(words: Sequence[Word], units: Sequence[Unit], speller: Speller) -> list[Spelt]:
    """The tokens of a text: every word but articles and their like, and what a clause says over again. ``units``: the
    same, as the reader has it."""
    groups: dict[int, list[str]] = {}
    mended: dict[int, str] = {}
    for unit in units:
        first, last = unit.words
        plain = [feature.lstrip(NOT) for feature, _ in unit.features]
        groups[first] = groups.get(first, []) + [each for each in plain if each.startswith(GROUP) or " " in each]
        if last == first + 1 and not words[first].text[0].isdigit() and not speller.knows(words[first].text):
            stems = [each for each in plain if not (each.startswith(GROUP) or " " in each)]
            mended.update({first: stems[0]} if stems else {})
    again, idle = _said_again(words), _after_all(words)
    return [
        Spelt(mended.get(place) or key_of(word.text), tuple(groups.get(place, ())), word.clause, place, place in mended)
        for place, word in enumerate(words)
        if (groups.get(place) or word.text not in ARTICLES) and word.clause not in again and place not in idle
    ]


def _after_all(words: Sequence[Word]) -> set[int]:
    """The places of an "after all" that ends its clause."""
    pairs = [place for place in range(len(words) - 1) if (words[place].text, words[place + 1].text) == AFTER_ALL]
    ends = [n for n in pairs if n + 2 == len(words) or words[n + 2].clause != words[n].clause]
    return {place for first in ends if words[first].clause == words[first + 1].clause for place in (first, first + 1)}


def _said_again(words: Sequence[Word]) -> set[int]:
    """The clauses that say word for word what an earlier one has said."""
    said: dict[int, list[str]] = {}
    for word in words:
        said.setdefault(word.clause, []).append(word.text)
    first: dict[tuple[str, ...], int] = {}
    return {clause for clause, each in said.items() if first.setdefault(tuple(each), clause) != clause}


def key_of(word: str) -> str:
    """What a word is known by in the table."""
    if word[0].isdigit():
        return A_FIGURE
    return NOT if word in NEGATORS else stem(word)


def pair(one: Spelt, other: Spelt) -> str:
    """The feature of two tokens side by side; "" where a clause ends between them."""
    return f"{one.key} {other.key}" if one.clause == other.clause else ""
