"""How a text is cut into words and clauses: lower case, without accents and apostrophes."""

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass

LONGEST_TEXT = 2000
BREAKS = frozenset("and but though although while whereas yet plus also however because".split())
_PIECES = re.compile(r"[a-z0-9]+|[.,;:!?()\n–—]")
_WORDS = re.compile(r"[a-z0-9]+|\n")
_NO_MEANING = {ord("'"): None, ord("’"): None, ord("‘"): None, ord("`"): None}


@dataclass(frozen=True, slots=True)
class Word:
    """One word as it was typed (folded), and the number of the clause it stands in, counted from 0."""

    text: str
    clause: int


def fold(text: str) -> str:
    """The text in lower case, without accents and apostrophes."""
    plain = text.lower().translate(_NO_MEANING)
    if plain.isascii():
        return plain
    return "".join(sign for sign in unicodedata.normalize("NFKD", plain) if not unicodedata.combining(sign))


def clauses(text: str) -> list[Word]:
    """The words of the first 2000 signs of a text, with their clauses. A sign or a joining word ends one."""
    words: list[Word] = []
    number, filled = 0, False
    for piece in _PIECES.findall(fold(text[:LONGEST_TEXT])):
        if piece in BREAKS or not piece.isalnum():
            number, filled = (number + 1, False) if filled else (number, filled)
        else:
            words.append(Word(piece, number))
            filled = True
    return words


def cut(text: str) -> list[str]:
    """The words of a text, in order, without any signs."""
    return [piece for piece in _WORDS.findall(fold(text)) if piece != "\n"]


def cut_each(texts: Iterable[str]) -> list[list[str]]:
    """The words of each of many texts, joining words such as "and" among them: one pass over all."""
    whole = [text.replace("\n", " ") for text in texts]
    lines: list[list[str]] = [[]] if whole else []
    for piece in _WORDS.findall(fold("\n".join(whole))):
        if piece == "\n":
            lines.append([])
        else:
            lines[-1].append(piece)
    return lines
