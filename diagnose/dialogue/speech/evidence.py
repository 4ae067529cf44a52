"""What was seen, answered and tried, in sentences."""

from typing import TYPE_CHECKING

from diagnose.dialogue.consultation import Consultation
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.trial import titled
from diagnose.reasoning.evidence import BETTER, SAME
from diagnose.reasoning.reasons import Finding

if TYPE_CHECKING:
    from diagnose.foresight.readings import Reading

_CHANGES = {BETTER: "it got better, not right", SAME: "no change", "": "not cured"}


def sentence(finding: Finding, consultation: Consultation, cause: str = "") -> str:
    """One finding as a short sentence without a full stop. ``cause``: the one that a figure is told to speak of."""
    knowledge = consultation.knowledge
    if finding.kind == "reading":
        return _reading(finding.id, consultation, cause)
    if finding.kind == "seen":
        return f"{knowledge.defects[finding.id].title}: seen"
    if finding.kind == "not-seen":
        return f"{knowledge.defects[finding.id].title}: looked for, not seen"
    if finding.kind == "press":
        return f"This press: {finding.detail}"
    if finding.kind == "tried":
        return f"Tried: {titled(knowledge.fixes[finding.id])}; {_CHANGES[finding.detail]}"
    check = knowledge.checks[finding.id]
    return f"{titled(check)}: {check.outcome(finding.detail).looks}"


def _reading(measure: str, consultation: Consultation, cause: str) -> str:
    from diagnose.foresight.wording import weighed

    reading = next(each for each in consultation.readings if each.id == measure)
    what = spoken(reading, consultation)
    return f"{what}; {weighed(reading, cause)}" if cause in reading.ratios else what


def spoken(reading: "Reading", consultation: Consultation) -> str:
    """What a figure comes to, in the shop's units."""
    from diagnose.foresight.wording import told

    return told(reading, consultation.shop.temperature)


def reckoned(consultation: Consultation) -> str:
    """What the press gave by the figures, in one sentence without a full stop; "" where they are not enough."""
    if consultation.reckoned is None:
        return ""
    from diagnose.foresight.wording import reckoned

    return reckoned(consultation.reckoned, consultation.shop.temperature)


def seen(defects: tuple[str, ...], knowledge: Knowledge) -> str:
    """The titles of defects, joined for one line."""
    return " · ".join(knowledge.defects[defect].title for defect in defects)
