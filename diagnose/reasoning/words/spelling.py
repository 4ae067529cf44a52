"""How a text is cut into words and clauses: lower case, without accents and apostrophes."""

import re
import unicodedata
from dataclasses import dataclass

_PIECES = re.compile(r"[a-z0-9]+|[.,;:!?()\n–—]")
_NO_MEANING = {ord("'"): None, ord("’"): None, ord("‘"): None, ord("`"): None}
BREAKS = frozenset("and but though although while whereas yet plus also however because".split())
LONGEST_TEXT = 2000


@dataclass(frozen=True, slots=True)
class Word:
    """One word as it was typed (folded), and the number of the clause it stands in, counted from 0."""

    text: str
    clause: int


def fold(text: str) -> str:
    """The text in lower case, without accents and apostrophes, cut at 2000 characters."""
    plain = text[:LONGEST_TEXT].lower().translate(_NO_MEANING)
    if plain.isascii():
        return plain
    return "".join(sign for sign in unicodedata.normalize("NFKD", plain) if not unicodedata.combining(sign))


def cut(text: str) -> list[str]:
    """The words of a text, in order, without any signs and joining words."""
    return [piece for piece in _PIECES.findall(fold(text)) if piece.isalnum() and piece not in BREAKS]


def clauses(text: str) -> list[Word]:
    """The words of a text with their clauses. A sign or a joining word such as "and" ends a clause."""
    words: list[Word] = []
    number, filled = 0, False
    for piece in _PIECES.findall(fold(text)):
        if piece in BREAKS or not piece.isalnum():
            number, filled = (number + 1, False) if filled else (number, filled)
        else:
            words.append(Word(piece, number))
            filled = True
    return words
