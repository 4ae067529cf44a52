"""Care notes looked at from an item, from a defect and from the customer: which one applies, and in what order."""

from collections.abc import Collection, Iterator
from typing import Final

from diagnose.knowledge.model import CareNote, CareStatement, Item, Knowledge

# In the order of the care-labelling standards (iso-3758), then what concerns the use of a piece.
KIND_TITLES: Final = {
    "washing": "Washing",
    "bleaching": "Bleaching",
    "drying": "Drying",
    "ironing": "Ironing",
    "professional-care": "Dry-cleaning",
    "dishwasher": "Dishwasher",
    "microwave": "Microwave",
    "heat": "Heat",
    "light": "Light",
    "food": "Food",
    "children": "Children",
}
KINDS: Final = tuple(KIND_TITLES)
FOOTING: Final = "Where the maker's own label is stricter, it counts. Your rights stay."


def note_on(knowledge: Knowledge, item_id: str) -> CareNote | None:
    """The care note that speaks of an item; None where there is none."""
    return next((note for note in knowledge.care.values() if item_id in note.items), None)


def notes_touching(knowledge: Knowledge, defect_id: str) -> list[CareNote]:
    """The care notes that a defect makes needed."""
    return [note for note in knowledge.care.values() if defect_id in note.defects]


def telling(note: CareNote, defects: Collection[str]) -> str:
    """What to tell a customer whose piece shows some defects; "" where the note has nothing to say on any of them."""
    return note.tell if set(note.defects) & set(defects) else ""


def items_of(knowledge: Knowledge, note: CareNote) -> list[Item]:
    """The items a note speaks of, in its order."""
    return [knowledge.items[item] for item in note.items]


def by_kind(note: CareNote, item: Item | None = None) -> Iterator[tuple[str, list[CareStatement]]]:
    """The title of each kind and the note's statements of that kind: those that fit an item, or all of them."""
    for kind, title in KIND_TITLES.items():
        if statements := [each for each in note.statements if each.kind == kind and _fits(each, item)]:
            yield title, statements


def _fits(statement: CareStatement, item: Item | None) -> bool:
    return item is None or not statement.only_for or item.id in statement.only_for


def message(note: CareNote, item: Item | None = None) -> str:
    """The note in a message: as it was written for one, else what it says of washing, drying and light."""
    if note.short:
        return note.short
    told = dict(by_kind(note, item))
    kinds = (KIND_TITLES[kind] for kind in ("washing", "drying", "light"))
    return " ".join(statement.text for kind in kinds for statement in told.get(kind, []))
