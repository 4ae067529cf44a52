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
    "professional-care": "Professional care",
    "dishwasher": "Dishwasher",
    "microwave": "Microwave",
    "heat": "Heat",
    "light": "Light",
    "food": "Food",
    "children": "Children",
}
KINDS: Final = tuple(KIND_TITLES)
FOOTING: Final = (
    "This note promises nothing beyond what the maker of the piece states, and takes away none of your rights."
)


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


def by_kind(note: CareNote) -> Iterator[tuple[str, list[CareStatement]]]:
    """The title of each kind and the note's statements of that kind."""
    for kind, title in KIND_TITLES.items():
        if statements := [statement for statement in note.statements if statement.kind == kind]:
            yield title, statements
