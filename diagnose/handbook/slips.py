"""The names of a defect as hurried fingers type them: a letter left out, or swapped with the next; and the main ones.

The search of the site finds words as they stand on a page, and their endings; it forgives no slip. So the
likeliest slips stand on the page.
"""

from collections.abc import Iterable, Iterator
from difflib import SequenceMatcher

from diagnose.handbook.book import Handbook
from diagnose.handbook.text import words_in
from diagnose.knowledge.model import Defect

ALIKE = 0.72
WORD = 3  # shorter ones say nothing by themselves
MAIN = 12  # and for the search to weigh, the first dozen
SHORTEST = 5  # words below this are so short that their slips are other words
NAMES = 4  # of the names people use, the first few stand for the rest


def slips(defect: Defect, book: Handbook) -> list[str]:
    """Slips and plurals of the words in the title and the first names; no slip that is a word of its own here."""
    words = dict.fromkeys(word for name in (defect.title, *defect.said[:NAMES]) for word in words_in(name))
    found = {slip for word in words if len(word) >= SHORTEST for slip in _slips(word)} - book.vocabulary
    here = {word for name in book.names(defect) for word in words_in(name)}
    return sorted(found | ({f"{word}s" for word in words if _may_be_many(word)} - here))


def main_words(defect: Defect, book: Handbook) -> tuple[str, ...]:
    """The words of the title, of set phrases that mean this defect, and of its first names, each of them once."""
    names = (defect.title, *book.set_phrases.get(defect.id, ()), *defect.said[:MAIN])
    return tuple(dict.fromkeys(word for name in names for word in words_in(name) if len(word) >= WORD))


def distinct(names: Iterable[str]) -> Iterator[str]:
    """The names that are not nearly an earlier one, nor a word of it."""
    told: list[str] = []
    for name in names:
        if all(SequenceMatcher(None, name.lower(), one).ratio() < ALIKE for one in told):
            yield name
            told += [name.lower(), *name.lower().split()]


def _may_be_many(word: str) -> bool:
    return len(word) >= SHORTEST and not word.endswith(("s", "ing", "ed", "y"))


def _slips(word: str) -> Iterator[str]:
    for at in range(1, len(word)):
        yield word[:at] + word[at + 1 :]
        if at + 1 < len(word):
            yield word[:at] + word[at + 1] + word[at] + word[at + 2 :]
