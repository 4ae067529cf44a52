"""What each word speaks for: one table of weights, made ahead of time from ways of saying and read row by row.

The table is made by ``./dev teach`` (``tests/teaching/``). A weight is a log-ratio: how much more a word, or a pair of words,
says for a class than for idle talk. There are two layers, for what is seen and for all else that can be told, since the
same words can tell both. Each row holds what a feature says of every class alike and, beyond that, of some.
"""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path
from typing import Any

FILE = Path(__file__).parent / "heard.json"
BETWEEN = "~"  # the rows of the two layers
FIRST_CLASS = 0x100  # the sign of class 0
ZERO = 78  # the sign that says 0

Row = tuple[float, Mapping[int, float]]
NOTHING: Row = (0.0, {})


@dataclass(frozen=True, slots=True)
class Layer:
    """``classes``: what can be told. ``bias``: of each class, what speaks for it before a word is said. ``extra``: what
    features say of a shop's own classes."""

    classes: Sequence[str]
    bias: Sequence[float]
    rows: Mapping[str, str]
    step: float
    number: int
    extra: Mapping[str, Mapping[int, float]] = field(default_factory=dict)
    _read: dict[str, Row] = field(default_factory=dict)

    def row(self, feature: str) -> Row:
        """What a feature says of every class, and beyond that of some by their numbers."""
        found = self._read.get(feature)
        if found is None:
            common, own = self._parsed(self.rows.get(feature, ""))
            found = self._read[feature] = common, {**own, **self.extra.get(feature, {})}
        return found

    def _parsed(self, text: str) -> Row:
        part = text.split(BETWEEN)[self.number] if text else ""
        if not part:
            return NOTHING
        pairs = zip(part[1::2], part[2::2], strict=True)
        return self._weight(part[0]), {ord(sign) - FIRST_CLASS: self._weight(weight) for sign, weight in pairs}

    def _weight(self, sign: str) -> float:
        return (ord(sign) - ZERO) * self.step


@dataclass(frozen=True, slots=True)
class Table:
    """``sights``: defects and what lies outside the trade. ``answers``: outcomes of checks, and causes. ``words``: all
    that it was made from, so that they are no typing errors. ``stamp``: of the ways of saying it was made from."""

    sights: Layer
    answers: Layer
    words: Sequence[str]
    stamp: str


@lru_cache(maxsize=1)
def table() -> Table:
    """The table that ships."""
    return from_plain(json.loads(FILE.read_text(encoding="utf-8")))


def from_plain(plain: Mapping[str, Any]) -> Table:
    """The table that ``plain`` holds."""
    rows = dict(zip(plain["features"].split("\n"), plain["rows"].split("\n"), strict=True))
    sights, answers = (
        Layer(each["classes"], each["bias"], rows, plain["step"], number)
        for number, each in enumerate((plain["sights"], plain["answers"]))
    )
    return Table(sights, answers, plain["words"].split(" "), plain["stamp"])
