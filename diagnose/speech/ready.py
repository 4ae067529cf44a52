"""What is to be expected of a job, in sentences: the screen, JSON and handbook say the same."""

from collections.abc import Iterator
from typing import Final

from diagnose.foresight.job import doubted
from diagnose.foresight.ready import Readiness, Remedy, Risk, remedy
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import SPOILT, Shop
from diagnose.speech.amounts import counted, degrees_between, in_words, money, percent, seconds_between
from diagnose.speech.saying import say
from diagnose.speech.titles import titled

ABOUT: Final = {"set-temp-low": "heat", "set-temp-high": "heat", "dwell-short": "time", "dwell-long": "time"}


def verdict_words(ready: Readiness) -> str:
    """Whether to press, in a word or three."""
    return say("verdict", verdict=ready.verdict)


def expected(ready: Readiness, shop: Shop) -> Iterator[str]:
    """How many pieces are likely spoilt, beside the usual, and what that costs."""
    likely, usually = counted(ready.spoilt), counted(ready.usual)
    if ready.as_usual:
        yield say("nothing-stands-out", likely=likely, usually=usually)
        return
    yield say("spoilt-as-it-stands", likely=likely, usually=usually)
    lost, usual = (money(value, shop.currency) for value in (ready.loss, ready.usual_loss))
    yield say("expected-loss", pieces=ready.job.pieces, lost=lost, usual=usual)


def risk_words(knowledge: Knowledge, risk: Risk) -> str:
    """A defect, how sure it is, and from what."""
    causes = [
        say("risk-cause", cause=_lower(knowledge.causes[cause].title), percent=percent(chance))
        for cause, chance in risk.leading
    ]
    return say(
        "risk",
        defect=knowledge.defects[risk.defect].title,
        chance=in_words(risk.chance, knowledge.scale),
        usual=counted(risk.usual),
        causes="; ".join(causes),
    )


def change_words(knowledge: Knowledge, ready: Readiness, change: Remedy, shop: Shop) -> tuple[str, str]:
    """What to change, and why it is worth it."""
    by_itself = say("spoils-by-itself", chance=counted(change.spoils))
    statement = change.statement
    if statement:
        return f"{_state(knowledge, ready, change)} {statement.do}", f"{statement.why} {by_itself}"
    cause = knowledge.causes[change.causes[0]]
    fix = remedy(knowledge, shop.rates, ready, cause.id)
    titles = [cause.title, *([titled(fix)] if fix else [])]
    do = [*(say("stated", words=title) for title in titles), listed_window(ready, cause.id, shop)]
    return " ".join(filter(None, do)), f"{first_sentence(cause.about)} {by_itself}"


def listed_window(ready: Readiness, cause: str, shop: Shop) -> str:
    """What the item's list says of the setting that a cause is about; "" where it is about none."""
    settings = ready.job.item.settings if ready.job.item else None
    if settings is None or cause not in ABOUT:
        return ""
    if ABOUT[cause] == "heat":
        return say("listed-window", window=degrees_between(settings.temperature, shop.temperature))
    return say("listed-window", window=seconds_between(settings.dwell))


def _state(knowledge: Knowledge, ready: Readiness, change: Remedy) -> str:
    """How it stands with the statement behind a change."""
    assert change.statement is not None
    sure = {one.id: much for one, much in doubted(ready.job, knowledge)}.get(change.statement.id)
    state = "open" if sure is None else "not-so" if sure == 1.0 else "doubted"
    return say("statement", statement=change.statement.title, state=state)


def grounds(ready: Readiness) -> str:
    """What the chances rest on."""
    whose = "assumed" if ready.job.spoilt == SPOILT else "told"
    return say("ready-rests-on", usually=counted(ready.job.spoilt), whose=whose)


def first_sentence(text: str) -> str:
    """The first sentence of a text."""
    head, stop, _ = text.partition(". ")
    return say("stated", words=head) if stop else text


def _lower(title: str) -> str:
    return title if title[1:2].isupper() or not title[:1].isalpha() else title[0].lower() + title[1:]
