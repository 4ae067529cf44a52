"""A saved session from its text alone, as a test has it."""

from diagnose.dialogue.saving import saved
from diagnose.dialogue.session import Session


def from_json(text: str) -> tuple[Session, str]:
    """The session in a JSON text, and the version of the knowledge it was held with; PressloreError else."""
    found = saved(text.encode("utf-8", "surrogatepass"), text)
    return found.session, found.knowledge
