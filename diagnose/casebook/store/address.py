"""Where a casebook may be: the path of a file, or a server's address; and an address shown without what is secret."""

import os
import re
from collections.abc import Iterable, Iterator
from urllib.parse import quote, quote_plus, unquote, unquote_plus

EXPECTED = "the path of a file, or postgresql+psycopg://USER@HOST/DATABASE"
MASK = "***"
SHORT = 4  # letters of a secret
_KEYWORDS = re.compile(
    r"(?i)\s*(?:host|hostaddr|port|dbname|user|service|passfile|sslmode|options|(?:ssl)?password)\s*=[^=]*(?:\s\w+\s*=|$)"
)
_TOLD = re.compile(r"(?i)\b((?:ssl)?password)(\s*=\s*)('(?:[^'\\]|\\.)*'?|[^\s&#'\"]+)")
_PLACE = re.compile(r"(?:\[[0-9A-Fa-f:.]+\]|[\w.,-]*)(?::\d+)?(?:/[\w.+-]*)?")  # host, port, database
_SCHEME = r"(?:[A-Za-z][\w+.-]*://|postgres(?:ql)?(?:\+\w+)?(?::/?|//))"  # as it should be, or mistyped
_MISTYPED = re.compile(rf"(?i)\s*(?:{_SCHEME}|[\w.+-]{{2,}}:[^\s/\\][^\s]*@[\w.\[\]:-]+(?:/[\w.+-]*)?$)")
_BEFORE_AT = re.compile(rf"(?i)(?<![\w.+-])({_SCHEME}?(?!mailto:)(?!//)[^\s:@/'\"(]*:)(?!//|\\)[^\s]+(@)")
_QUERY = re.compile(r"(?:host|hostaddr|port|sslmode)=[\w./,%-]*")  # what is shown of it


def is_server(where: str) -> bool:
    """Whether this is meant for the address of a server, whatever is wrong with it. What is there is a file."""
    if "://" in where or is_keywords(where):
        return True
    return bool(_MISTYPED.match(where)) and not os.path.lexists(where)


def is_keywords(where: str) -> bool:
    """Whether it is written as PostgreSQL's own ``host=HOST dbname=DATABASE``."""
    return "/" not in where.partition("=")[0] and bool(_KEYWORDS.match(where))


def is_plain(where: str) -> bool:
    """Whether it is plain where a password ends: at the only @."""
    return where.partition("://")[2].count("@") <= 1


def shown(where: str) -> str:
    """The place as a person may see it. Of an address only what is surely no password is shown."""
    scheme, mark, rest = where.partition("://")
    if is_keywords(where):
        return "an address in keywords"
    if not mark:
        return masked(where)
    head, _, query = rest.partition("?")
    before, at, place = head.rpartition("@")
    user = re.match(r"[\w.+-]*", before)[0] + at if at else ""  # type: ignore[index]
    if "@" in before + query or not _PLACE.fullmatch(place):  # a password may hold any sign
        return f"{scheme}://{user}…"
    told = "&".join(part for part in query.split("&") if _QUERY.fullmatch(part))
    return f"{scheme}://{user}{place}{'?' if told else ''}{told}"


def secrets(where: str) -> tuple[str, ...]:
    """Every password in an address and in the environment, in each form in which a driver may quote it, the longest
    first."""
    found = {form for secret in _secrets(where) for form in _forms(secret)}
    return tuple(sorted(found - {""}, key=lambda secret: (-len(secret), secret)))


def _secrets(where: str) -> Iterator[str]:
    yield os.environ.get("PGPASSWORD", "")
    for text in (where, unquote(where), unquote_plus(where)):
        yield from (told[3].strip("'") for told in _TOLD.finditer(text))
    rest = where.partition("://")[2]
    for end in (rest.find("@"), rest.rfind("@")):
        yield rest[: max(end, 0)].partition(":")[2]


def _forms(secret: str) -> set[str]:
    plain = {secret, unquote(secret), unquote_plus(secret)}
    return plain | {form for one in plain for form in (quote(one, safe=""), quote_plus(one), repr(one)[1:-1])}


def masked(text: str) -> str:
    """A text, whatever it is, without what looks like a password in an address: all from the colon to the last @ of a
    word, and what is called a password."""
    if "@" in text:
        text = _BEFORE_AT.sub(rf"\1{MASK}\2", text)
    return _TOLD.sub(rf"\1\2{MASK}", text)


def without(text: str, hidden: Iterable[str]) -> str:
    """What a driver said, without these secrets and without whatever it calls a password itself."""
    for secret in hidden:  # a short one only as a word of its own: it would tear others, and tell itself by that
        whole = rf"(?<!\w){re.escape(secret)}(?!\w)" if len(secret) < SHORT else re.escape(secret)
        text = re.sub(whole, lambda _: MASK, text)
    return _TOLD.sub(rf"\1\2{MASK}", text)
