"""Reads checks and their outcomes."""

from diagnose.knowledge.documents.node import Node
from diagnose.knowledge.model import Check, Outcome
from diagnose.knowledge.readers.conditions import read_condition
from diagnose.knowledge.readers.reading import FolderReading, read_spends, read_status


def read_check(check_id: str, node: Node, reading: FolderReading) -> Check:
    """A check from its entry in a kb file."""
    return Check(
        id=check_id,
        title=node.text("title"),
        basis=node.texts("basis"),
        place=node.place,
        origin=reading.origin,
        kind=node.text("kind"),
        asks=node.text("asks"),
        how=node.texts("how"),
        needs=node.texts("needs"),
        minutes=node.number("minutes"),
        spends=read_spends(node),
        condition=read_condition(node),
        outcomes=tuple(_outcome(name, entry, reading) for name, entry in node.named("outcomes")),
        cautions=node.texts("cautions"),
        status=read_status(node, reading),
        confirmed_by=node.texts("confirmed-by"),
    )


def _outcome(outcome_id: str, node: Node, reading: FolderReading) -> Outcome:
    return Outcome(
        id=outcome_id,
        looks=node.text("looks"),
        said=node.texts("said"),
        shows=reading.chances(node, "shows"),
        otherwise=reading.chance_at(node, "otherwise"),
    )
