"""What the pages of defects and items say of care: the notes that apply, and what to tell the customer."""

from diagnose.handbook.book import Handbook
from diagnose.handbook.leaf import item, section
from diagnose.handbook.links import Links
from diagnose.handbook.text import plain
from diagnose.knowledge.care import note_on, notes_touching
from diagnose.knowledge.model import Defect, Item
from diagnose.speech.saying import say


def care_section(book: Handbook, links: Links, defect: Defect) -> list[str]:
    """The care notes that a defect makes needed, with what to tell the customer."""
    lines = [
        line
        for note in notes_touching(book.knowledge, defect.id)
        for line in item(f"**{links.entry('care', note.id, note.title)}.** {plain(note.tell)}")
    ]
    return section(say("care-and-what-to-tell"), lines, "care", found=False)


def care_line(book: Handbook, links: Links, of: Item) -> str:
    """The care note of an item, as a link; "" where it has none."""
    note = note_on(book.knowledge, of.id)
    return links.entry("care", note.id, note.title) if note else ""
