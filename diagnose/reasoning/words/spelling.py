"""How a text is taken and cut into words and clauses: lower case, without accents and apostrophes."""

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass

LONGEST_TEXT = 2000  # signs that are read of a text; nobody says more of a print
BREAKS = frozenset("and but though although while whereas yet plus also however because".split())
_PIECES = re.compile(r"[a-z0-9]+|[.,;:!?()\n–—]")
_WORDS = re.compile(r"[a-z0-9]+|\n")
_BLANKS = re.compile(r"[\s\ufeff]+")
_NO_MEANING = {ord("'"): None, ord("’"): None, ord("‘"): None, ord("`"): None}


@dataclass(frozen=True, slots=True)
class Word:
    """One word as it was typed (folded), and the number of the clause it stands in, counted from 0."""

    text: str
    clause: int


def taken(text: str) -> str:
    """A text as it is read, once and before anything else looks at it: white space collapsed (to a line break where
    there is one in it), accents off, and no more than the first 2000 signs. So no expression meets a long run."""
    plain = _collapsed(text)[:LONGEST_TEXT]
    return plain if plain.isascii() else _collapsed(_without_accents(plain))[:LONGEST_TEXT].rstrip()


def is_cut(text: str) -> bool:
    """Whether a text is too long for all of it to be read."""
    return len(text) > LONGEST_TEXT and len(_collapsed(text)) > LONGEST_TEXT


def _collapsed(text: str) -> str:
    return _BLANKS.sub(lambda run: "\n" if "\n" in run[0] else " ", text).strip()


def fold(text: str) -> str:
    """The text in lower case, without accents and apostrophes."""
    plain = text.lower().translate(_NO_MEANING)
    return plain if plain.isascii() else _without_accents(plain)


def _without_accents(text: str) -> str:
    return "".join(sign for sign in unicodedata.normalize("NFKD", text) if not unicodedata.combining(sign))


def clauses(text: str) -> list[Word]:
    """The words of a text, with their clauses. A sign or a joining word ends one."""
    words: list[Word] = []
    number, filled = 0, False
    for piece in _PIECES.findall(fold(text)):
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
    lines: list[list[str]] = [[]]
    for piece in _WORDS.findall(fold("\n".join(text.replace("\n", " ") for text in texts))):
        if piece == "\n":
            lines.append([])
        else:
            lines[-1].append(piece)
    return lines
