"""What one file holds: plain values, where each of them stands, and getters for what its schema has promised."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

from diagnose.problems import Place

Plain: TypeAlias = "bool | int | float | str | list[Plain] | dict[str, Plain] | None"
KeyPath: TypeAlias = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Document:
    """Plain values from one file. ``keys`` and ``values`` give the (line, column) of what a path leads to,
    both counted from 1: ``("causes", "damp-item", "title")`` or ``("rules", 0)``. List entries have no key.
    ``broken`` holds the paths of what was refused: readers pass over them."""

    file: str
    value: Plain
    keys: Mapping[KeyPath, tuple[int, int]] = field(default_factory=dict)
    values: Mapping[KeyPath, tuple[int, int]] = field(default_factory=dict)
    broken: frozenset[KeyPath] = frozenset()

    def key_place(self, path: KeyPath) -> Place:
        """Where the key at the end of a path stands; the value's place where it has no key."""
        return self._place(self.keys, path) if path in self.keys else self.value_place(path)

    def value_place(self, path: KeyPath) -> Place:
        """Where the value of a path starts; for a path that is not there, its nearest known parent."""
        while path and path not in self.values:
            path = path[:-1]
        return self._place(self.values, path)

    def _place(self, marks: Mapping[KeyPath, tuple[int, int]], path: KeyPath) -> Place:
        return Place(self.file, *marks.get(path, (1, 1)))


@dataclass(frozen=True, slots=True)
class Node:
    """The value at a path of a document. A getter speaks of what stands under some keys of it, or of the value itself;
    what is absent is empty."""

    document: Document
    path: KeyPath
    value: Plain

    @property
    def place(self) -> Place:
        """Where the value's key stands, or the value where it is an entry of a list."""
        return self.document.key_place(self.path)

    def get(self, *path: str) -> "Node | None":
        """The node under some keys, unless it is absent or broken; without keys this one."""
        node = self
        for key in path:
            below = (*node.path, key)
            if not isinstance(node.value, dict) or key not in node.value or below in self.document.broken:
                return None
            node = Node(self.document, below, node.value[key])
        return node

    def text(self, *path: str) -> str:
        """The text under some keys, without blanks round it; a number as it is written; "" where there is none."""
        node = self.get(*path)
        return "" if node is None or node.value is None else str(node.value).strip()

    def texts(self, *path: str) -> tuple[str, ...]:
        """A text or a list of texts, as a tuple."""
        node = self.get(*path)
        if node is None or node.value is None:
            return ()
        values = node.value if isinstance(node.value, list) else [node.value]
        return tuple(str(value).strip() for value in values)

    def number(self, *path: str) -> float:
        """The number under some keys; 0 where there is none."""
        node = self.get(*path)
        return float(node.value) if node and isinstance(node.value, int | float) else 0.0

    def named(self, *path: str) -> Iterator[tuple[str, "Node"]]:
        """The entries of the mapping under some keys, in the order written, without the broken ones."""
        node = self.get(*path)
        for name in node.value if node and isinstance(node.value, dict) else ():
            if node and (entry := node.get(name)):
                yield name, entry

    def each(self, *path: str) -> Iterator["Node"]:
        """The entries of the list under some keys, without the broken ones."""
        node = self.get(*path)
        for index, value in enumerate(node.value if node and isinstance(node.value, list) else ()):
            below = (*self.path, *path, index)
            if below not in self.document.broken:
                yield Node(self.document, below, value)


def root(document: Document) -> Node:
    """The whole document as a node; an empty one where all of it is broken."""
    return Node(document, (), {} if () in document.broken else document.value)


def broken_parts(document: Document) -> Iterator[Node]:
    """The parts that were refused, as they stand in the file; parts of parts only once."""
    for path in sorted(document.broken, key=str):
        if not any(path[:length] in document.broken for length in range(len(path))):
            yield Node(document, path, _value_at(document.value, path))


def _value_at(value: Plain, path: KeyPath) -> Plain:
    for step in path:
        if isinstance(value, dict) and isinstance(step, str):
            value = value.get(step)
        elif isinstance(value, list) and isinstance(step, int) and step < len(value):
            value = value[step]
        else:
            return None
    return value
