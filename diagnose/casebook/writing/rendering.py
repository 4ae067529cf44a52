"""Plain values -> YAML text in the manner of the shipped files: short lists on one line, long texts folded."""

import json
import re
from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from diagnose.knowledge.documents.scalars import MOST_DIGITS, hint_for_text, resolve
from diagnose.problems import PressloreError

WIDTH = 108  # of a line
MOST_ON_ONE_LINE = 4  # entries of a mapping
LONGEST_IN_A_LIST = 40  # letters; a sentence has a line of its own
_DIGITS = 12  # significant, of a number
_UNSAFE = re.compile(r"[^ -~\xa1-\u2027\u202f-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")
_PLAIN = re.compile(r"[^\W_](?:.*[^\s:])?")
_NOT_IN_FLOW = re.compile(r"[,:?\[\]{}]")
_SPACES = re.compile(r"^\s|\s$|  ")


def after_key(value: Any, indent: int, *, flow: bool = False, key: str = "") -> str:
    """What follows the colon of a key that stands ``indent`` columns in. With ``flow`` it stands within brackets."""
    room = WIDTH - indent - len(key) - 2
    if flow or not isinstance(value, Mapping | list | tuple) or _short(value, room):
        return " " + (
            in_flow(value) if flow or isinstance(value, Mapping | list | tuple) else _scalar(value, indent, room)
        )
    if isinstance(value, Mapping):
        return "\n" + block(value, indent + 2)
    return "\n" + "\n".join(item(each, indent + 2) for each in value)


def block(entries: Mapping[str, Any], indent: int) -> str:
    """The lines of a mapping, ``indent`` columns in, without a break at the end."""
    return "\n".join(entry(key, value, indent) for key, value in entries.items())


def entry(key: str, value: Any, indent: int) -> str:
    """The lines of one key and its value."""
    name = text(key, flow=True)
    return f"{' ' * indent}{name}:{after_key(value, indent, key=name)}"


def item(value: Any, indent: int) -> str:
    """The lines of one entry of a list, ``indent`` columns in."""
    return " " * indent + "-" + after_dash(value, indent)


def after_dash(value: Any, indent: int) -> str:
    """What follows the dash of a list entry that stands ``indent`` columns in."""
    if isinstance(value, Mapping) and value:
        return " " + block(value, indent + 2).lstrip(" ")
    return " " + (
        in_flow(value) if isinstance(value, Mapping | list | tuple) else _scalar(value, indent, WIDTH - indent - 2)
    )


def in_flow(value: Any) -> str:
    """A value on one line, as it may stand within brackets."""
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{text(key, flow=True)}: {in_flow(each)}" for key, each in value.items()) + "}"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(map(in_flow, value)) + "]"
    return text(value, flow=True) if isinstance(value, str) else _number(value)


def text(value: str, *, flow: bool = False) -> str:
    """A text on one line: as it is where nobody can take it for anything else, else in quotes."""
    plain = _PLAIN.fullmatch(value) and not _UNSAFE.search(value) and ": " not in value and " #" not in value
    if plain and not (flow and _NOT_IN_FLOW.search(value)) and _is_text(value):
        return value
    if any("\ud800" <= letter <= "\udfff" for letter in value):
        raise PressloreError(f"half a letter in {value[:40]!r}: expected text that can be written as UTF-8")
    return _UNSAFE.sub(_escape, json.dumps(value, ensure_ascii=False))


def _is_text(value: str) -> bool:
    """Whether no reader of YAML, here or elsewhere, takes it for a number or a truth value."""
    try:
        return isinstance(resolve(value), str) and not hint_for_text(value)
    except OverflowError:
        return False


def _escape(letter: re.Match[str]) -> str:
    number = ord(letter[0])
    return f"\\u{number:04x}" if number < 0x10000 else f"\\U{number:08x}"


def _scalar(value: Any, indent: int, room: int) -> str:
    if not isinstance(value, str):
        return _number(value)
    written = text(value)
    if len(written) <= room or _UNSAFE.search(value) or _SPACES.search(value):
        return written
    return ">-\n" + "\n".join(" " * (indent + 2) + line for line in _folded(value, WIDTH - indent - 2))


def _folded(value: str, room: int) -> list[str]:
    lines = [""]
    for word in value.split(" "):
        if lines[-1] and len(lines[-1]) + 1 + len(word) > room:
            lines.append(word)
        else:
            lines[-1] = f"{lines[-1]} {word}" if lines[-1] else word
    return lines


def _number(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | float):
        written = f"{Decimal(f'{value:.{_DIGITS}g}'):f}"
        if sum(map(str.isdigit, written)) <= MOST_DIGITS:
            return written
    raise PressloreError(f"{value!r} cannot be written: expected text, true, false or a number of at most 15 digits")


def _short(value: Mapping[str, Any] | Sequence[Any], room: int) -> bool:
    """Whether a list or mapping of plain values goes on one line."""
    each = list(value.values()) if isinstance(value, Mapping) else list(value)
    if isinstance(value, Mapping) and len(value) > MOST_ON_ONE_LINE:
        return False
    if any(isinstance(one, Mapping | list | tuple) or len(str(one)) > LONGEST_IN_A_LIST for one in each):
        return False
    return len(in_flow(value)) <= room
