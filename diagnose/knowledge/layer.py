"""What one folder says, before folders are laid over one another."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from diagnose.knowledge.documents.document import Node
from diagnose.knowledge.model import KINDS, Chance, Entries, LookAlike, Rule, ScaleWord, WorkedCase
from diagnose.knowledge.numbers import Learned
from diagnose.knowledge.shop import Press, Shop
from diagnose.knowledge.ways import Block
from diagnose.problems import Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Addition:
    """What a shop adds to a defect that is already known."""

    defect: str
    said: tuple[str, ...]
    look_alikes: tuple[LookAlike, ...]
    rules: tuple[Rule, ...]
    cases: tuple[WorkedCase, ...]
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Extension:
    """Chances for further causes that a shop adds to a known fix, or to an ``outcome`` of a known check."""

    kind: str
    id: str
    outcome: str = ""
    chances: Mapping[str, Chance]
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Retired:
    """An id that a shop takes out of use; for a rule its cause's id, and the defect it leads to."""

    kind: str
    id: str
    defect: str = ""
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """The words for chances, the note on them, and where each stands."""

    words: Mapping[str, ScaleWord] = field(default_factory=dict)
    note: str = ""
    places: Mapping[str, Place] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer(Entries):
    """Entries by id, kind by kind, filled by way of ``of``. ``nodes`` leads from an entry's, rule's or case's place to
    the file's own values; ``unread`` holds the ids of entries that stand in a file but could not be read, ``broken``
    those entries themselves. ``ways``: the ways of saying, in the order of the files. ``shops`` and ``presses``: what
    shops say of themselves (the last one counts), and each press as it was written with its place. ``unlearned``: the
    numbers that learnt ones have taken the place of."""

    scale: Scale = field(default_factory=Scale)
    ways: list[Block] = field(default_factory=list)
    shops: list[Shop] = field(default_factory=list)
    presses: list[tuple[Press, Place]] = field(default_factory=list)
    additions: list[Addition] = field(default_factory=list)
    extensions: list[Extension] = field(default_factory=list)
    retired: list[Retired] = field(default_factory=list)
    learned: list[Learned] = field(default_factory=list)
    unlearned: list[Learned] = field(default_factory=list)
    nodes: dict[Place, Node] = field(default_factory=dict)
    broken: list[Node] = field(default_factory=list)
    unread: dict[str, set[str]] = field(default_factory=lambda: {kind: set() for kind in KINDS})

    def of(self, kind: str) -> dict[str, Any]:
        """The entries of a kind by id, to be changed."""
        entries: dict[str, Any] = getattr(self, kind)
        return entries

    def keep(self, kind: str, entries: Mapping[str, Any]) -> None:
        """Let a kind have these entries and no others."""
        held, kept = self.of(kind), dict(entries)
        held.clear()
        held.update(kept)

    def cases(self) -> Iterator[WorkedCase]:
        """Every worked case."""
        return (case for defect in self.defects.values() for case in defect.cases)

    def ids(self, kind: str) -> set[str]:
        """Every id of a kind that stands in a file, readable or not."""
        return set(getattr(self, kind)) | self.unread[kind]

    def key_within(self, place: Place, *path: str | int) -> Place:
        """Where a key inside the entry at ``place`` stands, e.g. ``"outcomes", "reads-low", "shows"``."""
        node = self.nodes.get(place)
        return node.document.key_place((*node.path, *path)) if node else place

    def value_within(self, place: Place, *path: str | int) -> Place:
        """Where a value inside the entry at ``place`` starts."""
        node = self.nodes.get(place)
        return node.document.value_place((*node.path, *path)) if node else place
