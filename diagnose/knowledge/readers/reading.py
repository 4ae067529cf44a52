"""What every reader needs besides the node it reads: the scale, the origin, the problems found so far."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from diagnose.knowledge.documents.node import Node
from diagnose.knowledge.model import SETTLED, SHIPPED, TRIAL, Chance, ScaleWord, Spends, from_a_bundle
from diagnose.problems import Collector


@dataclass(frozen=True, slots=True)
class FolderReading:
    """Shared by the readers of one folder."""

    scale: Mapping[str, ScaleWord]
    origin: str = SHIPPED
    found: Collector = field(default_factory=Collector)

    def chance(self, node: Node) -> Chance:
        """A chance from a word of the scale or a number; one without a number is a problem and counts 0."""
        if isinstance(node.value, int | float):
            return Chance(float(node.value))
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

    def chance_at(self, node: Node, key: str) -> Chance:
        """The chance under a key; 0 where the key is absent."""
        entry = node.get(key)
        return self.chance(entry) if entry else Chance(0.0)

    def chances(self, node: Node, key: str) -> dict[str, Chance]:
        """The chances of the mapping under a key, by cause."""
        return {name: self.chance(entry) for name, entry in node.named(key)}


def read_spends(node: Node) -> Spends:
    """What a check or fix uses up; nothing where it does not say."""
    spends = node.get("spends")
    if spends is None:
        return Spends()
    return Spends(paper=spends.number("paper"), blank=spends.number("blank"), money=spends.number("money"))


def read_status(node: Node, reading: FolderReading) -> str:
    """Whether a check or fix is settled. What came in a bundle is on trial until the shop says otherwise."""
    return node.text("status") or (TRIAL if from_a_bundle(reading.origin) else SETTLED)
