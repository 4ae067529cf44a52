"""What of a consultation is worth telling: which reasons, which causes of a step, what it spares, which cautions."""

from diagnose.dialogue.consultation import Consultation
from diagnose.knowledge.care import note_on, telling
from diagnose.knowledge.cautions import before
from diagnose.knowledge.model import CareNote, Check, Fix
from diagnose.knowledge.trial import on_trial, rests_on_trial
from diagnose.reasoning.ranking import Suspect
from diagnose.reasoning.reasons import Reason
from diagnose.reasoning.trouble import Action

REASONS_EACH = 4
FAINTEST = 0.5  # decibans: a reason that moves the odds by less than an eighth is left out beside a weightier one
WORTH_NAMING = 0.25  # of what the best-paying cause brings
WORTH_SPARING = 0.75  # minutes
DIGITS = 6  # of a count of questions before it is told in whole ones, so that both engines tell the same
WORTH_WAITING = 5.0  # minutes of waiting that are worth telling apart
WINDOWED = ("set-gap", "dwell-gap")  # measures that hold a figure against the item's window


def rests(consultation: Consultation, cause: str) -> bool:
    """Whether a rule on trial is among those that tie the cause to what was seen; where none does, whether there is
    nothing but rules on trial for it."""
    knowledge, job = consultation.knowledge, consultation.job
    tying = [
        rule
        for defect in consultation.evidence.seen
        for rule in knowledge.defects[defect].rules
        if rule.cause == cause and rule.condition.may_hold(job)
    ]
    return any(map(on_trial, tying)) if tying else rests_on_trial(knowledge, cause)


def weighty(consultation: Consultation, suspect: Suspect) -> list[Reason]:
    """The reasons for and against a cause, the heaviest first."""
    heaviest = consultation.reasons[suspect.index][:REASONS_EACH]
    return [reason for place, reason in enumerate(heaviest) if not place or abs(reason.weight) >= FAINTEST]


def spoken_of(consultation: Consultation, check_id: str) -> list[Suspect]:
    """The causes that come up and that a check speaks of."""
    links = consultation.net.checks[check_id].links
    return [suspect for suspect in consultation.suspects if suspect.index in links][:3]


def windowed(consultation: Consultation, check_id: str) -> str:
    """The measure by which the figure that answers a check is held against the item's window; "" where none is."""
    item = consultation.item
    measures = consultation.knowledge.readings.values() if item and item.settings else ()
    return next((one.id for one in measures if one.id in WINDOWED and check_id in one.settles), "")


def spared(consultation: Consultation, check_id: str) -> tuple[float, float]:
    """The minutes of work and goods that asking first saves, and those of waiting; 0 where it saves next to none."""
    options = consultation.advice.options
    own = next((o for o in options if o.step is not None and o.step.id == check_id), None)
    act = next((o for o in options if isinstance(o.step, Action)), None)
    if own is None or act is None or act.cost <= own.cost:
        return 0.0, 0.0
    rates = consultation.shop.rates
    waits = act.waits - own.waits if act.waits - own.waits >= WORTH_WAITING else 0.0
    minutes = (act.cost - own.cost - waits * rates.minute_waited) / rates.minute
    return minutes if minutes >= WORTH_SPARING else 0.0, waits


def after_this(consultation: Consultation) -> int:
    """About how many questions come after the one that is asked now, to the end of the dialogue."""
    return max(0, round(round(consultation.advice.questions, DIGITS)) - 1)


def aimed_at(consultation: Consultation, fix_id: str) -> list[Suspect]:
    """The causes that a fix pays for most."""
    cures = consultation.net.cures[fix_id]
    gains = sorted(((s.behind * cures[s.index], s) for s in consultation.suspects if s.index in cures), key=_by_gain)
    return [s for gain, s in gains if gain >= WORTH_NAMING * gains[0][0]][:2]


def likeliest_fix(consultation: Consultation) -> str:
    """The id of the fix that most likely puts right what is behind it, of two alike the quicker; "" where none is
    left."""
    steps = [option.step for option in consultation.advice.options if isinstance(option.step, Action)]
    return min(
        ((-_puts_right(consultation, step.id), step.minutes + step.waits, step.id) for step in steps),
        default=("", 0, ""),
    )[2]


def _puts_right(consultation: Consultation, fix_id: str) -> float:
    """How much of what may be behind it a fix cures."""
    cures = consultation.net.cures[fix_id]
    return round(sum(suspect.behind * cures.get(suspect.index, 0.0) for suspect in consultation.suspects), 9)


def _by_gain(pair: tuple[float, Suspect]) -> tuple[float, str]:
    return -pair[0], pair[1].cause


def cautions(consultation: Consultation, step: Check | Fix) -> tuple[str, ...]:
    """The cautions to read before a check or a fix of what is pressed."""
    return before(consultation.knowledge.cautions, step, consultation.item)


def care_note(consultation: Consultation) -> CareNote | None:
    """The care note on the item; None where the item is not named or has none."""
    return note_on(consultation.knowledge, consultation.session.item)


def what_to_tell(consultation: Consultation) -> str:
    """What to tell a customer who came back with what was seen; "" where it is none of the care note's defects."""
    note = care_note(consultation)
    return telling(note, consultation.session.evidence.seen) if note else ""
