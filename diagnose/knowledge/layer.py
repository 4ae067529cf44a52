"""What one folder says, before folders are laid over one another."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Final

from diagnose.knowledge.materials import FamilyBody, Material
from diagnose.knowledge.measures import Measure
from diagnose.knowledge.model import (
    CareNote,
    Cause,
    Caution,
    Chance,
    Check,
    Defect,
    Fact,
    Fix,
    Item,
    LookAlike,
    Refused,
    Rule,
    ScaleWord,
    Source,
    Term,
    WordGroup,
    WorkedCase,
)
from diagnose.knowledge.node import Node
from diagnose.knowledge.numbers import Learned
from diagnose.knowledge.preparing import Handling, Statement
from diagnose.knowledge.shop import Press, Shop
from diagnose.problems import Place

KINDS: Final = (
    "facts",
    "causes",
    "checks",
    "fixes",
    "defects",
    "items",
    "cautions",
    "glossary",
    "sources",
    "words",
    "refused",
    "care",
    "handling",
    "ready",
    "materials",
    "bodies",
    "readings",
)


CALLED: Final = {
    "glossary": "words of the glossary",
    "words": "groups of words",
    "refused": "stuffs that are refused",
    "care": "care notes",
    "handling": "lines on handling",
    "ready": "statements before a press",
    "bodies": "make-ups",
}


def called(kind: str) -> str:
    """A kind's name within a sentence."""
    return CALLED.get(kind, kind)


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


@dataclass(slots=True)
class Layer:
    """Entries by id, kind by kind. ``nodes`` leads from an entry's, rule's or case's place to the file's own
    values; ``unread`` holds the ids of entries that stand in a file but could not be read, ``broken`` those entries
    themselves. ``heard``: the sentences heard of a defect, each once, in order; ``heard_at``: each id of a defect that
    sentences are heard of, and where it stands. ``shop`` and ``presses``: what the shop says of itself, and each press
    as it was written with its place. ``unlearned``: the numbers that learnt ones have taken the place of."""

    scale: dict[str, ScaleWord] = field(default_factory=dict)
    scale_note: str = ""
    scale_places: dict[str, Place] = field(default_factory=dict)
    facts: dict[str, Fact] = field(default_factory=dict)
    causes: dict[str, Cause] = field(default_factory=dict)
    checks: dict[str, Check] = field(default_factory=dict)
    fixes: dict[str, Fix] = field(default_factory=dict)
    defects: dict[str, Defect] = field(default_factory=dict)
    items: dict[str, Item] = field(default_factory=dict)
    cautions: dict[str, Caution] = field(default_factory=dict)
    glossary: dict[str, Term] = field(default_factory=dict)
    sources: dict[str, Source] = field(default_factory=dict)
    words: dict[str, WordGroup] = field(default_factory=dict)
    refused: dict[str, Refused] = field(default_factory=dict)
    care: dict[str, CareNote] = field(default_factory=dict)
    handling: dict[str, Handling] = field(default_factory=dict)
    ready: dict[str, Statement] = field(default_factory=dict)
    materials: dict[str, Material] = field(default_factory=dict)
    bodies: dict[str, FamilyBody] = field(default_factory=dict)
    readings: dict[str, Measure] = field(default_factory=dict)
    heard: dict[str, dict[str, None]] = field(default_factory=dict)
    heard_at: list[tuple[str, Place]] = field(default_factory=list)
    shop: Shop | None = None
    presses: list[tuple[Press, Place]] = field(default_factory=list)
    additions: list[Addition] = field(default_factory=list)
    extensions: list[Extension] = field(default_factory=list)
    retired: list[Retired] = field(default_factory=list)
    learned: list[Learned] = field(default_factory=list)
    unlearned: list[Learned] = field(default_factory=list)
    nodes: dict[Place, Node] = field(default_factory=dict)
    broken: list[Node] = field(default_factory=list)
    unread: dict[str, set[str]] = field(default_factory=lambda: {kind: set() for kind in KINDS})

    def hear(self, defect: str, sentences: Iterable[str]) -> None:
        """Add sentences that tell of a defect to those heard of it before."""
        self.heard.setdefault(defect, {}).update(dict.fromkeys(sentences))

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
