"""Checks of care notes: each item in one, and what they say in the order people know from labels."""

from collections.abc import Iterator
from typing import Final

from diagnose.knowledge.care import KINDS
from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.layer import Layer

CARD: Final = 1280  # letters that fit on a card; tried in print with a wide face, on both sizes of sheet
STATEMENT: Final = 40


def items_without_a_note(layer: Layer) -> Iterator[Found]:
    """Where there are care notes at all, no customer goes without one."""
    noted = {item for note in layer.care.values() for item in note.items}
    for item in layer.items.values() if layer.care else ():
        if item.id not in noted:
            yield Found(
                item.place,
                f'no care note speaks of the item "{item.id}"',
                hint="name it under `items` of a note in kb/care.yaml, or write one for it",
            )


def items_in_two_notes(layer: Layer) -> Iterator[Found]:
    """Two notes on one item may say two things."""
    first: dict[str, str] = {}
    for note in layer.care.values():
        for index, item in enumerate(note.items):
            if first.setdefault(item, note.id) != note.id:
                place = layer.value_within(note.place, "items", index)
                yield Found(place, f'"{item}" stands in the care note "{first[item]}" too', "an item in one note only")


def notes_past_a_card(layer: Layer) -> Iterator[Found]:
    """A note must go on a card of A6. Each statement takes room beyond its letters, for its name and the line's end."""
    for note in layer.care.values():
        letters = sum(len(statement.text) + STATEMENT for statement in note.statements)
        if letters > CARD:
            yield Found(
                layer.key_within(note.place, "statements"),
                f"{letters} letters, each statement counted as {STATEMENT} more",
                f"at most {CARD}, which is what a card holds",
                "say it shorter, or leave out what the maker's label says anyway",
            )


def statements_out_of_order(layer: Layer) -> Iterator[Found]:
    """Washing, bleaching, drying, ironing, professional care, as the care-labelling standards have it; then use."""
    for note in layer.care.values():
        for index, (one, other) in enumerate(zip(note.statements, note.statements[1:], strict=False), 1):
            if KINDS.index(other.kind) < KINDS.index(one.kind):
                place = layer.value_within(note.place, "statements", index, "kind")
                yield Found(place, f'"{other.kind}" comes after "{one.kind}"', f"the order {', '.join(KINDS)}")
