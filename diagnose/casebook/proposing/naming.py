"""Ids made from titles."""

import re
import unicodedata
from collections.abc import Container

from diagnose.knowledge.documents.schema_check import kept_words

LONGEST = 60
_OTHER = re.compile(r"[^a-z0-9]+")
_IDLE = frozenset("the a an of to in on at is are it its and or".split())


def new_id(title: str, taken: Container[str], fallback: str) -> str:
    """An id that says what the title says, in small letters, that nothing else has: ``door-stands-open``."""
    plain = unicodedata.normalize("NFKD", title.casefold().replace("'", "").replace("’", ""))
    words = _OTHER.sub(" ", "".join(letter for letter in plain if not unicodedata.combining(letter))).split()
    telling = [word for word in words if word not in _IDLE] or words
    return unique(_joined(telling) or fallback, taken)


def unique(wanted: str, taken: Container[str]) -> str:
    """The id itself, or with the first free number behind it where it is taken, or no id may be called so."""
    if wanted not in taken and not kept_words().fullmatch(wanted):
        return wanted
    number = 2
    while f"{wanted}-{number}" in taken:
        number += 1
    return f"{wanted}-{number}"


def _joined(words: list[str]) -> str:
    joined = ""
    for word in words:
        longer = f"{joined}-{word}" if joined else word[: LONGEST - 6]
        if len(longer) > LONGEST - 6:  # room for a number
            break
        joined = longer
    return joined
