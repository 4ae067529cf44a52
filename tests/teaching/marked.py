"""Messages as people type them, in which the words that tell something are marked.

A line is a message. ``[d ID|words]`` tells a defect, ``[n ID|words]`` denies one, ``[a CHECK OUTCOME|words]`` tells
an outcome, ``[c ID|words]`` names a cause, ``[i ID|words]`` the item; ``[f words]`` is a figure, ``[o words]`` talk
of another craft. A ``+`` joins what the same words tell at once. What is not marked tells nothing.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

FOLDER = Path(__file__).parents[1] / "words" / "marked"
_MARK = re.compile(r"\[([dnaciof])\s*([^\[\]|]*?)(?:\|([^\[\]]*))?\]")
_ENDS = re.compile(r"[.,;:!?()\n]+| and | but ")
_KINDS = {"d": "{}", "a": "{}", "c": "cause {}", "n": "not {}", "i": "item {}"}


@dataclass(frozen=True, slots=True)
class Span:
    """Words of a message and what they tell, as the table's classes are called; "" for a figure."""

    words: str
    told: tuple[str, ...]


def messages() -> Iterator[list[Span]]:
    """Every message, cut into its marked words and what lies between, which tells nothing (``told`` is empty)."""
    for path in sorted(FOLDER.glob("*.txt")):
        for line in path.read_text(encoding="utf-8").splitlines():
            if line.strip() and not line.startswith("#"):
                yield list(_spans(line.strip()))


def _spans(line: str) -> Iterator[Span]:
    place = 0
    for mark in _MARK.finditer(line):
        yield from _between(line[place : mark.start()])
        kind, what, words = mark.groups()
        if kind in "fo":
            yield Span(f"{what}{'|' + words if words else ''}", ("",))
        elif words:
            yield Span(words, tuple(_told(f"{kind} {what}")))
        place = mark.end()
    yield from _between(line[place:])


def _told(mark: str) -> Iterator[str]:
    for each in mark.split("+"):
        kind, _, what = each.strip().partition(" ")
        yield _KINDS[kind].format(what.strip())


def _between(text: str) -> Iterator[Span]:
    return (Span(piece, ()) for piece in _ENDS.split(text) if len(piece.split()) > 1)
