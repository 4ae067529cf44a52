"""Digests by which a row is told from one that something has changed: a failing disk, a stray byte, a hand.

They stand in casebooks that are kept for years, so that none of this may ever come out otherwise.
"""

import json
from collections.abc import Mapping
from hashlib import sha256
from typing import Any

WORDS = ("id", "ended", "pattern", "knowledge", "source", "moves")
NUMBERS = ("minutes", "spoilt", "lost")


def pattern_digest(press: str, moves: str) -> str:
    """The digest of what several cases show."""
    return _digest(f"{press}\n{moves}")


def seal(row: Mapping[Any, Any], took: Mapping[str, float]) -> str:
    """The digest of a case's row, and of the minutes that its steps took. What the case shares with others stands
    under the pattern's own digest."""
    words = [row[name] for name in WORDS]
    numbers = [_number(row[name]) for name in NUMBERS]
    timed = sorted(((step, _number(minutes)) for step, minutes in took.items()), key=lambda pair: str(pair[0]))
    return _digest(json.dumps([*words, *numbers, timed], default=repr))


def _number(value: Any) -> Any:
    """4 is 4.0 once a database has kept it, and -0.0 is 0.0."""
    return float(value) + 0.0 if isinstance(value, int | float) else value


def _digest(text: str) -> str:
    return sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:32]
