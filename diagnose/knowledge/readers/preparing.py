"""Reads how goods are handled, and what should be so before a press."""

from diagnose.knowledge.documents.node import Node
from diagnose.knowledge.preparing import Handling, Statement
from diagnose.knowledge.readers.conditions import read_condition
from diagnose.knowledge.readers.reading import FolderReading


def read_handling(handling_id: str, node: Node, reading: FolderReading) -> Handling:
    """A line on handling from its entry in a kb file."""
    seconds = node.numbers("seconds")
    return Handling(
        id=handling_id,
        title=node.text("text"),
        basis=node.texts("basis"),
        place=node.place,
        origin=reading.origin,
        part=node.text("part"),
        seconds=(seconds[0], seconds[1]) if seconds else None,
        condition=read_condition(node),
        why=node.text("why"),
    )


def read_statement(statement_id: str, node: Node, reading: FolderReading) -> Statement:
    """A statement from its entry in a kb file."""
    return Statement(
        id=statement_id,
        title=node.text("title"),
        basis=node.texts("basis"),
        place=node.place,
        origin=reading.origin,
        holds=node.text("holds"),
        condition=read_condition(node),
        not_so=reading.chances(node, "not-so"),
        do=node.text("do"),
        why=node.text("why"),
        minutes=node.number("minutes"),
        paper=node.number("paper"),
        cautions=node.texts("cautions"),
        refuted=read_condition(node, "not-so-if"),
        watched=node.text("watched"),
    )
