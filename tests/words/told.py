"""Messages as people type them beside a press, each with what a good listener takes from it.

Four writers had seen titles and ids only, never a stored name and never the program. Half of the messages are there to
tune by; the other half is kept packed, so that nobody reads it by chance: only ``./dev bench listening`` opens it, and
of that half it prints totals alone.
"""

import gzip
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

import yaml

FOLDER = Path(__file__).parent / "messages"


@dataclass(frozen=True, slots=True, kw_only=True)
class Message:
    """``writer``: who wrote it, 1 to 4. ``outcomes``: (check, outcome, the words that carry it). ``figures``: (role,
    value, unit, words). ``tried``: (a fix or free words, what came of it). ``causes``: the likeliest first.
    ``outside``: it is no matter of a press; ``danger``: one that it tells of, "" for none."""

    text: str
    writer: int
    item: str = ""
    facts: dict[str, Any] = field(default_factory=dict)
    seen: tuple[str, ...] = ()
    not_seen: tuple[str, ...] = ()
    outcomes: tuple[tuple[str, str, str], ...] = ()
    figures: tuple[tuple[Any, ...], ...] = ()
    tried: tuple[tuple[str, ...], ...] = ()
    cause_named: tuple[str, ...] = ()
    causes: tuple[str, ...] = ()
    sensible: tuple[str, ...] = ()
    silly: tuple[str, ...] = ()
    outside: bool = False
    danger: str = ""


@cache
def to_tune_by() -> list[Message]:
    """The half that may be read."""
    return _messages((FOLDER / "tuning.yaml").read_bytes())


@cache
def locked_away() -> list[Message]:
    """The half that is only measured on."""
    return _messages(gzip.decompress((FOLDER / "locked.yaml.gz").read_bytes()))


def _messages(content: bytes) -> list[Message]:
    return [Message(**{key: _frozen(value) for key, value in each.items()}) for each in yaml.safe_load(content)]


def _frozen(value: Any) -> Any:
    return tuple(map(_frozen, value)) if isinstance(value, list) else value


@dataclass(frozen=True, slots=True)
class Denial:
    """A short text in which something is denied, asked or feared: the defects told, and those that are not seen."""

    text: str
    seen: tuple[str, ...] = ()
    not_seen: tuple[str, ...] = ()


@cache
def denials() -> list[Denial]:
    """Texts in which something is denied."""
    content = yaml.safe_load((FOLDER.parent / "denials.yaml").read_bytes())
    return [Denial(**{key: _frozen(value) for key, value in each.items()}) for each in content]
