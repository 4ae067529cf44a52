"""Reads items and the facts of the job."""

from diagnose.knowledge.documents.node import Node
from diagnose.knowledge.model import Fact, Item, Settings
from diagnose.knowledge.preparing import PARTS
from diagnose.knowledge.readers.conditions import read_facts
from diagnose.knowledge.readers.materials import read_body
from diagnose.knowledge.readers.reading import FolderReading

OWN_KEYS = ("pre-press", "peel")  # of an item's settings, with a meaning of their own


def read_item(item_id: str, node: Node, reading: FolderReading) -> Item:
    """An item from its entry in a kb file."""
    settings, body = node.get("settings"), node.get("body")
    return Item(
        id=item_id,
        title=node.text("title"),
        basis=node.texts("basis"),
        place=node.place,
        origin=reading.origin,
        family=node.text("family"),
        facts=read_facts(node, "facts"),
        said=node.texts("said"),
        settings=_settings(settings) if settings else None,
        body=read_body(body) if body else None,
        blank_price=node.number("blank-price"),
        test_minutes=node.number("test-minutes"),
        cautions=node.texts("cautions"),
    )


def read_fact(fact_id: str, node: Node, reading: FolderReading) -> Fact:
    """A fact from its entry in a kb file."""
    number = node.get("number")
    return Fact(
        id=fact_id,
        title=node.text("title"),
        asks=node.text("ask"),
        one_of=node.texts("one-of"),
        words={word: (node.get("words") or node).texts(word) for word, _ in node.named("words")},
        unit=number.text("unit") if number else "",
        least=number.number("least") if number else None,
        most=number.number("most") if number else None,
        yes_no=node.get("yes-no") is not None,
        place=node.place,
    )


def _settings(node: Node) -> Settings:
    return Settings(
        temperature=_window(node, "temperature"),
        dwell=_window(node, "dwell"),
        pressure=node.text("pressure"),
        peel=node.text("peel"),
        settle=node.number("settle"),
        note=node.text("note"),
        pre_press=_window(node, "pre-press") if node.get("pre-press") else None,
        handling={part: node.text(part) for part in PARTS if part not in OWN_KEYS and node.get(part)},
    )


def _window(node: Node, key: str) -> tuple[float, float]:
    least, most = node.numbers(key)
    return least, most
