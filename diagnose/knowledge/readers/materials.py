"""Reads materials and how items are built up of them."""

from diagnose.knowledge.documents.node import Node
from diagnose.knowledge.materials import BodyLayer, BodyPlan, FamilyBody, Material, Property
from diagnose.knowledge.readers.reading import FolderReading

MILLIMETRE = 1e-3


def read_material(material_id: str, node: Node, reading: FolderReading) -> Material:
    """A material from its entry in a kb file; each property carries its own basis."""
    regain = node.get("regain")
    return Material(
        id=material_id,
        title=node.text("title"),
        place=node.place,
        origin=reading.origin,
        conductivity=_property(node.get("conductivity") or node),
        density=_property(node.get("density") or node),
        heat_capacity=_property(node.get("heat-capacity") or node),
        regain=_property(regain) if regain else None,
    )


def read_family_body(family: str, node: Node, reading: FolderReading) -> FamilyBody:
    """How the items of a family are built up."""
    return FamilyBody(
        id=family,
        title=node.text("title"),
        basis=node.texts("basis"),
        place=node.place,
        origin=reading.origin,
        plan=read_body(node),
    )


def read_body(node: Node) -> BodyPlan:
    """What a family or a single item says of how it is built up and heated."""
    return BodyPlan(layers=tuple(map(_layer, node.each("layers"))), heated=node.text("heated"))


def _layer(node: Node) -> BodyLayer:
    thickness = node.number("thickness")
    return BodyLayer(
        material=node.text("material"),
        rest=node.text("rest"),
        thickness=thickness * MILLIMETRE if thickness else None,
    )


def _property(node: Node) -> Property:
    return Property(node.number("value"), node.texts("basis"))
