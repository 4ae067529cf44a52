"""Typing errors: letters left out, put in, replaced or swapped with a neighbour; words run together or split."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from diagnose.reasoning.words.stems import stem

SHORTEST = 3
LONG = 8


def allowed(length: int) -> int:
    """How many slips are forgiven in a word of so many letters: none below 4, one up to 7, two beyond."""
    return 0 if length < 4 else 1 if length < LONG else 2


def distance(one: str, other: str, most: int) -> int:
    """The number of slips between two words (optimal string alignment), or most + 1 if there are more."""
    if abs(len(one) - len(other)) > most:
        return most + 1
    earlier: dict[int, int] = {}
    before: dict[int, int] = {}
    row = {j: j for j in range(min(most, len(other)) + 1)}
    for i, letter in enumerate(one, 1):
        earlier, before, row = before, row, {0: i} if i <= most else {}
        for j in range(max(1, i - most), min(len(other), i + most) + 1):  # further apart is too many slips
            opposite = other[j - 1]
            cost = before.get(j - 1, most) + (letter != opposite)
            cost = min(cost, before.get(j, most) + 1, row.get(j - 1, most) + 1)
            if i > 1 and j > 1 and letter == other[j - 2] and opposite == one[i - 2]:
                cost = min(cost, earlier.get(j - 2, most) + 1)
            row[j] = cost
        if min(row.values(), default=most + 1) > most:
            return most + 1
    return min(row.get(len(other), most + 1), most + 1)


def letters(word: str) -> int:
    """The set of letters of a word as the bits of one number: a quick way to see that two words differ."""
    bits = 0
    for sign in word:
        bits |= 1 << (ord(sign) % 32)
    return bits


@dataclass(frozen=True, slots=True)
class Speller:
    """The words that may be meant, by length, each with its set of letters; and their stems."""

    known: frozenset[str]
    stems: frozenset[str]
    by_length: dict[int, list[tuple[str, int]]]

    @classmethod
    def of(cls, known: Iterable[str]) -> "Speller":
        words = frozenset(known)
        by_length: dict[int, list[tuple[str, int]]] = {}
        for word in sorted(words):
            if word.isalpha():
                by_length.setdefault(len(word), []).append((word, letters(word)))
        return cls(words, frozenset(map(stem, words)), by_length)

    def to_plain(self) -> list[Any]:
        """Plain JSON values: words and stems, and by length the words with their sets of letters."""
        by = {
            length: [[word for word, _ in each], [bits for _, bits in each]] for length, each in self.by_length.items()
        }
        return [" ".join(sorted(self.known)), " ".join(sorted(self.stems)), by]

    @classmethod
    def from_plain(cls, plain: list[Any]) -> "Speller":
        """What ``to_plain`` made ``plain`` from."""
        known, stems, by = plain
        lengths = {int(length): list(zip(*each, strict=True)) for length, each in by.items()}
        return cls(frozenset(known.split()), frozenset(stems.split()), lengths)

    def knows(self, word: str) -> bool:
        """Whether a word, or another form of it, is known."""
        return word in self.known or stem(word) in self.stems

    def meant(self, word: str) -> list[str]:
        """The known words with the fewest slips from an unknown one, by name; those with the same first letter,
        if there are any. None where all are too far."""
        if len(word) < SHORTEST or not word.isalpha():
            return []
        bits, found = letters(word), []
        for length in range(len(word) - 2, len(word) + 3):
            most = allowed(max(length, len(word)))
            for known, known_bits in self.by_length.get(length, ()):
                if (bits ^ known_bits).bit_count() <= 2 * most:
                    slips = distance(word, known, most)
                    if slips <= most:
                        found.append((slips, known))
        fewest = min(found, default=(0, ""))[0]
        near = sorted(known for slips, known in found if slips == fewest)
        return [known for known in near if known[0] == word[0]] or near

    def split(self, word: str) -> list[str]:
        """The two known words that were run together, the most even pair first tried; [] if there are none."""
        places = sorted(range(2, len(word) - 1), key=lambda i: (abs(2 * i - len(word)), i))
        for i in places:
            if word[:i] in self.known and word[i:] in self.known:
                return [word[:i], word[i:]]
        return []


def nearest(names: Iterable[str], text: str) -> str:
    """The name most like a text, for "did you mean"; "" where none is near. Ties go to the first by name."""
    wanted = text.strip().lower()
    best = (allowed(max(len(wanted), 4)) + 1, "")
    for name in sorted(names):
        slips = distance(wanted, name.lower(), best[0] - 1)
        if slips < best[0]:
            best = (slips, name)
    return best[1]
