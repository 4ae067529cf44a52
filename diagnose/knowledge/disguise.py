"""What a text looks like, whatever it is written with: for looking for words, and for telling whether names are alike.

A word can be disguised: by signs that show nothing, by accents, by letters of other alphabets or of phonetic script
that look like ours, by digits, by hyphens or blanks in its midst. ``skeleton`` undoes the first four, ``readings`` all.
"""

# ruff: noqa: RUF001 - a table of letters that look alike holds such letters

import re
import unicodedata
from collections.abc import Iterator
from functools import partial
from itertools import pairwise

from diagnose.characters import stripped

# Default_Ignorable_Code_Point of Unicode 15.1 (DerivedCoreProperties.txt) and the blank of Braille.
_IGNORED = (
    "\u034f\u115f\u1160\u17b4\u17b5\u180b-\u180f\u2065\u3164\ufe00-\ufe0f\uffa0\U0001bca0-\U0001bca3"
    "\U0001d173-\U0001d17a\U000e0000-\U000e0fff\u2800"
)
_SHOWS_NOTHING = re.compile(f"[{_IGNORED}]")
# Letters, by the Latin letter that each looks like.
_LOOKS = {
    "a": "аɑαɐᴀᗅꭺꓮ∂@",
    "b": "ьвβʙɓᏴꓐ",
    "c": "сϲᴄⅽꓚ¢",
    "d": "ԁᴅɖɗⅾꓓđð",
    "e": "еєεɛəᴇɘꓰ€℮",
    "f": "ƒꜰꓝғ",
    "g": "ɡɢցɠꓖ",
    "h": "һнʜɦℎհꓧħ",
    "i": "іιɩɪıǀꓲ!¡",
    "j": "јϳᴊʝꓙ",
    "k": "кκᴋƙꓗ",
    "l": "ӏʟɭłƚⅼꓡ|ℓ",
    "m": "мᴍɱⅿꓟ",
    "n": "пηɴɲŋռꓠ",
    "o": "оοσᴏөɵøօꓳ",
    "p": "рρᴘþꓑ",
    "q": "ԛɋգꓩ",
    "r": "гʀɾɼɽꓣ",
    "s": "ѕꜱʂꓢ$",
    "t": "тτᴛƭʈꓔŧ",
    "u": "υᴜʋսꓴ",
    "v": "ѵνᴠⅴꓦ",
    "w": "ѡωᴡɯաꓪ",
    "x": "хχⅹꓫ×",
    "y": "уγʏყƴꓬ",
    "z": "ᴢʐʑƶꓜ",
    "ae": "æӕ",
    "oe": "œ",
}
_LETTERS = {ord(sign): latin for latin, signs in _LOOKS.items() for sign in signs if sign.isalpha()}
_SIGNS = {ord(sign): latin for latin, signs in _LOOKS.items() for sign in signs if not sign.isalpha()}
_FIGURES = tuple({ord("0"): "o", ord("1"): one, ord("3"): "e", ord("4"): "a", ord("5"): "s"} for one in "li")
_RUNS = re.compile(r"[\w@$!|€¢]+")
_LETTER = re.compile(r"[^\W\d_]")
_WITHIN = re.compile(r"(?<=[^\W\d_])[^\w\s](?=[^\W\d_])")
_SINGLES = re.compile(r"(?<!\w)[^\W\d_](?:[\W_]{1,3}[^\W\d_](?!\w)){2,}")
_WORDS = re.compile(r"[^\W_]+")
ALPHABETS = ("LATIN", "GREEK", "CYRILLIC", "ARMENIAN", "CHEROKEE", "LISU", "COPTIC", "GEORGIAN")
_OF_THE_TRADE = re.compile("[ΔδΩμµ](?=[A-Za-z])|(?<=[A-Za-z])[Ωμµ]")  # ΔE, µm
LEAST_JOINED = 6  # letters: shorter words come about where two others meet


def seen(text: str) -> str:
    """A text without the signs that show nothing; line feeds stay."""
    return text if text.isascii() else _SHOWS_NOTHING.sub("", stripped(text, lines=True))


def hidden(text: str) -> str:
    """The first sign of a text that shows nothing though it counts as a letter or a mark; "" where there is none."""
    found = None if text.isascii() else _SHOWS_NOTHING.search(text)
    return found[0] if found else ""


def plain(text: str) -> str:
    """A text as it is written, without what shows nothing, in one form for letters that are written in several."""
    return unicodedata.normalize("NFKC", seen(text)).casefold()


def skeleton(text: str) -> str:
    """A text in small Latin letters without accents, as far as its letters look like such."""
    if text.isascii():
        return text.casefold()
    return _folded(text).translate(_LETTERS)


def readings(text: str) -> Iterator[str]:
    """A text in all the ways in which words may be hidden in it, the plain one first."""
    yield plain(text)
    bare = skeleton(text)
    yield bare
    yield from spelt_out(text)
    yield _SINGLES.sub(lambda run: re.sub(r"[\W_]", "", run[0]), bare)
    yield _WITHIN.sub("", bare)


def spelt_out(text: str) -> Iterator[str]:
    """The skeleton of a text with its figures within words as the letters that they may stand for."""
    for figures in _FIGURES:
        yield _RUNS.sub(partial(_letters_for, figures), skeleton(text))


def joined(text: str) -> str:
    """Every two and three neighbouring words of a text as one word: what a blank in its midst makes of a long word."""
    words = _WORDS.findall(skeleton(text))
    pairs = (a + b for a, b in pairwise(words))
    threes = (a + b + c for a, b, c in zip(words, words[1:], words[2:], strict=False))
    return " ".join((*pairs, *threes))


def pretended(text: str) -> str:
    """The first word of a text that passes for another: of letters from several alphabets, or, beside Latin letters, of
    another alphabet's letters that all look Latin. "" where there is none."""
    if text.isascii():
        return ""
    words = [
        (word, _alphabets(word)) for word in _WORDS.findall(_OF_THE_TRADE.sub("", unicodedata.normalize("NFC", text)))
    ]
    latin = any("LATIN" in written for _, written in words)
    for word, written in words:
        if len(written) > 1 or (latin and written and "LATIN" not in written and _looks_latin(word)):
            return str(word)
    return ""


def alphabets(text: str) -> frozenset[str]:
    """The alphabets that the letters of a text are of, by their names in Unicode."""
    return frozenset(
        unicodedata.name(sign, "?").split()[0] for sign in unicodedata.normalize("NFKC", text) if sign.isalpha()
    )


def _alphabets(word: str) -> frozenset[str]:
    return alphabets(word) & frozenset(ALPHABETS)


def _looks_latin(word: str) -> bool:
    bare = skeleton(word)
    return len(bare) > 1 and bare.isascii() and bare.isalpha()


def _letters_for(figures: dict[int, str], word: re.Match[str]) -> str:
    run: str = word[0]
    if _LETTER.search(run) is None:
        return run
    return run.translate(figures).translate(_SIGNS)


def _folded(text: str) -> str:
    taken_apart = unicodedata.normalize("NFKD", seen(text.replace("º", "°")))
    bare = "".join(sign for sign in taken_apart if not unicodedata.category(sign).startswith("M"))
    return unicodedata.normalize("NFKD", bare.casefold())
