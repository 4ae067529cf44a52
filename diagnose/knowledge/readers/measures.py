"""Reads what measured figures say of causes."""

from diagnose.knowledge.documents.node import Node
from diagnose.knowledge.measures import Hump, Measure, Speaks
from diagnose.knowledge.readers.reading import FolderReading


def read_measure(measure_id: str, node: Node, reading: FolderReading) -> Measure:
    """A measure from its entry in a kb file."""
    return Measure(
        id=measure_id,
        title=node.text("title"),
        basis=node.texts("basis"),
        place=node.place,
        origin=reading.origin,
        how=node.texts("how"),
        needs=node.texts("needs"),
        minutes=node.number("minutes"),
        error=node.number("error"),
        settles=node.texts("settles"),
        speaks={cause: _speaks(entry) for cause, entry in node.named("speaks")},
        cautions=node.texts("cautions"),
    )


def _speaks(node: Node) -> Speaks:
    return Speaks(_humps(node, "there"), _humps(node, "otherwise"))


def _humps(node: Node, key: str) -> tuple[Hump, ...]:
    """One hump, or a list of them."""
    whole = node.get(key)
    parts = list(node.each(key)) if whole is None or isinstance(whole.value, list) else [whole]
    return tuple(Hump(part.number("mean"), part.number("spread"), part.number("share", 1.0)) for part in parts)
