"""Checks of texts: long enough to say something, short enough to be read at a press; dates that are dates."""

from collections.abc import Iterator
from datetime import date
from typing import Final

from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.documents.document import KeyPath, Node, Plain
from diagnose.knowledge.layer import Layer

LONGEST: Final = {
    "title": 120,
    "term": 60,
    "said": 60,
    "asks": 200,
    "ask": 200,
    "looks": 700,
    "how": 300,
    "steps": 300,
    "needs": 100,
    "about": 900,
    "why": 700,
    "tell": 400,
    "instead": 300,
    "holds": 160,
    "do": 300,
    "note": 700,
    "text": 900,
    "means": 700,
    "says": 700,
    "story": 900,
}


def long_texts(layer: Layer) -> Iterator[Found]:
    """Each kind of text has a length past which nobody at a press reads on."""
    for node in layer.nodes.values():
        for path, text in _own_texts(node):
            key = _key(path)
            if len(text) > LONGEST.get(key, len(text)):
                yield Found(
                    node.document.value_place(path),
                    f"a text of {len(text)} characters",
                    f"at most {LONGEST[key]} in `{key}`",
                    "split it or say it shorter",
                )


def false_dates(layer: Layer) -> Iterator[Found]:
    """Dates are written year-month-day, and must be in the calendar."""
    for node in layer.nodes.values():
        when = node.get("date")
        if when and not _is_date(str(when.value)):
            yield Found(when.document.value_place(when.path), f'"{when.value}" is no date', "one such as 2026-11-24")


def texts_in(value: Plain, path: KeyPath = ()) -> Iterator[tuple[KeyPath, str]]:
    """Every text in some plain values, with its path."""
    if isinstance(value, str):
        yield path, value
    elif isinstance(value, dict):
        for key, entry in value.items():
            yield from texts_in(entry, (*path, key))
    elif isinstance(value, list):
        for index, entry in enumerate(value):
            yield from texts_in(entry, (*path, index))


def _own_texts(node: Node) -> Iterator[tuple[KeyPath, str]]:
    """The texts of an entry; of a rule file without its rules and cases, which have nodes of their own."""
    if node.path == () and isinstance(node.value, dict):
        for key, value in node.value.items():
            if key not in ("rules", "cases"):
                yield from texts_in(value, (key,))
    else:
        yield from texts_in(node.value, node.path)


def _key(path: KeyPath) -> str:
    return next((step for step in reversed(path) if isinstance(step, str)), "")


def _is_date(text: str) -> bool:
    try:
        return len(text) == 10 and bool(date.fromisoformat(text))
    except ValueError:
        return False
