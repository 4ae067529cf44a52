"""What was seen, answered and tried, in sentences."""

from diagnose.knowledge.model import Knowledge
from diagnose.reasoning.evidence import BETTER, SAME
from diagnose.reasoning.reasons import Finding

_CHANGES = {BETTER: "it got better, not right", SAME: "no change", "": "not cured"}


def sentence(finding: Finding, knowledge: Knowledge) -> str:
    """One finding as a short sentence without a full stop."""
    if finding.kind == "seen":
        return f"{knowledge.defects[finding.id].title}: seen"
    if finding.kind == "not-seen":
        return f"{knowledge.defects[finding.id].title}: looked for, not seen"
    if finding.kind == "press":
        return f"This press: {finding.detail}"
    if finding.kind == "tried":
        return f"Tried: {knowledge.fixes[finding.id].title}; {_CHANGES[finding.detail]}"
    check = knowledge.checks[finding.id]
    return f"{check.title}: {check.outcome(finding.detail).looks}"


def seen(defects: tuple[str, ...], knowledge: Knowledge) -> str:
    """The titles of defects, joined for one line."""
    return " · ".join(knowledge.defects[defect].title for defect in defects)
