"""What a shop's ``mkdocs.yml`` may say of its handbook: a few texts, and nothing that could run.

All else that mkdocs understands is refused: tags, hooks, plugins, extensions and themes name code, and style sheets,
scripts and templates would change what the pages say.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

from diagnose.characters import stripped
from diagnose.files.reading import read_if_there
from diagnose.handbook.text import head_title
from diagnose.knowledge.documents.document import Document
from diagnose.knowledge.documents.yaml_text import read_yaml
from diagnose.problems import PressloreError, Problem

SETTINGS = "mkdocs.yml"
LONGEST = 300  # letters of a value
MOST_BYTES = 100_000
_ADDRESS = re.compile(r"https?://[A-Za-z0-9._~:/?#@!$&()*+,;=%-]+")
_HINT = "leave this line out: what may stand here is {}"


def read_own_settings(shop: Path | None) -> Mapping[str, str]:
    """The settings in a shop's folder, ready for the pages; empty where there are none.

    Raises PressloreError with every line that may not stand there.
    """
    path = shop / SETTINGS if shop else None
    content = read_if_there(path, most=MOST_BYTES) if path else None
    if content is None or not _says_anything(content):
        return {}
    document, problems = read_yaml(content, str(path))
    if document is not None:
        problems += _wrong(document)
    if problems or document is None:
        raise PressloreError(problems)
    return {key: KEYS[key](str(value)) for key, value in _entries(document)}


def _says_anything(content: bytes) -> bool:
    return any(line.strip() and not line.lstrip().startswith(b"#") for line in content.splitlines())


def _words(text: str) -> str:
    """A text as the theme shows it, between tags and in attributes alike: it escapes nothing."""
    return head_title(text).replace('"', "\u201d")


KEYS: Mapping[str, Callable[[str], str]] = {
    "site_name": _words,
    "site_description": _words,
    "site_author": _words,
    "copyright": _words,
    "site_url": str,
}


def _entries(document: Document) -> list[tuple[str, object]]:
    return [*document.value.items()] if isinstance(document.value, dict) else []


def _wrong(document: Document) -> Iterator[Problem]:
    """Everything in the file that may not be there."""
    known = ", ".join(KEYS)
    if not isinstance(document.value, dict):
        wrong, expected = "these are no settings", f"lines such as site_name: Quay, of {known}"
        yield Problem(place=document.value_place(()), code="no-settings", wrong=wrong, expected=expected)
    for key, value in _entries(document):
        if key not in KEYS:
            wrong = f"a shop may not set {stripped(key)} for its handbook"
            yield Problem(place=document.key_place((key,)), code="not-for-shops", wrong=wrong, hint=_HINT.format(known))
        elif fault := _fault(key, value):
            yield Problem(place=document.value_place((key,)), code="bad-setting", wrong=key, expected=fault)


def _fault(key: str, value: object) -> str:
    """What was expected of a value; "" where it is right."""
    if not isinstance(value, str) or not value.strip() or len(value) > LONGEST:
        return f"a text of at most {LONGEST} letters"
    if key == "site_url" and not _ADDRESS.fullmatch(value):
        return "a web address that begins with https:// or http://"
    return ""
