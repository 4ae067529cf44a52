"""What one file holds: plain values, and where each of them stands."""

from collections.abc import Mapping
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
