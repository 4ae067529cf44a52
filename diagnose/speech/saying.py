"""The sentences of ``sentences.json``, filled in.

They are written in a small part of MessageFormat, an open standard of the Unicode Consortium: ``{title}``,
``{count, number}``, ``{count, number, ::.00}`` with so many decimals (none after a bare point),
``{count, plural, =0 {no sheet} one {# sheet} other {# sheets}}`` and ``{side, select, for {…} other {…}}``. Numbers are
written without groups. Nothing is quoted: no sentence holds a brace of its own. ``handbook/page/engine/say.js`` does
the same.
"""

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TypeAlias

Message: TypeAlias = "list[str | Slot]"
WHOLE = 1e15  # beyond it not every whole number can be held
_PLAIN = re.compile(r"[^{}#]+")
_HEAD = re.compile(r"\{(\w+)(?:, (\w+)(?:, )?)?")
_FORM = re.compile(r" ?(=?[\w-]+) \{")


@dataclass(frozen=True, slots=True)
class Slot:
    """A place in a sentence. ``kind``: "" for a text, ``number`` with its ``style``, ``plural`` or ``select`` with
    their ``forms``."""

    name: str
    kind: str
    style: str
    forms: Mapping[str, Message]


def say(sentence: str, **places: object) -> str:
    """The sentence of this name with its places filled in."""
    return _written(_parsed(sentence), places)


def listed(parts: Iterable[str], last: str = "and") -> str:
    """``a, b and c``; with ``or`` before the last: ``a, b or c``."""
    *others, end = parts
    if not others:
        return end
    start, *middle = others
    for part in middle:
        start = say("list-goes-on", first=start, then=part)
    return say("list-ends", first=start, then=end, last=last)


@cache
def sentences() -> Mapping[str, str]:
    """Every sentence by its name, as it is written."""
    found: Mapping[str, str] = json.loads(Path(__file__).with_name("sentences.json").read_text(encoding="utf-8"))
    return found


@cache
def _parsed(sentence: str) -> Message:
    return parsed(sentences()[sentence])


def parsed(text: str) -> Message:
    """A sentence as texts and places."""
    return _message(text, 0, "")[0]


def _message(text: str, at: int, counted: str) -> tuple[Message, int]:
    """What stands up to the closing brace or the end, and where that is. ``counted``: what # stands for."""
    parts: Message = []
    while at < len(text) and text[at] != "}":
        if text[at] == "{":
            slot, at = _slot(text, at, counted)
            parts.append(slot)
        elif text[at] == "#" and counted:
            parts.append(Slot(counted, "number", "", {}))
            at += 1
        else:
            plain = _PLAIN.match(text, at)
            parts.append(plain[0] if plain else "#")
            at = plain.end() if plain else at + 1
    return parts, at


def _slot(text: str, at: int, counted: str) -> tuple[Slot, int]:
    head = _HEAD.match(text, at)
    assert head is not None, text
    name, kind, at = head[1], head[2] or "", head.end()
    forms: dict[str, Message] = {}
    while form := _FORM.match(text, at):
        forms[form[1]], at = _message(text, form.end(), name if kind == "plural" else counted)
        at += 1
    end = text.index("}", at)
    return Slot(name, kind, text[at:end], forms), end + 1


def _written(message: Message, places: Mapping[str, object]) -> str:
    return "".join(part if isinstance(part, str) else _filled(part, places) for part in message)


def _filled(slot: Slot, places: Mapping[str, object]) -> str:
    value = places[slot.name]
    if slot.kind in ("", "select"):
        return _written(slot.forms.get(f"{value}", slot.forms["other"]), places) if slot.kind else f"{value}"
    assert isinstance(value, int | float), slot.name
    if slot.kind == "plural":
        return _written(slot.forms[_plural(value, slot.forms)], places)
    return f"{value:.{len(slot.style) - 3}f}" if slot.style else _number(value)


def _number(value: float) -> str:
    """A whole number in full, any other in at most six digits."""
    return f"{value:.0f}" if float(value).is_integer() and abs(value) < WHOLE else f"{value:g}"


def _plural(value: float, forms: Mapping[str, Message]) -> str:
    exact = f"={_number(value)}"
    return exact if exact in forms else "one" if value == 1 and "one" in forms else "other"
