"""A value inside a document, with typed getters for what the schema has already promised."""

from collections.abc import Iterator
from dataclasses import dataclass

from diagnose.knowledge.documents.document import Document, KeyPath, Plain
from diagnose.problems import Place


@dataclass(frozen=True, slots=True)
class Node:
    """The value at a path of a document. A getter gives its default where the key is absent."""

    document: Document
    path: KeyPath
    value: Plain

    @property
    def place(self) -> Place:
        """Where the value's key stands, or the value where it is an entry of a list."""
        return self.document.key_place(self.path)

    def get(self, key: str) -> "Node | None":
        """The node under a key, unless it is absent or broken."""
        if not isinstance(self.value, dict) or key not in self.value:
            return None
        path = (*self.path, key)
        return None if path in self.document.broken else Node(self.document, path, self.value[key])

    def text(self, key: str, default: str = "") -> str:
        """The text under a key, without blanks round it; a number as it is written."""
        node = self.get(key)
        return default if node is None else str(node.value).strip()

    def texts(self, key: str) -> tuple[str, ...]:
        """A text or a list of texts, as a tuple."""
        node = self.get(key)
        if node is None:
            return ()
        values = node.value if isinstance(node.value, list) else [node.value]
        return tuple(str(value).strip() for value in values)

    def number(self, key: str, default: float = 0.0) -> float:
        """The number under a key."""
        node = self.get(key)
        return float(node.value) if node and isinstance(node.value, int | float) else default

    def numbers(self, key: str) -> tuple[float, ...]:
        """The numbers of the list under a key."""
        return tuple(float(node.value) for node in self.each(key) if isinstance(node.value, int | float))

    def named(self, key: str) -> Iterator[tuple[str, "Node"]]:
        """The entries of the mapping under a key, in the order written, without the broken ones."""
        node = self.get(key)
        for name in node.value if node and isinstance(node.value, dict) else ():
            if node and (entry := node.get(name)):
                yield name, entry

    def each(self, key: str) -> Iterator["Node"]:
        """The entries of the list under a key, without the broken ones."""
        node = self.get(key)
        for index, value in enumerate(node.value if node and isinstance(node.value, list) else ()):
            path = (*self.path, key, index)
            if path not in self.document.broken:
                yield Node(self.document, path, value)


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
