"""Reads causes and fixes."""

from diagnose.knowledge.documents.node import Node
from diagnose.knowledge.model import Cause, Fix, Shape
from diagnose.knowledge.readers.conditions import read_condition
from diagnose.knowledge.readers.reading import FolderReading, read_spends, read_status


def read_cause(cause_id: str, node: Node, reading: FolderReading) -> Cause:
    """A cause from its entry in a kb file."""
    return Cause(
        id=cause_id,
        title=node.text("title"),
        basis=node.texts("basis"),
        place=node.place,
        origin=reading.origin,
        family=node.text("family"),
        turns_up=reading.chance_at(node, "turns-up"),
        shapes=tuple(
            Shape(condition=read_condition(entry), turns_up=reading.chance_at(entry, "turns-up"))
            for entry in node.each("when")
        ),
        about=node.text("about"),
    )


def read_fix(fix_id: str, node: Node, reading: FolderReading) -> Fix:
    """A fix from its entry in a kb file."""
    return Fix(
        id=fix_id,
        title=node.text("title"),
        basis=node.texts("basis"),
        place=node.place,
        origin=reading.origin,
        steps=node.texts("steps"),
        minutes=node.number("minutes"),
        spends=read_spends(node),
        condition=read_condition(node),
        cures=reading.chances(node, "cures"),
        cautions=node.texts("cautions"),
        status=read_status(node, reading),
        confirmed_by=node.texts("confirmed-by"),
    )
