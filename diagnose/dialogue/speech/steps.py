"""Why the next step is the next step, in one or two sentences."""

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.speech.chances import minutes, percent
from diagnose.dialogue.speech.trial import titled
from diagnose.knowledge.cautions import before
from diagnose.knowledge.model import Check, Fix
from diagnose.reasoning.planner import Option
from diagnose.reasoning.ranking import Suspect
from diagnose.reasoning.trouble import Action

WORTH_NAMING = 0.25  # of what the best-paying cause brings


def cautions(consultation: Consultation, step: Check | Fix) -> tuple[str, ...]:
    """The cautions to read before a check or a fix of what is pressed."""
    return before(consultation.knowledge.cautions, step, consultation.item)


def why_step(consultation: Consultation) -> str:
    """What speaks for the step advised now."""
    advice = consultation.advice
    if advice.kind == "check":
        return why_check(consultation, advice.id)
    if advice.kind == "fix":
        return why_fix(consultation, advice.id)
    return _why_call(consultation)


def why_check(consultation: Consultation, check_id: str) -> str:
    """Which of the causes that come up this check speaks of, and what asking it first saves."""
    links = consultation.net.checks[check_id].links
    spoken = [s for s in consultation.suspects if s.index in links][:3]
    titles = [titled(consultation, s.cause) for s in spoken]
    told = f"It tells whether this is behind it: {_listed(titles)}." if titles else "It narrows down where to look."
    saved = _saved(consultation, check_id)
    return f"{told} {saved}".strip()


def _saved(consultation: Consultation, check_id: str) -> str:
    options = consultation.advice.options
    own = next((o for o in options if o.step is not None and o.step.id == check_id), None)
    act = next((o for o in options if isinstance(o.step, Action)), None)
    if own is None or act is None or act.cost <= own.cost:
        return ""
    spared = (act.cost - own.cost) / consultation.shop.rates.minute
    return f"Asking first saves about {minutes(spared)} of work and goods." if spared >= 0.75 else ""


def why_fix(consultation: Consultation, fix_id: str) -> str:
    """What this fix puts right: the causes it pays for most, each with how likely it is and how surely it is cured."""
    cures = consultation.net.cures[fix_id]
    gains = sorted(((s.behind * cures[s.index], s) for s in consultation.suspects if s.index in cures), key=_by_gain)
    aimed = [s for gain, s in gains if gain >= WORTH_NAMING * gains[0][0]][:2]
    parts = [
        f"{titled(consultation, s.cause)} ({percent(s.behind)} likely, cures {percent(cures[s.index])})" for s in aimed
    ]
    return f"It puts right: {_listed(parts)}." if parts else "It is the cheapest of what is left to try."


def _by_gain(pair: tuple[float, Suspect]) -> tuple[float, str]:
    return -pair[0], pair[1].cause


def _why_call(consultation: Consultation) -> str:
    left = consultation.advice.options
    others: list[Option] = [option for option in left if option.step is not None]
    if not others:
        return "There is nothing left to try here that the rules know of."
    return "Going on would be expected to cost more than help does."


def _listed(parts: list[str]) -> str:
    return "; ".join(parts)
