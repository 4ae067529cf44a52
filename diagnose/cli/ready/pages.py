"""Whether to press a job, on the screen and as plain JSON values."""

from typing import Any

from diagnose.cli.lookup import cards
from diagnose.cli.shop.shelf import Shelf
from diagnose.cli.terminal.screen import Screen
from diagnose.foresight.ready import CARE, GO, STOP, Readiness, Remedy, Risk, remedy
from diagnose.knowledge.cautions import at_a_press, hottest_first
from diagnose.knowledge.conditions import Usual
from diagnose.knowledge.model import SHIPPED, Fix, Item
from diagnose.speech.amounts import degrees, seconds
from diagnose.speech.ready import (
    change_words,
    expected,
    grounds,
    risk_words,
    verdict_words,
)
from diagnose.speech.saying import say

STYLES = {GO: "good", CARE: "caution", STOP: "bad"}
RISKS_SHOWN, CHANGES_SHOWN = 4, 5


def short_cautions(screen: Screen, shelf: Shelf, item: Item | None) -> None:
    """The cautions of pressing the item by their titles, and where they stand in full."""
    named = at_a_press(shelf.knowledge.cautions, item)
    cards.cautions(screen, shelf.knowledge, named, set(named))
    if item and item.settings:
        screen.line(say("settings-in-full", item=item.id), "dim")


def page(screen: Screen, shelf: Shelf, ready: Readiness, *, warned: bool) -> None:
    """The verdict, what is likely to go wrong, and what to change. ``warned``: the cautions were shown before."""
    screen.line(job_line(shelf, ready), "dim")
    if not warned:
        short_cautions(screen, shelf, ready.job.item)
    screen.line()
    screen.line(verdict_words(ready), STYLES[ready.verdict])
    for text in expected(ready, shelf.shop):
        screen.line(text)
    if ready.changes:
        screen.line()
        screen.line(say("before-you-press"), "title")
        for number, change in enumerate(ready.changes[:CHANGES_SHOWN], 1):
            _change(screen, shelf, ready, number, change)
    if ready.risks:
        screen.line()
        screen.line(say("what-is-likely-to-go-wrong"), "title")
        for risk in ready.risks[:RISKS_SHOWN]:
            screen.hang("-", risk_words(shelf.knowledge, risk))
        _why(screen, ready.risks[0])
    if not ready.changes:
        looks = _last_look(shelf, ready)
        screen.line(say("worth-a-last-look", causes="; ".join(looks)))
    screen.line()
    screen.line(grounds(ready), "dim")


def _last_look(shelf: Shelf, ready: Readiness) -> list[str]:
    return [shelf.knowledge.causes[cause].title for cause in ready.worth_a_look]


def job_line(shelf: Shelf, ready: Readiness) -> str:
    """The goods and what is set, in a line."""
    job, unit = ready.job, shelf.shop.temperature
    parts = [job.item.title if job.item else say("none-of-the-known-items")]
    parts += [f"{job.pieces} pieces"] if job.pieces > 1 else []
    parts += [degrees(job.set.temperature, unit)] if job.set.temperature is not None else []
    parts += [seconds(job.set.dwell)] if job.set.dwell is not None else []
    return " · ".join(parts)


def _change(screen: Screen, shelf: Shelf, ready: Readiness, number: int, change: Remedy) -> None:
    do, why = change_words(shelf.knowledge, ready, change, shelf.shop)
    fix = None if change.statement else remedy(shelf.knowledge, shelf.shop.rates, ready, change.causes[0])
    mind = step_cautions(shelf, change, fix)
    cards.cautions(screen, shelf.knowledge, mind, set(mind))
    origin = "" if change.statement is None or change.statement.origin == SHIPPED else f" [{change.statement.origin}]"
    screen.hang(f"{number}", f"{do}{origin}", style="key")
    screen.hang("-", why + (f" [{fix.id}]" if fix else ""), indent=2)


def step_cautions(shelf: Shelf, change: Remedy, fix: Fix | None) -> tuple[str, ...]:
    """How putting something right can hurt, beside the press that follows."""
    step = change.statement or fix
    return hottest_first(shelf.knowledge.cautions, step.cautions if step else ())


def _why(screen: Screen, risk: Risk) -> None:
    if risk.causes:
        screen.line(say("on-whose-word", cause=risk.causes[0][0], defect=risk.defect), "dim")


def to_plain(shelf: Shelf, ready: Readiness, not_understood: str) -> dict[str, Any]:
    """The same values; the shape is fixed by dialogue/schema/ready.json."""
    job, dosed = ready.job, ready.dosing
    return {
        "format": "presslore-ready",
        "version": 1,
        "item": job.item and {"id": job.item.id, "title": job.item.title, "origin": job.item.origin},
        "facts": {fact: value for fact, value in job.all_facts.items() if not isinstance(value, Usual)},
        "not_understood": [not_understood] if not_understood else [],
        "pieces": job.pieces,
        "verdict": ready.verdict,
        "spoilt": round(ready.spoilt, 6),
        "usual": round(ready.usual, 6),
        "loss": round(ready.loss, 2),
        "usual_loss": round(ready.usual_loss, 2),
        "risks": [_risk(risk) for risk in ready.risks],
        "changes": [_change_json(shelf, ready, change) for change in ready.changes],
        "last_look": _last_look(shelf, ready),
        "settings": {
            "temperature_c": job.set.temperature,
            "dwell_s": job.set.dwell,
            "platen_offset_k": job.set.offset,
            "cover_sheets": job.set.cover_sheets,
            "thickness_mm": None if job.set.thickness is None else round(job.set.thickness * 1e3, 3),
            "pressure": job.pressure or None,
            "too_little": None if dosed is None else round(dosed.little, 6),
            "too_much": None if dosed is None else round(dosed.much, 6),
            "share": None if dosed is None else round(dosed.result.share, 4),
            "share_band": None if dosed is None else [round(one, 4) for one in dosed.result.share_band],
        },
        "cautions": list(at_a_press(shelf.knowledge.cautions, job.item)),
        "assumed_spoilt": job.spoilt,
        "knowledge": shelf.knowledge.version,
        "left_out": list(shelf.files_left_out),
    }


def _risk(risk: Risk) -> dict[str, Any]:
    return {
        "defect": risk.defect,
        "chance": round(risk.chance, 6),
        "usual": round(risk.usual, 6),
        "causes": [{"cause": cause, "chance": round(chance, 6)} for cause, chance in risk.causes],
    }


def _change_json(shelf: Shelf, ready: Readiness, change: Remedy) -> dict[str, Any]:
    do, why = change_words(shelf.knowledge, ready, change, shelf.shop)
    fix = None if change.statement else remedy(shelf.knowledge, shelf.shop.rates, ready, change.causes[0])
    return {
        "statement": change.statement.id if change.statement else None,
        "causes": list(change.causes),
        "do": do,
        "why": why,
        "fix": fix.id if fix else None,
        "spoils": round(change.spoils, 6),
        "price": round(change.price, 2),
        "saves": round(change.saves, 2),
        "pays": change.pays,
        "basis": list(change.statement.basis) if change.statement else [],
        "cautions": list(step_cautions(shelf, change, fix)),
    }
