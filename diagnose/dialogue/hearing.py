"""Turning free words, or ids, into what the session understands."""

from dataclasses import dataclass

from diagnose.knowledge.conditions import FactValue
from diagnose.knowledge.model import Knowledge
from diagnose.reasoning.words import Lexicon, understand


@dataclass(frozen=True, slots=True)
class Heard:
    """What some words were taken for: defects seen and not seen, answers to checks, and what was left over.
    ``item`` and ``facts`` are what they say of the job, "" and empty where they say nothing; ``refused`` the stuff that
    the goods are of, where it is one that no print takes to; ``elsewhere`` the craft or trade that they ask
    about, by its id, where it is another one."""

    defects: tuple[str, ...] = ()
    not_seen: tuple[str, ...] = ()
    answers: tuple[tuple[str, str], ...] = ()
    item: str = ""
    facts: tuple[tuple[str, FactValue], ...] = ()
    refused: str = ""
    elsewhere: str = ""
    not_understood: tuple[str, ...] = ()


def hear(knowledge: Knowledge, lexicon: Lexicon, text: str) -> Heard:
    """What the words say. An id of a defect is taken as it stands."""
    if text.strip() in knowledge.defects:
        return Heard(defects=(text.strip(),))
    understood = understand(lexicon, text)
    item = understood.item
    return Heard(
        defects=tuple(match.id for match in understood.defects),
        not_seen=tuple(understood.not_seen),
        answers=tuple((check, outcome) for check, outcome, _ in understood.outcomes),
        item=item.id if item else "",
        facts=tuple(sorted(item.facts.items())) if item else (),
        refused=item.refused if item else "",
        not_understood=tuple(understood.not_understood),
    )
