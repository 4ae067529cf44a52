"""Reads the checked documents of one folder into a layer."""

from collections.abc import Callable, Iterable, Mapping
from typing import Final

from diagnose.knowledge.document import Document
from diagnose.knowledge.layer import KINDS, Extension, Layer, Retired, called
from diagnose.knowledge.model import Entry, Fact, WordGroup
from diagnose.knowledge.node import Node, root
from diagnose.knowledge.readers.care import read_care_note
from diagnose.knowledge.readers.causes import read_cause, read_fix
from diagnose.knowledge.readers.checks import read_check
from diagnose.knowledge.readers.defects import read_addition, read_defect
from diagnose.knowledge.readers.items import read_fact, read_item
from diagnose.knowledge.readers.learned import read_learned
from diagnose.knowledge.readers.materials import read_family_body, read_material
from diagnose.knowledge.readers.measures import read_measure
from diagnose.knowledge.readers.preparing import read_handling, read_statement
from diagnose.knowledge.readers.reading import Reading
from diagnose.knowledge.readers.reference import (
    read_caution,
    read_refused,
    read_scale_word,
    read_source,
    read_term,
    read_word_group,
)
from diagnose.problems import Place

READERS: Final[Mapping[str, Callable[[str, Node, Reading], Entry | Fact | WordGroup]]] = {
    "facts": read_fact,
    "causes": read_cause,
    "checks": read_check,
    "fixes": read_fix,
    "items": read_item,
    "cautions": read_caution,
    "glossary": read_term,
    "sources": read_source,
    "words": read_word_group,
    "refused": read_refused,
    "care": read_care_note,
    "handling": read_handling,
    "ready": read_statement,
    "materials": read_material,
    "bodies": read_family_body,
    "readings": read_measure,
}


def read_scale(documents: Iterable[Document]) -> Layer:
    """A layer with nothing but the words of the scale in some kb documents, and their note."""
    layer = Layer()
    for node in map(root, documents):
        for entry in node.each("scale"):
            word = read_scale_word(entry)
            layer.scale[word.word] = word
            layer.scale_places[word.word] = entry.place
        layer.scale_note = node.text("note") or layer.scale_note
    return layer


def read_kb_file(document: Document, layer: Layer, reading: Reading) -> None:
    """Add everything in a kb document to the layer."""
    node = root(document)
    for kind, read in READERS.items():
        readable = dict(node.named(kind))
        layer.unread[kind] |= _names(document, kind) - set(readable)
        for name, entry in readable.items():
            add(kind, read(name, entry, reading), entry, layer, reading)
    _read_heard(node, layer)
    _read_retired(node, layer)
    _read_extensions(node, layer, reading)
    if learned := node.get("learned"):
        layer.learned.append(read_learned(learned, reading))


def read_rule_file(document: Document, layer: Layer, reading: Reading) -> None:
    """Add the defect of a rule document, or what it adds to one, to the layer."""
    node = root(document)
    if () in document.broken:
        named = document.value.get("defect") if isinstance(document.value, dict) else None
        layer.unread["defects"].add(str(named))
    elif node.get("adds-to"):
        addition = read_addition(node, reading)
        layer.additions.append(addition)
        layer.nodes[addition.place] = node
    else:
        add("defects", read_defect(node, reading), node, layer, reading)
    for key in ("rules", "cases"):
        layer.nodes |= {entry.place: entry for entry in node.each(key)}


def add(kind: str, entry: Entry | Fact | WordGroup, node: Node, layer: Layer, reading: Reading) -> None:
    """Put an entry into the layer; a second one of the same id is a problem."""
    known: dict[str, Entry | Fact | WordGroup] = getattr(layer, kind)
    if entry.id in known:
        reading.found.add(
            entry.place,
            "defined-twice",
            f'"{entry.id}" is defined twice among the {called(kind)}',
            hint=f"the other stands at {known[entry.id].place}; keep one or give it another id",
        )
        return
    known[entry.id] = entry
    layer.nodes[entry.place] = node


def _names(document: Document, kind: str) -> set[str]:
    """The names of a kind's entries in a document, broken or not."""
    entries = document.value.get(kind) if isinstance(document.value, dict) else None
    return set(entries) if isinstance(entries, dict) else set()


def _read_heard(node: Node, layer: Layer) -> None:
    heard = node.get("heard")
    if heard is None:
        return
    for defect, entry in node.named("heard"):
        layer.hear(defect, heard.texts(defect))
        layer.heard_at.append((defect, entry.place))


def _read_retired(node: Node, layer: Layer) -> None:
    retire = node.get("retire")
    if retire is None:
        return
    for kind in KINDS:
        layer.retired += [Retired(kind=kind, id=str(entry.value), place=entry.place) for entry in retire.each(kind)]
    for entry in retire.each("rules"):
        cause, defect = entry.text("cause"), entry.text("defect")
        layer.retired.append(Retired(kind="rules", id=cause, defect=defect, place=_place(entry)))


def _read_extensions(node: Node, layer: Layer, reading: Reading) -> None:
    added = node.get("adds-to")
    if added is None:
        return
    fixes, checks = added.get("fixes"), added.get("checks")
    for fix, entry in added.named("fixes"):
        chances = reading.chances(fixes or added, fix)
        layer.extensions.append(Extension(kind="fixes", id=fix, chances=chances, place=entry.place))
    for check, outcomes in added.named("checks"):
        for outcome, entry in (checks or added).named(check):
            chances = reading.chances(outcomes, outcome)
            made = Extension(kind="checks", id=check, outcome=outcome, chances=chances, place=entry.place)
            layer.extensions.append(made)


def _place(node: Node) -> Place:
    return node.document.value_place(node.path)
