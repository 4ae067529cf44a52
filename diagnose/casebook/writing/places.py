"""Where in a YAML text each value begins and ends, to the letter, so that it can be changed and nothing else."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import yaml

Path = tuple[str | int, ...]
_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True, slots=True)
class Spot:
    """A value of a text. ``start``..``end`` hold the value alone, without what follows it; ``begin`` is where its
    key or dash starts and ``after`` the place behind the colon or dash. ``flow``: it stands within brackets."""

    node: yaml.Node
    begin: int
    after: int
    start: int
    end: int
    indent: int
    flow: bool

    @property
    def in_brackets(self) -> bool:
        """Whether the value is itself a list or mapping in brackets, so that what is added goes inside them."""
        return self.flow or bool(getattr(self.node, "flow_style", False))

    @property
    def is_mapping(self) -> bool:
        return isinstance(self.node, yaml.MappingNode) and bool(self.node.value)

    @property
    def is_list(self) -> bool:
        return isinstance(self.node, yaml.SequenceNode) and bool(self.node.value)


@lru_cache(maxsize=1)  # many values are looked for in one text
def root(text: str) -> Spot | None:
    """The whole document; None where the text holds nothing but comments."""
    node = yaml.compose(text, Loader=_LOADER)
    if node is None:
        return None
    start = node.start_mark.index
    return Spot(node, start, start, start, _end(text, node), 0, False)


def inside(text: str, spot: Spot) -> Iterator[tuple[str | int, Spot]]:
    """The keys or positions of a mapping or list, each with its value's spot, in the order written."""
    before = spot.start
    for number, entry in enumerate(spot.node.value if spot.is_mapping or spot.is_list else ()):
        key, value = entry if isinstance(entry, tuple) else (None, entry)
        start, end = value.start_mark.index, _end(text, value)
        if key is not None:
            begin, after = key.start_mark.index, _behind(text, key.end_mark.index, ":")
            indent = key.start_mark.column
        elif spot.in_brackets:
            begin = after = start
            indent = value.start_mark.column
        else:
            after = _behind(text, before, "-")
            begin, indent = after - 1, spot.node.start_mark.column
        yield (
            (key.value if key is not None else number),
            Spot(value, begin, after, max(start, after), max(end, after), indent, spot.in_brackets),
        )
        before = max(end, after)


def find(text: str, path: Path) -> Spot | None:
    """The spot of the value at a path; None where there is none."""
    spot = root(text)
    for step in path:
        spot = dict(inside(text, spot)).get(step) if spot else None
    return spot


def line_start(text: str, at: int) -> int:
    return text.rfind("\n", 0, at) + 1


def line_end(text: str, at: int) -> int:
    """Where the line ends, before its break."""
    found = text.find("\n", at)
    end = len(text) if found < 0 else found
    return end - 1 if end and text[end - 1] == "\r" and end > at else end


def _end(text: str, node: yaml.Node) -> int:
    """Where a value ends: for one spread over lines its last value's end, not the next one's beginning."""
    start, end = node.start_mark.index, node.end_mark.index
    if isinstance(node, yaml.CollectionNode) and not node.flow_style and node.value:
        last = node.value[-1]
        tail = _end(text, last[1] if isinstance(last, tuple) else last)
        return max(tail, start)
    if isinstance(node, yaml.CollectionNode) and not node.flow_style:
        return int(start)
    return int(start + len(text[start:end].rstrip(" \r\n"))) if end > start else int(start)


def _behind(text: str, at: int, sign: str) -> int:
    """The place behind the next sign, comments and breaks passed over."""
    while text[at] != sign:
        at = line_end(text, at) if text[at] == "#" else at + 1
    return at + 1
