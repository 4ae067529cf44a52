"""What becomes of the piece in the customer's hands: the care note that applies, and what to tell the customer."""

from diagnose.dialogue.consultation import Consultation
from diagnose.knowledge.care import note_on, telling
from diagnose.knowledge.model import CareNote


def care_note(consultation: Consultation) -> CareNote | None:
    """The care note on the item; None where the item is not named or has none."""
    return note_on(consultation.knowledge, consultation.session.item)


def what_to_tell(consultation: Consultation) -> str:
    """What to tell a customer who came back with what was seen; "" where it is none of the care note's defects."""
    note = care_note(consultation)
    return telling(note, consultation.session.evidence.seen) if note else ""
