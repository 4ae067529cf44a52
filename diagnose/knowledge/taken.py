"""The bundles of other shops that stand in a shop's folder, and what each is called wherever something of it shows.

A bundle's files stand in folders of their own, ``kb/taken-…`` and ``rules/taken-…``. Which of these are in force is
said by one file, ``taken.json``: it is replaced as a whole, so that a bundle is taken, or takes another's place, in one
moment. Folders that it does not name are passed over. In a shop that has no such file yet, all of them are in force.
"""

import json
import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from diagnose.characters import stripped, unsafe
from diagnose.files.reading import place_of, read_if_there
from diagnose.knowledge.disguise import alphabets, hidden, joined, readings, spelt_out
from diagnose.problems import PressloreError, Problem

RECORD = "taken.json"
PREFIX = "taken-"
PARTS = ("kb", "rules")
NAME_LONGEST = 60
NAMELESS = "a shop that gives no name"
MOST_BYTES = 200_000
_FOLDER = re.compile(PREFIX + r"[0-9a-z-]{1,60}")
_DIGEST = re.compile(r"[0-9a-f]{64}|")
_DATE = re.compile(r"\d{4}-\d\d-\d\d|")
_SHOP = re.compile(r"[a-z]{4}(?:-[a-z]{4}){2}|")
_FIRST_LINE = re.compile(r"# Taken from another shop's bundle of (\S{10}), SHA-256 ([0-9a-f]{64})\.\n")
PUNCTUATION = ".,&+-"
MOST_FIGURES = 4
_LIKE_APOSTROPHES = frozenset("'\u2019\u2018\u02bc\u02b9`\u00b4\u2032")
_UNMARKED = frozenset({"LATIN", "GREEK", "CYRILLIC"})
_DECKED_OUT = re.compile("lm|mm")
_TOGETHER = frozenset({"CJK", "HIRAGANA", "KATAKANA", "KATAKANA-HIRAGANA", "HANGUL", "BOPOMOFO"})  # in one name
_OURS = re.compile(
    r"(?<!\w)(?:(?:digest|presslore|bundle|handbook)\w*|shipped|ships|settled|(?:on[\W_]*)?trials?|this[\W_]*shops?"
    r"|(?:our|your)[\W_]*shop|sha[\W_]*256|verified|checked|confirmed|approved|official|genuine|trusted)(?!\w)"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenBundle:
    """``folder``: the name of its folders within kb/ and rules/. ``name`` and ``shop``: what the shop calls itself, and
    the id that it made at its first share; "" where it gives none. ``digest``: SHA-256 in hexadecimal digits. ``date``:
    of its newest rule."""

    folder: str
    name: str = ""
    shop: str = ""
    digest: str = ""
    date: str = ""

    @property
    def origin(self) -> str:
        """Where what it holds comes from: ``the bundle 4821-0937-5520-1184-7302 of “The quay”``. The digest first:
        nobody can copy that, and a name anybody can."""
        told = f" {spoken(self.digest)}" if self.digest else ""
        return f"the bundle{told} of {who(self.name)}"


@dataclass(frozen=True, slots=True)
class Record:
    """The bundles in force, and those that were before the last one was taken (None: nothing to go back to)."""

    bundles: tuple[TakenBundle, ...] = ()
    before: tuple[TakenBundle, ...] | None = None

    @property
    def folders(self) -> frozenset[str]:
        """The folders that are in force or may be again."""
        return frozenset(one.folder for one in (*self.bundles, *(self.before or ())))

    def data(self) -> bytes:
        """What the file says."""
        before = None if self.before is None else [*map(_plain, self.before)]
        plain = {"bundles": [*map(_plain, self.bundles)], "before": before}
        return (json.dumps(plain, indent=1, ensure_ascii=False) + "\n").encode()


def who(name: str) -> str:
    """A shop by the name it gives itself."""
    return f"“{name}”" if name else NAMELESS


def spoken(digest: str) -> str:
    """A digest to be read out: five groups of four decimal digits, of which none looks like another. 66 bits, so that
    nobody makes another bundle that reads the same."""
    digits = f"{int(digest, 16) % 10**20:020}"
    return "-".join(digits[at : at + 4] for at in range(0, 20, 4))


def wrong_with_name(name: str) -> str:
    """Why a shop cannot go by a name, "" where it can: it stands on screens beside words of ours, and must pass for
    none of them, nor for a digest, nor for another name."""
    if not name.strip() or len(name) > NAME_LONGEST:
        return f"a name is 1 to {NAME_LONGEST} letters long"
    if name != " ".join(name.split()) or any(unsafe(name)) or hidden(name) or not name.isprintable():
        return "a name is one line of letters that can be seen"
    if any(not _may_stand(sign) for sign in name):
        return f"a name holds letters, figures, blanks and {' '.join(PUNCTUATION)}, and nothing else"
    if name != unicodedata.normalize("NFKC", name) or _DECKED_OUT.search(_categories(name)):
        return "a name is of plain letters, without signs piled up on them"
    if sum(map(str.isdigit, name)) > MOST_FIGURES:
        return f"a name holds at most {MOST_FIGURES} figures: more could pass for a digest"
    if len(alphabets(name) - _TOGETHER) > 1 or (alphabets(name) & _TOGETHER and alphabets(name) - _TOGETHER):
        return "a name is of letters of one alphabet"
    if word := _pretending(name):
        return f"a name says nothing of where a thing comes from or how well it is tried ({word})"
    return "" if any(map(str.isalpha, name)) else "a name holds a letter"


def alike(one: str, other: str) -> bool:
    """Whether two names could be taken for each other."""
    return bool(one and other) and _bare(one) == _bare(other)


def fitting(name: str) -> str:
    """A shop's own name without what no name in a bundle may hold; "" where that is none."""
    seen = "".join(sign for sign in unicodedata.normalize("NFKC", stripped(name)) if sign not in _LIKE_APOSTROPHES)
    allowed = "".join(sign if _may_stand(sign) and not hidden(sign) else " " for sign in seen)
    short = " ".join(allowed.split())[:NAME_LONGEST].strip()
    return "" if wrong_with_name(short) else short


def _may_stand(sign: str) -> bool:
    return sign in PUNCTUATION or sign == " " or (sign.isdecimal() or sign.isalpha() or _category(sign) in ("Mn", "Mc"))


def _category(sign: str) -> str:
    return unicodedata.category(sign)


def _categories(name: str) -> str:
    """Each sign of a name as one: a mark, a letter of an alphabet that needs no marks, or another."""
    return "".join("m" if _category(sign)[0] == "M" else "l" if alphabets(sign) & _UNMARKED else "-" for sign in name)


def _bare(name: str) -> str:
    *_, spelt = spelt_out(name)
    return re.sub(r"[\W_]", "", spelt)


def _pretending(name: str) -> str:
    """The first word of a name that is one of ours; "" where there is none."""
    found = (_OURS.search(text) for text in (*readings(name), joined(name)))
    return next((one[0] for one in found if one), "")


def wrong_with_shop(shop: str) -> str:
    """Why something is no shop's id, "" where it is one."""
    return "" if shop and _SHOP.fullmatch(shop) else "an id is three groups of four small letters"


def read(folder: Path) -> Record:
    """What stands in a shop's folder. Raises PressloreError where the file that says so is damaged."""
    path = folder / RECORD
    data = read_if_there(path, most=MOST_BYTES)
    if data is None:
        return Record(tuple(_unrecorded(folder)))
    try:
        plain = json.loads(data.decode("utf-8"))
        before = plain["before"]
        return Record(_bundles(plain["bundles"]), None if before is None else _bundles(before))
    except (ValueError, LookupError, TypeError, AttributeError, RecursionError) as error:
        wrong = f"damaged ({type(error).__name__}), so that nobody knows whose the folders {PREFIX}… are"
        hint = "put it back from your copy, or take the bundles anew: delete this file and those folders first"
        raise PressloreError(
            [Problem(place=place_of(error, str(path)), code="taken-record", wrong=wrong, hint=hint)]
        ) from error


def _bundles(plain: Iterable[Any]) -> tuple[TakenBundle, ...]:
    """The bundles as the record has them. A name that would no longer be taken is shown as far as it may be."""
    read = (TakenBundle(**{key: str(value) for key, value in one.items()}) for one in plain)
    found = tuple(replace(one, name=fitting(one.name)) for one in read)
    for one in found:
        fits = _FOLDER.fullmatch(one.folder) and _DIGEST.fullmatch(one.digest) and _DATE.fullmatch(one.date)
        if not fits or not _SHOP.fullmatch(one.shop):
            raise ValueError("something that no bundle says of itself")
    return found


def _plain(bundle: TakenBundle) -> dict[str, str]:
    return {name: getattr(bundle, name) for name in ("folder", "name", "shop", "digest", "date")}


def _unrecorded(folder: Path) -> Iterable[TakenBundle]:
    """The bundles of a shop that keeps no record yet, from the first line of their files."""
    there = sorted({path.name for part in PARTS for path in (folder / part).glob(PREFIX + "*") if path.is_dir()})
    for name in filter(_FOLDER.fullmatch, there):
        files = [path for part in PARTS for path in sorted((folder / part / name).glob("*.yaml"))]
        first = _FIRST_LINE.match(_beginning(files[0])) if files else None
        yield TakenBundle(folder=name, date=first[1], digest=first[2]) if first else TakenBundle(folder=name)


def _beginning(path: Path) -> str:
    try:
        data = read_if_there(path) or b""
    except PressloreError:
        return ""
    return data[:200].decode("utf-8", "replace")
