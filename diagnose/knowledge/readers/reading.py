"""Reads values of any class from the nodes of a file, by the class's own annotations (``diagnose.knowledge.forms``)."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, Final, TypeVar

from diagnose.knowledge.conditions import Condition, FactValue
from diagnose.knowledge.documents.document import Node
from diagnose.knowledge.forms import Part, form
from diagnose.knowledge.model import SHIPPED, Chance, Instead, ScaleWord
from diagnose.knowledge.readers.conditions import fact_value, read_condition
from diagnose.problems import Collector

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class FolderReading:
    """What reading a file takes besides its nodes: the words of the scale, whose the file is, the problems found so
    far, and ``usual``: by field, what counts in this file where an entry does not say."""

    scale: Mapping[str, ScaleWord]
    origin: str = SHIPPED
    found: Collector = field(default_factory=Collector)
    usual: Mapping[str, str] = field(default_factory=dict)

    def read(self, of: type[T], node: Node, **given: Any) -> T:
        """A value of a dataclass. What is ``given`` is not looked for; what is neither there, nor usual, nor has a
        default, is empty."""
        known = {"place": node.place, "origin": self.origin, **given}
        found: dict[str, Any] = {}
        for part in form(of):
            if part.name in known:
                found[part.name] = known[part.name]
            elif entry := node.get(*part.path):
                found[part.name] = self._value(part, entry)
            elif part.name in self.usual:
                found[part.name] = self.usual[part.name]
            elif not part.optional:
                found[part.name] = self._value(part, Node(node.document, node.path, None))
        return of(**found)

    def chance(self, node: Node) -> Chance:
        """A chance from a word of the scale or a number; one without a number is a problem and counts 0."""
        if node.value is None or isinstance(node.value, int | float):
            return Chance(node.number())
        word = str(node.value)
        if word in self.scale:
            return Chance(self.scale[word].value, word)
        if self.scale:  # a scale that is missing as a whole is reported once
            self.found.add(
                node.document.value_place(node.path),
                "unknown-word",
                f'no number for the word "{word}"',
                expected="a word that kb/scales.yaml gives a number",
            )
        return Chance(0.0, word)

    def chances(self, node: Node) -> dict[str, Chance]:
        """The chances of a mapping, by cause."""
        return {name: self.chance(entry) for name, entry in node.named()}

    def may_be(self, node: Node) -> dict[str, tuple[Instead, ...]]:
        """By fact, what it may be instead of what is usual."""
        return {fact: tuple(self._several(Instead, entry)) for fact, entry in node.named()}

    def _value(self, part: Part, node: Node) -> Any:
        if part.gathers:
            return {key: node.text(key) for key in part.gathers if node.get(key)}
        if read := _PLAIN.get(part.type):
            return read(node)
        if read_chance := _WITH_CHANCES.get(part.type):
            return read_chance(self, node)
        if part.type is float:
            return node.number() * part.unit
        if part.type is part.parts:
            return self.read(part.parts, node)
        if part.by_name:
            return {name: self.read(part.parts, entry) for name, entry in node.named()}
        return tuple(self._several(part.parts, node))

    def _several(self, of: type[T], whole: Node) -> Iterator[T]:
        """The values of a list; of a mapping, by their ids; or the only one, where it stands there by itself."""
        if not isinstance(whole.value, dict):
            yield from (self.read(of, entry) for entry in whole.each())
        elif any(part.name == "id" for part in form(of)):
            yield from (self.read(of, entry, id=name) for name, entry in whole.named())
        else:
            yield self.read(of, whole)


def _window(node: Node) -> tuple[float, float]:
    least, most = (entry.number() for entry in node.each())
    return least, most


_PLAIN: Final[Mapping[Any, Callable[[Node], Any]]] = {
    str: Node.text,
    bool: lambda node: node.value is True,
    tuple[str, ...]: Node.texts,
    tuple[float, float]: _window,
    FactValue: lambda node: fact_value(node.value),
    Condition: read_condition,
    Mapping[str, str]: lambda node: {name: entry.text() for name, entry in node.named()},
    Mapping[str, tuple[str, ...]]: lambda node: {name: entry.texts() for name, entry in node.named()},
    Mapping[str, FactValue]: lambda node: {name: fact_value(entry.value) for name, entry in node.named()},
}
_WITH_CHANCES: Final[Mapping[Any, Callable[[FolderReading, Node], Any]]] = {
    Chance: FolderReading.chance,
    Mapping[str, Chance]: FolderReading.chances,
    Mapping[str, tuple[Instead, ...]]: FolderReading.may_be,
}
