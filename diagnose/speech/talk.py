"""A consultation in words: what was found, what is believed and why, why the next step is the next, and the summary."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Cured
from diagnose.dialogue.session import MANY_IN_VAIN
from diagnose.dialogue.telling import after_this, aimed_at, spared, spoken_of, weighty, windowed
from diagnose.knowledge.conditions import FactValue, Usual, facts_asked
from diagnose.knowledge.model import Check, Fix, Knowledge
from diagnose.knowledge.shop import PRESS_NAME
from diagnose.reasoning.ranking import Suspect
from diagnose.reasoning.reasons import Finding, Reason, findings
from diagnose.speech.amounts import SIDES, day, in_words, minutes, percent, side, strength, wait
from diagnose.speech.conditions import fact_words
from diagnose.speech.heard import amount, last_good
from diagnose.speech.saying import say
from diagnose.speech.titles import cause_titled, titled

if TYPE_CHECKING:
    from diagnose.dialogue.contrast import Contrast
    from diagnose.foresight.last_good import Then
    from diagnose.foresight.readings import Reading
    from diagnose.reasoning.shaking import Steadiness

FIRM, PARTLY = 0.8, 0.5  # share of the shaken rule sets in which the step is as good as the best


@dataclass(frozen=True, slots=True)
class ToldCause:
    """A cause that comes up, in words: its title (marked where it is on trial), how likely, and each finding with
    what it does."""

    title: str
    chance: str
    reasons: tuple[str, ...]
    origin: str


# --- what was found ---


def sentence(finding: Finding, consultation: Consultation, cause: str = "") -> str:
    """One finding as a short sentence without a full stop. ``cause``: the one that a figure is told to speak of."""
    knowledge = consultation.knowledge
    match finding.kind:
        case "reading":
            return _reading(finding.id, consultation, cause)
        case "seen":
            return say("seen", defect=knowledge.defects[finding.id].title)
        case "not-seen":
            return say("not-seen", defect=knowledge.defects[finding.id].title)
        case "lately":
            found = next(each for each in consultation.session.found_lately if each.cause == finding.id)
            return say("found-lately", day=day(found.on), cause=knowledge.causes[finding.id].title)
        case "then":
            return then_and_now(next(t for t in consultation.then_and_now if t.kind == finding.id), consultation)
        case "press":
            return say("this-press", known=finding.detail)
        case "named":
            return say("you-named", cause=knowledge.causes[finding.id].title)
        case "tried":
            return say("tried", fix=titled(knowledge.fixes[finding.id]), change=finding.detail)
    check = knowledge.checks[finding.id]
    return say("answered", check=titled(check), looks=check.outcome(finding.detail).looks)


def _reading(measure: str, consultation: Consultation, cause: str) -> str:
    from diagnose.speech.readings import weighed

    reading = next(each for each in consultation.readings if each.id == measure)
    what = spoken(reading, consultation)
    return say("reading-speaks", reading=what, speaks=weighed(reading, cause)) if cause in reading.ratios else what


def then_and_now(each: "Then", consultation: Consultation) -> str:
    """One thing of the last good piece held against this one, without a full stop."""
    good = consultation.session.last_good
    on = day(good.on) if good else ""
    if each.way == "alike":
        return say("then-alike", kind=each.kind, day=on)
    was, now = _both(each, consultation)
    return say("then-differs", kind=each.kind, day=on, was=was, now=now)


def _both(each: "Then", consultation: Consultation) -> tuple[str, str]:
    """What was so then and what is so now, as they are told."""
    unit = consultation.shop.temperature
    was, now = (amount(each.kind, v, unit) if isinstance(v, float | int) else v for v in (each.was, each.now))
    return was, now


def recalled(consultation: Consultation) -> str:
    """The last good piece and what differs from it now, without a full stop; "" where the shop knows of none."""
    good = consultation.session.last_good
    if good is None:
        return ""
    last, held = last_good(good, consultation.shop.temperature), consultation.then_and_now
    other = [each for each in held if each.way != "alike"]
    if not other:
        return say("nothing-differs", last=last) if held else last
    told = [(each.kind, *_both(each, consultation)) for each in other]
    what = ", ".join(say("then-what", kind=kind, was=was, now=now) for kind, was, now in told)
    return say("now-differs", last=last, what=what)


def spoken(reading: "Reading", consultation: Consultation) -> str:
    """What a figure comes to, in the shop's units."""
    from diagnose.speech.readings import told

    return told(reading, consultation.shop.temperature)


def reckoned(consultation: Consultation) -> str:
    """What the press gave by the figures, in one sentence without a full stop; "" where they are not enough."""
    if consultation.reckoned is None:
        return ""
    from diagnose.speech.readings import reckoned

    return reckoned(consultation.reckoned, consultation.shop.temperature)


def steps_of(fix: Fix, consultation: Consultation) -> tuple[str, ...]:
    """What is done: where a figure says what to set, that in place of reading it again."""
    if not (fix.by_figure and consultation.readings):
        return fix.steps
    from diagnose.foresight.setting_right import set_right
    from diagnose.speech.readings import put

    tried, item = consultation.evidence.tried, consultation.item
    right = set_right(fix, consultation.readings, tried, item, consultation.knowledge)
    if right is None:
        return fix.steps
    return put(right, consultation.shop.temperature, item.settings if item else None), fix.steps[-1]


def window(check_id: str, consultation: Consultation) -> str:
    """The item's window, where the answer to a check is a figure that lies within it or not; else ""."""
    measure, item = windowed(consultation, check_id), consultation.item
    if not (measure and item and item.settings):
        return ""
    from diagnose.speech.readings import window_of

    return say(
        "window-of-item", item=item.title, window=window_of(measure, item.settings, consultation.shop.temperature)
    )


def seen(defects: tuple[str, ...], knowledge: Knowledge) -> str:
    """The titles of defects, joined for one line."""
    return " · ".join(knowledge.defects[defect].title for defect in defects)


# --- what is believed and why ---


def told(consultation: Consultation, most: int) -> list[ToldCause]:
    """The likeliest causes that come up, at most ``most``, with their reasons."""
    return [_told(consultation, suspect) for suspect in consultation.suspects[:most]]


def _told(consultation: Consultation, suspect: Suspect) -> ToldCause:
    return ToldCause(
        cause_titled(consultation, suspect.cause),
        in_words(suspect.behind, consultation.knowledge.scale),
        tuple(_reason(reason, consultation, suspect.cause) for reason in weighty(consultation, suspect)),
        consultation.knowledge.causes[suspect.cause].origin,
    )


def _reason(reason: Reason, consultation: Consultation, cause: str) -> str:
    return say("reason", finding=sentence(reason.finding, consultation, cause), weight=side(reason.weight))


def what_would_change(consultation: Consultation, most: int = 3) -> Iterator[str]:
    """Answers that would put another cause first."""
    for turn in consultation.turns[:most]:
        check = consultation.knowledge.checks[turn.check]
        yield say(
            "would-put-first",
            check=titled(check),
            looks=check.outcome(turn.outcome).looks,
            cause=cause_titled(consultation, consultation.net.causes[turn.leads]),
            percent=percent(turn.probability),
        )


def rather(consultation: Consultation, found: "Contrast") -> Iterator[str]:
    """One cause held against another: how likely each is, then what speaks for which, then what would part them."""
    knowledge, index, behind = consultation.knowledge, consultation.net.index, consultation.beliefs.behind
    one, other = (knowledge.causes[cause].title for cause in (found.one, found.other))
    yield say(
        "rather-than",
        one=one,
        one_chance=percent(behind[index[found.one]]),
        other=other,
        other_chance=percent(behind[index[found.other]]),
    )
    if abs(found.usual) >= SIDES[-2][0]:
        yield say("turns-up-oftener", cause=one if found.usual > 0 else other, how=strength(found.usual))
    for reason in found.reasons:
        finding, cause = sentence(reason.finding, consultation), one if reason.weight > 0 else other
        yield say("speaks-rather", finding=finding, how=strength(reason.weight), cause=cause)
    if found.checks:
        yield say("would-part-them", checks="; ".join(titled(knowledge.checks[check]) for check in found.checks))


def steady(found: "Steadiness") -> str:
    """How far the next step hangs on the numbers of the rules."""
    share = found.good / found.all
    verdict = "firm" if share >= FIRM else "partly" if share >= PARTLY else "loose"
    return say("hangs-on-numbers", verdict=verdict, best=found.best, good=found.good, all=found.all)


def caveat(consultation: Consultation) -> str:
    """A warning where the numbers are bounded and not exact, else ""."""
    return "" if consultation.beliefs.exact else say("not-exact")


# --- why the next step is the next step ---


def why_step(consultation: Consultation) -> str:
    """What speaks for the step advised now."""
    advice = consultation.advice
    if advice.kind == "check":
        return why_check(consultation, advice.id)
    if advice.kind == "fix":
        return why_fix(consultation, advice.id)
    return say("help-costs-less") if any(option.step for option in advice.options) else say("nothing-left")


def why_check(consultation: Consultation, check_id: str) -> str:
    """Which of the causes that come up this check speaks of, and what asking it first saves."""
    if consultation.knowledge.checks[check_id].asks_for:
        return say("tells-what-fits")
    titles = [cause_titled(consultation, suspect.cause) for suspect in spoken_of(consultation, check_id)]
    tells = say("tells-whether", causes="; ".join(titles)) if titles else say("narrows-down")
    return " ".join(filter(None, (tells, _saves(*spared(consultation, check_id)))))


def _saves(work: float, waiting: float) -> str:
    """What asking first saves, in minutes; "" where it saves next to nothing."""
    if work and waiting:
        return say("asking-saves-both", minutes=minutes(work), wait=wait(waiting))
    if waiting:
        return say("asking-saves-waiting", wait=wait(waiting))
    return say("asking-saves", minutes=minutes(work)) if work else ""


def questions_after(consultation: Consultation) -> str:
    """About how many questions come after the one that is asked now."""
    return say("about-more-questions", count=after_this(consultation))


def look_again(consultation: Consultation, check: Check) -> str:
    """What is said before a check that was answered already; "" where it is asked for the first time."""
    outcome = consultation.doubted.get(check.id)
    return say("look-again", looks=check.outcome(outcome).looks) if outcome else ""


def look_afresh(consultation: Consultation) -> str:
    """What is said after fixes that changed nothing: what was seen may be something else; "" where none is due."""
    many, left = consultation.session.in_vain, consultation.evidence.left
    if many < MANY_IN_VAIN or not left:
        return ""
    titles = [consultation.knowledge.defects[defect].title for defect in left]
    return say("look-afresh", many=many, count=len(left), seen=", ".join(titles))


def why_fix(consultation: Consultation, fix_id: str) -> str:
    """What this fix puts right: the causes it pays for most, each with how likely it is and how surely it is cured."""
    cures = consultation.net.cures[fix_id]
    aimed = [
        say(
            "cure",
            cause=cause_titled(consultation, suspect.cause),
            likely=percent(suspect.behind),
            cured=percent(cures[suspect.index]),
        )
        for suspect in aimed_at(consultation, fix_id)
    ]
    return say("puts-right", causes="; ".join(aimed)) if aimed else say("cheapest-left")


# --- the case so far, to paste into a message to a supplier or a technician ---


def summary(consultation: Consultation) -> list[str]:
    """Item, facts, what was seen, answered and tried, and what is believed; one line each, no styling."""
    return [line for part in (_job, _findings, _could_not, _beliefs, _ending) for line in part(consultation)]


def _job(consultation: Consultation) -> Iterator[str]:
    yield say("item", item=consultation.item.title) if consultation.item else say("item-not-named")
    if press := consultation.press:
        known = "; ".join(each.told for each in press.known)
        yield say("press-known", press=press.title, known=known) if known else say("press", press=press.title)
    if last := recalled(consultation):
        yield f"{last}."
    job = {fact: value for fact, value in sorted(consultation.job.items()) if fact != PRESS_NAME}
    if told := [_fact(consultation, fact, value) for fact, value in job.items() if not isinstance(value, Usual)]:
        yield say("facts-known", facts="; ".join(told))
    unchecked = {fact: value.value for fact, value in job.items() if isinstance(value, Usual)}
    asked = facts_asked([facts for _, facts in consultation.read])
    if usual := [_fact(consultation, fact, value) for fact, value in unchecked.items() if fact not in asked]:
        yield say("facts-usual", facts="; ".join(usual))


def _fact(consultation: Consultation, fact: str, value: FactValue) -> str:
    return fact_words(fact, value, consultation.knowledge.facts)


def _findings(consultation: Consultation) -> Iterator[str]:
    for finding, _ in findings(consultation.evidence):
        yield f"- {sentence(finding, consultation)}"


def _could_not(consultation: Consultation) -> Iterator[str]:
    """What nobody could check or do: whoever takes over begins there."""
    knowledge, session = consultation.knowledge, consultation.session
    for check in filter(knowledge.checks.__contains__, session.untold):
        yield f"- {say('could-not-tell', check=titled(knowledge.checks[check]))}"
    for fix in sorted(session.set_aside & set(knowledge.fixes)):
        yield f"- {say('could-not-do', fix=titled(knowledge.fixes[fix]))}"


def _beliefs(consultation: Consultation) -> Iterator[str]:
    if isinstance(consultation.session.over, Cured) or not consultation.suspects:
        return
    yield say("may-be-behind")
    for suspect in consultation.suspects[:5]:
        chance = in_words(suspect.behind, consultation.knowledge.scale)
        yield f"- {say('suspect', cause=cause_titled(consultation, suspect.cause), chance=chance)}"


def _ending(consultation: Consultation) -> Iterator[str]:
    ended = consultation.session.over
    if isinstance(ended, Cured):
        fix = consultation.knowledge.fixes.get(ended.fix)
        yield say("cured-by", fix=titled(fix)) if fix else say("cured")
