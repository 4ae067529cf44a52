"""Reads a shop.yaml: what a shop says of itself and of its presses."""

from dataclasses import fields

from diagnose.knowledge.documents.document import Document
from diagnose.knowledge.documents.node import Node, root
from diagnose.knowledge.layer import Layer
from diagnose.knowledge.model import Fact
from diagnose.knowledge.readers.conditions import read_facts
from diagnose.knowledge.readers.files import add
from diagnose.knowledge.readers.reading import FolderReading
from diagnose.knowledge.shop import PRESS_NAME, Known, Press, Rates, Shop


def read_shop_file(document: Document, layer: Layer, reading: FolderReading) -> None:
    """Add the shop and its presses to the layer. Their ids become the words of the fact ``press.name``."""
    node = root(document)
    if () in document.broken:
        layer.unread["facts"].add(PRESS_NAME)
        return
    for entry in node.each("presses"):
        layer.presses.append((_press(entry, reading), entry.place))
        layer.nodes[entry.place] = entry
    layer.shop = _shop(node, {press.id: press for press, _ in layer.presses})
    presses = node.get("presses")
    if presses and layer.shop.presses:
        add("facts", _name(layer.shop, presses), presses, layer, reading)


def _name(shop: Shop, node: Node) -> Fact:
    asks = "On which press was it pressed?"
    return Fact(id=PRESS_NAME, title="Press", asks=asks, one_of=tuple(shop.presses), place=node.place)


def _shop(node: Node, presses: dict[str, Press]) -> Shop:
    units, rates = node.get("units") or Node(node.document, (), {}), node.get("rates")
    usual = Shop()
    return Shop(
        name=node.text("name", usual.name),
        address=node.texts("address"),
        handbook=node.text("handbook", usual.handbook),
        currency=node.text("currency", usual.currency),
        temperature=units.text("temperature", usual.temperature),
        pressure=units.text("pressure", usual.pressure),
        tolerance=node.number("tolerance") if node.get("tolerance") else usual.tolerance,
        rates=_rates(rates) if rates else usual.rates,
        presses=presses,
        spoilt=node.number("spoilt", usual.spoilt),
    )


def _rates(node: Node) -> Rates:
    usual = Rates()
    keys = {field.name: field.name.replace("_", "-") for field in fields(Rates)}
    return Rates(**{name: node.number(key, getattr(usual, name)) for name, key in keys.items()})


def _press(node: Node, reading: FolderReading) -> Press:
    return Press(
        id=node.text("id"),
        title=node.text("title"),
        facts=read_facts(node, "facts"),
        known=tuple(_known(entry, reading) for entry in node.each("known")),
    )


def _known(node: Node, reading: FolderReading) -> Known:
    return Known(
        cause=node.text("cause"),
        turns_up=reading.chance_at(node, "turns-up"),
        since=node.text("since"),
        note=node.text("note"),
    )
