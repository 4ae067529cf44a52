"""Reads the checked documents of one folder into a layer."""

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from diagnose.knowledge.documents.document import Document, Node, root
from diagnose.knowledge.layer import Addition, Extension, Layer, Retired, Scale
from diagnose.knowledge.model import KINDS, TRIAL, Defect, Fact, Rule, ScaleWord, from_a_bundle
from diagnose.knowledge.readers.learned import read_learned
from diagnose.knowledge.readers.reading import FolderReading
from diagnose.knowledge.shop import PRESS_NAME, Press, Shop


def read_scale(documents: Iterable[Document]) -> Scale:
    """The words of the scale in some kb documents, and their note."""
    words, places, note = {}, {}, ""
    for node in map(root, documents):
        for entry in node.each("scale"):
            word = FolderReading({}).read(ScaleWord, entry)
            words[word.word], places[word.word] = word, entry.place
        note = node.text("note") or note
    return Scale(words=words, note=note, places=places)


def read_kb_file(document: Document, layer: Layer, reading: FolderReading) -> None:
    """Add everything in a kb document to the layer."""
    node = root(document)
    if from_a_bundle(reading.origin):  # what came in one is on trial until the shop says otherwise
        reading = replace(reading, usual={"status": TRIAL})
    for kind in KINDS.values():
        readable = dict(node.named(kind.name))
        layer.unread[kind.name] |= _names(document, kind.name) - set(readable)
        for name, entry in readable.items():
            _add(reading.read(kind.made, entry, id=name), entry, layer, reading)
    _read_retired(node, layer)
    _read_extensions(node, layer, reading)
    if learned := node.get("learned"):
        layer.learned.append(read_learned(learned, reading))


def read_rule_file(document: Document, layer: Layer, reading: FolderReading) -> None:
    """Add the defect of a rule document, or what it adds to one, to the layer."""
    node = root(document)
    if () in document.broken:
        named = document.value.get("defect") if isinstance(document.value, dict) else None
        layer.unread["defects"].add(str(named))
        return
    key = "adds-to" if node.get("adds-to") else "defect"
    defect, place = node.text(key), document.value_place((key,))
    reading = replace(reading, usual={"status": node.text("status"), "date": node.text("date")})
    rules = tuple(reading.read(Rule, entry, defect=defect) for entry in node.each("rules"))
    if key == "defect":
        _add(reading.read(Defect, node, id=defect, place=place, rules=rules), node, layer, reading)
    else:
        layer.additions.append(reading.read(Addition, node, defect=defect, place=place, rules=rules))
        layer.nodes[place] = node
    layer.nodes.update({entry.place: entry for key in ("rules", "cases") for entry in node.each(key)})


def read_shop_file(document: Document, layer: Layer, reading: FolderReading) -> None:
    """Add the shop and its presses to the layer. Their ids become the words of the fact ``press.name``."""
    node = root(document)
    if () in document.broken:
        layer.unread["facts"].add(PRESS_NAME)
        return
    for entry in node.each("presses"):
        layer.presses.append((reading.read(Press, entry), entry.place))
        layer.nodes[entry.place] = entry
    presses = {press.id: press for press, _ in layer.presses}
    layer.shops.append(reading.read(Shop, node, presses=presses))
    if presses and (named := node.get("presses")):
        asks = "On which press was it pressed?"
        fact = Fact(id=PRESS_NAME, title="Press", asks=asks, one_of=tuple(presses), place=named.place)
        _add(fact, named, layer, reading)


def _add(entry: Any, node: Node, layer: Layer, reading: FolderReading) -> None:
    """Put an entry into the layer; a second one of the same id is a problem."""
    kind = next(kind for kind in KINDS.values() if isinstance(entry, kind.made))
    known = layer.of(kind.name)
    if entry.id in known:
        reading.found.add(
            entry.place,
            "defined-twice",
            f'"{entry.id}" is defined twice among the {kind.called}',
            hint=f"the other stands at {known[entry.id].place}; keep one or give it another id",
        )
        return
    known[entry.id] = entry
    layer.nodes[entry.place] = node


def _names(document: Document, kind: str) -> set[str]:
    """The names of a kind's entries in a document, broken or not."""
    entries = document.value.get(kind) if isinstance(document.value, dict) else None
    return set(entries) if isinstance(entries, dict) else set()


def _read_retired(node: Node, layer: Layer) -> None:
    for kind in KINDS:
        entries = node.each("retire", kind)
        layer.retired.extend(Retired(kind=kind, id=str(entry.value), place=entry.place) for entry in entries)
    for entry in node.each("retire", "rules"):
        cause, defect = entry.text("cause"), entry.text("defect")
        place = entry.document.value_place(entry.path)
        layer.retired.append(Retired(kind="rules", id=cause, defect=defect, place=place))


def _read_extensions(node: Node, layer: Layer, reading: FolderReading) -> None:
    for fix, entry in node.named("adds-to", "fixes"):
        layer.extensions.append(Extension(kind="fixes", id=fix, chances=reading.chances(entry), place=entry.place))
    for check, outcomes in node.named("adds-to", "checks"):
        for outcome, entry in outcomes.named():
            chances = reading.chances(entry)
            made = Extension(kind="checks", id=check, outcome=outcome, chances=chances, place=entry.place)
            layer.extensions.append(made)
