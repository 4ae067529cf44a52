"""What each word speaks for: one table of weights, made ahead of time from ways of saying and read row by row.

The table is made by ``./dev teach`` (``tests/teaching/``). A weight is a log-ratio: how much more a word, or a pair
of words, says for a class than for idle talk. There are two layers, for what is seen and for all else that can be
told, since the same words can tell both. Each row holds what a feature says of every class alike and, beyond that, of
some.
"""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path
from typing import Any

FILE = Path(__file__).parent / "heard.json"
BETWEEN = "~"  # the rows of the two layers
DIGITS = "=>?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[]^_`abcdefghijklmnopqrstuvwxyz{|}"  # of how far the next class is
WEIGHTS = "#$%&'()*+,-./0123456789:;<"  # one step, two steps ...

Row = tuple[float, Mapping[int, float]]
NOTHING: Row = (0.0, {})


@dataclass(frozen=True, slots=True)
class WordLayer:
    """``classes``: what can be told. ``bias``: of each class, what speaks for it before a word is said. ``extra``: what
    features say of a shop's own classes."""

    classes: Sequence[str]
    bias: Sequence[float]
    rows: Mapping[str, str]
    step: float
    number: int
    extra: Mapping[str, Mapping[int, float]] = field(default_factory=dict)
    _read: dict[str, Row] = field(default_factory=dict, compare=False)

    def row(self, feature: str) -> Row:
        """What a feature says of every class, and beyond that of some by their numbers."""
        found = self._read.get(feature)
        if found is None:
            common, own = self._parsed(self.rows.get(feature, ""))
            found = self._read[feature] = common, {**own, **self.extra.get(feature, {})}
        return found

    def _parsed(self, text: str) -> Row:
        """A row as it is written: a digit for the steps below 0 that it says of every class; then, for each of some
        classes, how far it is from the one before, and the sign of its weight."""
        part = text.split(BETWEEN)[self.number] if text else ""
        if not part:
            return NOTHING
        told, gap, own = -1, 0, dict[int, float]()
        for sign in part[1:]:
            if sign in WEIGHTS:
                told, gap = told + gap, 0
                own[told] = (WEIGHTS.index(sign) + 1) * self.step
            else:
                gap = gap * len(DIGITS) + DIGITS.index(sign)
        return -DIGITS.index(part[0]) * self.step, own


@dataclass(frozen=True, slots=True)
class WordTable:
    """``sights``: defects and what lies outside the trade. ``answers``: outcomes of checks, and causes. ``words``: all
    that it was made from, so that they are no typing errors. ``stamp``: of the ways of saying it was made from."""

    sights: WordLayer
    answers: WordLayer
    words: Sequence[str]
    stamp: str


@lru_cache(maxsize=1)
def table() -> WordTable:
    """The table that ships."""
    return from_plain(json.loads(FILE.read_text(encoding="utf-8")))


def from_plain(plain: Mapping[str, Any]) -> WordTable:
    """The table that ``plain`` holds."""
    rows = dict(zip(plain["features"].split("\n"), plain["rows"].split("\n"), strict=True))
    sights, answers = (
        WordLayer(each["classes"], each["bias"], rows, plain["step"], number)
        for number, each in enumerate((plain["sights"], plain["answers"]))
    )
    return WordTable(sights, answers, plain["words"].split(" "), plain["stamp"])
