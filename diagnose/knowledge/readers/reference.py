"""Reads what the knowledge leans on: the scale, sources, cautions and the words of the trade."""

from diagnose.knowledge.model import Caution, Refused, ScaleWord, Source, Term, WordGroup
from diagnose.knowledge.node import Node
from diagnose.knowledge.readers.reading import Reading


def read_scale_word(node: Node) -> ScaleWord:
    """A word of the scale from an entry of the list."""
    return ScaleWord(word=node.text("word"), value=node.number("value"), source=node.text("source"))


def read_source(source_id: str, node: Node, reading: Reading) -> Source:
    """A source from its entry in a kb file; it is its own basis."""
    return Source(
        id=source_id,
        title=node.text("title"),
        place=node.place,
        origin=reading.origin,
        authors=node.text("authors"),
        year=node.text("year"),
        kind=node.text("kind"),
        says=node.text("says"),
        read=node.text("read"),
    )


def read_caution(caution_id: str, node: Node, reading: Reading) -> Caution:
    """A caution from its entry in a kb file."""
    return Caution(
        id=caution_id,
        title=node.text("title"),
        basis=node.texts("basis"),
        place=node.place,
        origin=reading.origin,
        text=node.text("text"),
        at_a_press=node.text("at-a-press"),
        called_for_by=node.texts("called-for-by"),
        not_by=node.texts("not-by"),
    )


def read_refused(stuff_id: str, node: Node, reading: Reading) -> Refused:
    """A stuff that is refused from its entry in a kb file."""
    return Refused(
        id=stuff_id,
        title=node.text("title"),
        basis=node.texts("basis"),
        place=node.place,
        origin=reading.origin,
        said=node.texts("said"),
        why=node.text("why"),
        instead=node.text("instead"),
    )


def read_term(term_id: str, node: Node, reading: Reading) -> Term:
    """A word of the trade from its entry in a kb file."""
    return Term(
        id=term_id,
        title=node.text("term"),
        basis=node.texts("basis"),
        place=node.place,
        origin=reading.origin,
        means=node.text("means"),
        see=node.texts("see"),
    )


def read_word_group(group_id: str, node: Node, reading: Reading) -> WordGroup:
    """A group of everyday words from its entry in a kb file."""
    plain = node.get("plain")
    return WordGroup(
        id=group_id,
        note=node.text("note"),
        members=node.texts("members"),
        as_written=node.texts("as-written"),
        plain=plain is not None and plain.value is True,
        place=node.place,
        origin=reading.origin,
    )
