"""How a case of the casebook looks on the screen: as a line of a list, and whole."""

from collections.abc import Mapping

from diagnose.casebook.case import BY_HAND, CURED, HANDED_OVER, Case
from diagnose.casebook.looking_back import looked_back
from diagnose.cli.lookup.cards import summary_lines
from diagnose.cli.shop.bookcase import short
from diagnose.cli.shop.shelf import Shelf
from diagnose.cli.terminal.screen import Screen
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.saving import unknown_ids
from diagnose.knowledge.model import Entry, Knowledge
from diagnose.speech.amounts import in_words, minutes, money
from diagnose.speech.saying import say

ENDED = {CURED: "cured", HANDED_OVER: "handed over"}
MOST_CAUSES, LEAST = 4, 0.02  # shown as behind a case, and from which chance on


def titled(entries: Mapping[str, Entry], entry_id: str) -> str:
    """The title of an id, or the id itself where it is no longer known."""
    return entries[entry_id].title if entry_id in entries else entry_id


def case_line(screen: Screen, knowledge: Knowledge, case: Case) -> None:
    """A case in the list: what names it, when it ended and how, and what it was about."""
    seen = " · ".join(titled(knowledge.defects, defect) for defect in case.session.evidence.seen)
    item = titled(knowledge.items, case.session.item) if case.session.item else say("unnamed-item")
    told = [f"{case.ended:%Y-%m-%d}", ENDED.get(case.ending, "open"), f"{item}: {seen or 'nothing seen'}"]
    screen.hang(short(case), "  ".join(told), style="key")


def case_page(screen: Screen, shelf: Shelf, case: Case) -> None:
    """A whole case: what was seen, answered and tried, what cured it, what it cost, what was behind it."""
    knowledge, shop = shelf.knowledge, shelf.shop
    screen.line(say("case", id=case.id), "title")
    how = ENDED.get(case.ending, "left open")
    source = ", written down by hand" if case.source == BY_HAND else ""
    screen.line(f"{case.ended:%Y-%m-%d %H:%M} UTC, {how}{f', press {case.press}' if case.press else ''}{source}")
    if missing := sorted(unknown_ids(case.session, knowledge)):
        screen.line(say("case-speaks-of-unknown", missing=", ".join(missing)))
        return
    consultation = Consultation(knowledge, shop, case.session)
    summary_lines(screen, consultation)
    screen.line(say("it-cost", cost_words=cost_words(case, shop.currency)))
    _behind(screen, consultation, case)
    if case.took:
        screen.line(say("how-long-the-steps-took"))
    for step, spent in sorted(case.took.items(), key=lambda pair: -pair[1]):
        entries: Mapping[str, Entry] = knowledge.checks if step in knowledge.checks else knowledge.fixes
        screen.hang("-", f"{minutes(spent)}: {titled(entries, step)}")


def cost_words(case: Case, currency: str) -> str:
    """What a case cost, as far as known: ``31 min, 2 pieces spoilt, EUR 12.40``."""
    pieces = f"{case.spoilt} piece{'' if case.spoilt == 1 else 's'} spoilt"
    known = [minutes(case.minutes) if case.minutes is not None else "", pieces]
    return ", ".join([*filter(None, known), *([money(case.lost, currency)] if case.lost is not None else [])])


def _behind(screen: Screen, consultation: Consultation, case: Case) -> None:
    found = looked_back(consultation, case)
    if found is None:
        return
    causes = [(cause, chance) for cause, chance in found.causes.items() if chance >= LEAST][:MOST_CAUSES]
    screen.line(say("most-likely-behind-it") if causes else say("nothing-known-was-behind-it"))
    for cause, chance in causes:
        screen.hang(
            "-", f"{titled(consultation.knowledge.causes, cause)}: {in_words(chance, consultation.knowledge.scale)}"
        )
