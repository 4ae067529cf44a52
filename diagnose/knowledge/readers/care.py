"""Reads care notes."""

from diagnose.knowledge.documents.node import Node
from diagnose.knowledge.model import CareNote, CareStatement
from diagnose.knowledge.readers.reading import FolderReading


def read_care_note(note_id: str, node: Node, reading: FolderReading) -> CareNote:
    """A care note from its entry in a kb file."""
    return CareNote(
        id=note_id,
        title=node.text("title"),
        place=node.place,
        origin=reading.origin,
        items=node.texts("items"),
        defects=node.texts("defects"),
        tell=node.text("tell"),
        statements=tuple(map(_statement, node.each("statements"))),
    )


def _statement(node: Node) -> CareStatement:
    return CareStatement(kind=node.text("kind"), text=node.text("text"), basis=node.texts("basis"))
