"""Ids named inside entries that could not be read, so that one fault does not hide another beside it."""

import re
from collections.abc import Iterator

from diagnose.knowledge.documents.document import KeyPath, Plain
from diagnose.knowledge.layer import Layer
from diagnose.problems import Place

_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_NAMES = {
    "cause": "causes",
    "first": "causes",
    "never": "causes",
    "saw": "defects",
    "not-seen": "defects",
    "tried": "fixes",
    "item": "items",
    "cautions": "cautions",
    "see": "glossary",
    "material": "materials",
    "rest": "materials",
    "settles": "checks",
}
_MAPS = {"cures": "causes", "not-so": "causes", "shows": "causes", "speaks": "causes", "answers": "checks"}


def ids_in_broken(layer: Layer, kind: str) -> Iterator[tuple[str, Place]]:
    """Each id of a kind that a broken entry names, and where."""
    for node in layer.broken:
        for path, name, found in _ids(node.path, node.value):
            if found == kind:
                at = node.document.key_place if path[-1] == name else node.document.value_place
                yield name, at(path)


def _ids(path: KeyPath, value: Plain) -> Iterator[tuple[KeyPath, str, str]]:
    """The path, the id and its kind, of everything below."""
    if isinstance(value, list):
        for index, each in enumerate(value):
            yield from _ids((*path, index), each)
    elif isinstance(value, dict):
        for key, each in value.items():
            below = (*path, key)
            if key in _NAMES:
                yield from ((at, name, _NAMES[key]) for at, name in _texts(below, each))
            elif key in _MAPS and isinstance(each, dict):
                yield from (((*below, name), name, _MAPS[key]) for name in each if _ID.fullmatch(name))
            else:
                yield from _ids(below, each)


def _texts(path: KeyPath, value: Plain) -> Iterator[tuple[KeyPath, str]]:
    if isinstance(value, str) and _ID.fullmatch(value):
        yield path, value
    elif isinstance(value, list):
        for index, each in enumerate(value):
            yield from _texts((*path, index), each)
