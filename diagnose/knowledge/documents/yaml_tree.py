"""Builds plain values with positions from the parser's events, with a stack of its own, not by recursion."""

from dataclasses import dataclass
from itertools import islice

import yaml

from diagnose.characters import named, stripped, unsafe
from diagnose.knowledge.documents.document import KeyPath, Plain
from diagnose.knowledge.documents.scalars import MOST_DIGITS, resolve
from diagnose.knowledge.limits import MOST_VALUES
from diagnose.problems import Collector, Place

MOST_LEVELS = 30
_UNREADABLE = "?"
_HUGE = float("inf")  # stands for a number that was refused; no readable number becomes infinite


class Stop(Exception):
    """The rest of the file cannot be read in any useful way; the problem is in the collector."""


@dataclass(slots=True)
class _Level:
    """A mapping or list being filled; ``key`` is the key whose value comes next (None: a key comes next)."""

    holder: dict[str, Plain] | list[Plain]
    path: KeyPath
    is_key: bool = False
    key: str | None = None


class TreeBuilder:
    """Takes events one by one; afterwards ``root``, ``keys`` and ``values`` hold what was read,
    and ``spoilt`` the paths of values that were refused."""

    def __init__(self, file: str, found: Collector) -> None:
        self.root: Plain = None
        self.keys: dict[KeyPath, tuple[int, int]] = {}
        self.values: dict[KeyPath, tuple[int, int]] = {}
        self.spoilt: set[KeyPath] = set()
        self._file = file
        self._found = found
        self._levels: list[_Level] = []
        self._documents = 0

    def take(self, event: yaml.Event) -> None:
        """Take the next event. Raises Stop where reading on is useless."""
        if isinstance(event, yaml.DocumentStartEvent):
            self._start_document(event)
        elif isinstance(event, yaml.AliasEvent):
            self._refuse(event, "alias", f"an alias (*{event.anchor})", "write the value out again")
            self._put_scalar(event, None, spoilt=True)
        elif isinstance(event, yaml.ScalarEvent):
            self._refuse_extras(event)
            value = self._scalar(event)
            self._put_scalar(event, value, spoilt=value is _HUGE)
        elif isinstance(event, yaml.MappingStartEvent):
            self._open(event, {})
        elif isinstance(event, yaml.SequenceStartEvent):
            self._open(event, [])
        elif isinstance(event, yaml.CollectionEndEvent):
            self._close()

    def _start_document(self, event: yaml.Event) -> None:
        self._documents += 1
        if self._documents > 1:
            self._refuse(event, "several-documents", "a second document (---)", "put it into a file of its own")
            raise Stop

    def _scalar(self, event: yaml.ScalarEvent) -> Plain:
        text = self._text(event)
        if event.style:  # quoted or block text
            return text
        try:
            return resolve(text)
        except OverflowError:
            self._refuse(
                event,
                "huge-number",
                f"a number of more than {MOST_DIGITS} digits",
                "round it, or quote it if it is no number",
            )
            return _HUGE

    def _text(self, event: yaml.ScalarEvent) -> str:
        """The text as it reads once its escapes are decoded; what acts on a terminal is refused then, not before."""
        text = str(event.value)
        for _, sign in islice(unsafe(text), 1):
            self._refuse(
                event,
                "control-character",
                f"a character that is not shown ({named(sign)})",
                "leave it out",
            )
        return stripped(text, lines=True)

    def _open(self, event: yaml.CollectionStartEvent, holder: dict[str, Plain] | list[Plain]) -> None:
        self._refuse_extras(event)
        if len(self._levels) >= MOST_LEVELS:
            self._refuse(event, "too-deep", f"more than {MOST_LEVELS} levels of nesting", "")
            raise Stop
        is_key = self._awaits_key()
        if is_key:
            self._refuse(event, "non-text-key", "a key that is a list or a mapping", "write a plain word as key")
            path = (*self._levels[-1].path, _UNREADABLE)
        else:
            path = self._put(event, holder)
        self._levels.append(_Level(holder, path, is_key))

    def _close(self) -> None:
        closed = self._levels.pop()
        if closed.is_key:
            self._levels[-1].key = _UNREADABLE

    def _awaits_key(self) -> bool:
        return bool(self._levels) and isinstance(self._levels[-1].holder, dict) and self._levels[-1].key is None

    def _put_scalar(self, event: yaml.ScalarEvent | yaml.AliasEvent, value: Plain, spoilt: bool) -> None:
        if self._awaits_key():
            self._start_key(event, value)
            return
        path = self._put(event, value)
        if spoilt:
            self.spoilt.add(path)

    def _start_key(self, event: yaml.ScalarEvent | yaml.AliasEvent, value: Plain) -> None:
        level = self._levels[-1]
        if not isinstance(value, str) and isinstance(event, yaml.ScalarEvent):
            self._refuse(event, "non-text-key", f"the key `{event.value}` is no text", "write a plain word as key")
        key = value if isinstance(value, str) else str(getattr(event, "value", _UNREADABLE))
        path = (*level.path, key)
        if path in self.keys:
            self._refuse(
                event,
                "duplicate-key",
                f'the key "{key}" stands twice in one mapping',
                f"the first is in line {self.keys[path][0]}; keep one of them",
            )
        self.keys.setdefault(path, _position(event))
        level.key = key

    def _put(self, event: yaml.Event, value: Plain) -> KeyPath:
        """Put a value where the innermost level awaits one; the first of two equal keys wins."""
        path: KeyPath = ()
        if not self._levels:
            self.root = value
        elif isinstance(holder := self._levels[-1].holder, list):
            path = (*self._levels[-1].path, len(holder))
            holder.append(value)
        else:
            key, self._levels[-1].key = self._levels[-1].key or "", None
            path = (*self._levels[-1].path, key)
            holder.setdefault(key, value)
        self.values.setdefault(path, _position(event))
        if len(self.values) > MOST_VALUES:
            self._refuse(event, "too-many-values", f"more than {MOST_VALUES:,} values in one file", "split the file")
            raise Stop
        return path

    def _refuse_extras(self, event: yaml.NodeEvent) -> None:
        if event.anchor is not None:
            self._refuse(event, "anchor", f"an anchor (&{event.anchor})", "write the value out where it is needed")
        if (tag := getattr(event, "tag", None)) is not None:
            self._refuse(event, "tag", f"a tag ({tag})", "leave it out")

    def _refuse(self, event: yaml.Event, code: str, wrong: str, hint: str) -> None:
        if self._found.full:
            raise Stop
        self._found.add(Place(self._file, *_position(event)), code, wrong, hint=hint)


def _position(event: yaml.Event) -> tuple[int, int]:
    mark = event.start_mark
    return (mark.line + 1, mark.column + 1) if mark else (1, 1)
