"""What is to be expected of a job, in sentences: the screen, JSON and handbook say the same."""

from collections.abc import Iterator
from typing import Final

from diagnose.dialogue.speech.chances import in_words, money, percent
from diagnose.dialogue.speech.spans import seconds, temperature
from diagnose.foresight.job import doubted
from diagnose.foresight.ready import CARE, GO, STOP, Readiness, Remedy, Risk
from diagnose.knowledge.model import Fix, Knowledge
from diagnose.knowledge.shop import SPOILT, Shop
from diagnose.knowledge.trial import on_trial, titled

HEADS: Final = {GO: "Go.", CARE: "Go with care.", STOP: "Stop."}
ABOUT: Final = {"set-temp-low": "heat", "set-temp-high": "heat", "dwell-short": "time", "dwell-long": "time"}
CAUSES_TOLD = 3
WORTH_A_LOOK = 3
LEAST = 0.1  # of the likeliest cause's chance: what is less is not told beside it


def counted(chance: float) -> str:
    """A chance as so many of a hundred, or one of so many: ``90 in 100``, ``1 in 200``."""
    if chance >= 0.995:
        return "nearly all"
    if chance >= 0.02:
        return f"{100 * chance:.0f} in 100"
    return f"1 in {_round(1 / chance)}" if chance > 1e-6 else "none"


def _round(many: float) -> int:
    """Two figures are all that such a number is worth."""
    stride: int = 10 ** max(1, len(str(int(many))) - 2)
    return round(many / stride) * stride


def expected(ready: Readiness, shop: Shop) -> Iterator[str]:
    """How many pieces are likely spoilt, beside the usual, and what that costs."""
    likely, usually = counted(ready.spoilt), counted(ready.usual)
    if ready.spoilt < 1.2 * ready.usual:
        yield f"Nothing stands out. Spoilt as it stands: {likely}; usually {usually}."
        return
    yield f"Spoilt as it stands: {likely}; usually {usually}."
    pieces = "the piece" if ready.job.pieces == 1 else f"the {ready.job.pieces} pieces"
    lost, usual = (money(value, shop.currency) for value in (ready.loss, ready.usual_loss))
    yield f"Expected loss on {pieces}: {lost} for blanks, paper and minutes; usually {usual}."


def risk_words(knowledge: Knowledge, risk: Risk) -> str:
    """A defect, how sure it is, and from what."""
    title = knowledge.defects[risk.defect].title
    chance, usual = in_words(risk.chance, knowledge.scale), counted(risk.usual)
    return f"{title}: {chance}; usually {usual}. From: {_from(knowledge, risk)}."


def _from(knowledge: Knowledge, risk: Risk) -> str:
    most = risk.causes[0][1] if risk.causes else 0.0
    told = [(cause, chance) for cause, chance in risk.causes[:CAUSES_TOLD] if chance >= LEAST * most]
    return "; ".join(f"{_lower(knowledge.causes[cause].title)} ({percent(chance)})" for cause, chance in told)


def change_words(knowledge: Knowledge, ready: Readiness, change: Remedy, shop: Shop) -> tuple[str, str]:
    """What to change, and why it is worth it."""
    by_itself = f"By itself it spoils {counted(change.spoils)}."
    statement = change.statement
    if statement:
        return f"{_state(knowledge, ready, change)} {statement.do}", f"{statement.why} {by_itself}"
    cause = knowledge.causes[change.causes[0]]
    fix = remedy(knowledge, ready, cause.id)
    do = [f"{cause.title}.", f"{titled(fix)}." if fix else "", listed(ready, cause.id, shop)]
    return " ".join(filter(None, do)), f"{first_sentence(cause.about)} {by_itself}"


def listed(ready: Readiness, cause: str, shop: Shop) -> str:
    """What the item's list says of the setting that a cause is about; "" where it is about none."""
    settings = ready.job.item.settings if ready.job.item else None
    if settings is None or cause not in ABOUT:
        return ""
    window = temperature(settings.temperature, shop) if ABOUT[cause] == "heat" else seconds(settings.dwell)
    return f"Listed: {window}."


def _state(knowledge: Knowledge, ready: Readiness, change: Remedy) -> str:
    """How it stands with the statement behind a change."""
    assert change.statement is not None
    sure = {one.id: much for one, much in doubted(ready.job, knowledge)}.get(change.statement.id)
    state = "not said" if sure is None else "not so" if sure == 1.0 else "not sure"
    return f"{change.statement.title}: {state}."


def remedy(knowledge: Knowledge, ready: Readiness, cause: str) -> Fix | None:
    """What cures a cause most surely for its time, and costs no blank; what is on trial only where nothing else
    does."""
    facts = ready.job.all_facts
    fitting = [
        (not on_trial(fix), fix.cures[cause].value / (fix.minutes + 5.0), fix)
        for fix in knowledge.fixes.values()
        if cause in fix.cures and not fix.spends.blank and fix.condition.may_hold(facts)
    ]
    return max(fitting, key=lambda one: (one[0], round(one[1], 9), one[2].id), default=(False, 0.0, None))[2]


def last_look(knowledge: Knowledge, ready: Readiness) -> list[str]:
    """The causes that are most worth a last look where nothing stands out: their titles."""
    cleared = ready.dosing.causes if ready.dosing else {}
    open_ = [cause for cause in ready.due if cause not in cleared]
    worst = sorted(open_, key=lambda cause: (-round(ready.due[cause], 9), cause))[:WORTH_A_LOOK]
    return [knowledge.causes[cause].title for cause in worst]


def grounds(ready: Readiness) -> str:
    """What the chances rest on."""
    usually = counted(ready.job.spoilt)
    whose = "an assumption; --spoilt says your own" if ready.job.spoilt == SPOILT else "as you said"
    return (
        "On what this rests: the chances in the rules count jobs at the bench, not every press, so they are made "
        f"smaller until usual presses go wrong as often as {usually} ({whose}). What you say of this job, what the "
        "goods are and what the heat model makes of the settings count in full. Stop: as likely spoilt as not. Care: "
        "twice the usual, or a change that saves more than it costs."
    )


def first_sentence(text: str) -> str:
    """The first sentence of a text."""
    head, stop, _ = text.partition(". ")
    return f"{head}." if stop else text


def _lower(title: str) -> str:
    return title if title[1:2].isupper() or not title[:1].isalpha() else title[0].lower() + title[1:]
