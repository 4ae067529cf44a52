"""One defect, cause, check, fix or item on the screen."""

from collections.abc import Iterable

from diagnose.cli import cards
from diagnose.cli.screen import Screen
from diagnose.dialogue.speech.chances import in_words, minutes
from diagnose.knowledge.care import note_on, notes_touching
from diagnose.knowledge.conditions import Condition
from diagnose.knowledge.model import SHIPPED, Entry, Knowledge, Rule


def defect_page(screen: Screen, knowledge: Knowledge, defect_id: str) -> None:
    """What it looks like, what people call it, what it is mistaken for, and its causes, the strongest first."""
    defect = knowledge.defects[defect_id]
    _title(screen, defect)
    screen.line(defect.looks)
    screen.line(f"Also called: {', '.join(defect.said)}.", "dim")
    _section(screen, "Not to be mistaken for")
    for alike in defect.look_alikes:
        screen.hang("-", f"{knowledge.defects[alike.defect].title}: {alike.tell}")
    _section(screen, "Brought on by")
    for rule in sorted(defect.rules, key=lambda r: (-r.brings.value, r.cause)):
        cause = knowledge.causes[rule.cause]
        how = in_words(rule.brings.value, knowledge.scale)
        screen.hang("-", f"{cause.title} ({how}{condition(rule.condition)}): {rule.why}")
    if notes := notes_touching(knowledge, defect_id):
        _section(screen, "Care notes it touches", (f"{note.title} [{note.id}]" for note in notes))
        screen.line("What to tell the customer: presslore care ID")
    screen.line(f"Rules: {defect.place.file}", "dim")


def cause_page(screen: Screen, knowledge: Knowledge, cause_id: str) -> None:
    """What it is, what it brings on, how to find it, and what puts it right."""
    cause = knowledge.causes[cause_id]
    _title(screen, cause)
    screen.line(cause.about)
    screen.line(f"How often it turns up: {in_words(cause.turns_up.value, knowledge.scale)}")
    _section(screen, "Brings on")
    brought = [(rule, defect) for defect in knowledge.defects.values() for rule in defect.rules]
    for rule, defect in brought:
        if rule.cause == cause_id:
            screen.hang(
                "-",
                f"{defect.title} ({in_words(rule.brings.value, knowledge.scale)}{condition(rule.condition)})",
            )
    _section(screen, "How to find it")
    for check in knowledge.checks.values():
        shown = [o for o in check.outcomes if cause_id in o.shows]
        for outcome in shown:
            how = in_words(outcome.shows[cause_id].value, knowledge.scale)
            screen.hang("-", f"{check.title}: {outcome.looks} ({how}) [{check.id}]")
    _section(screen, "What puts it right")
    for fix in knowledge.fixes.values():
        if cause_id in fix.cures:
            screen.hang(
                "-", f"{fix.title} ({in_words(fix.cures[cause_id].value, knowledge.scale)}) [{fix.id}]"
            )


def check_page(screen: Screen, knowledge: Knowledge, check_id: str) -> None:
    """The question, how to answer it, and what each outcome says."""
    check = knowledge.checks[check_id]
    _title(screen, check)
    screen.line(check.asks)
    screen.line(f"{minutes(check.minutes)}{cards.spent(check.spends)}{condition(check.condition)}", "dim")
    cards.cautions(screen, knowledge, check.cautions)
    for number, step in enumerate(check.how, 1):
        screen.hang(f"{number}.", step, indent=2)
    _section(screen, "Outcomes")
    for outcome in check.outcomes:
        screen.hang("-", f"{outcome.looks} [{outcome.id}]")
        for cause, chance in outcome.shows.items():
            screen.hang(
                "-", f"{knowledge.causes[cause].title}: {in_words(chance.value, knowledge.scale)}", indent=4
            )


def fix_page(screen: Screen, knowledge: Knowledge, fix_id: str) -> None:
    """Cautions, steps, and which causes it puts right."""
    fix = knowledge.fixes[fix_id]
    _title(screen, fix)
    screen.line(f"{minutes(fix.minutes)}{cards.spent(fix.spends)}{condition(fix.condition)}", "dim")
    cards.cautions(screen, knowledge, fix.cautions)
    for number, step in enumerate(fix.steps, 1):
        screen.hang(f"{number}.", step, indent=2)
    _section(screen, "Puts right")
    for cause, chance in fix.cures.items():
        screen.hang("-", f"{knowledge.causes[cause].title} ({in_words(chance.value, knowledge.scale)})")


def item_page(screen: Screen, knowledge: Knowledge, item_id: str) -> None:
    """What is known of the item, and how it is pressed."""
    item = knowledge.items[item_id]
    _title(screen, item)
    cards.cautions(screen, knowledge, item.cautions)
    for fact, value in item.facts.items():
        known = knowledge.facts[fact]
        shown = ("yes" if value else "no") if isinstance(value, bool) else f"{value} {known.unit}".strip()
        screen.hang("-", f"{known.title}: {shown}")
    if item.settings:
        _section(screen, "How it is pressed")
        low, high = item.settings.temperature
        screen.hang("-", f"{low:g}–{high:g} °C ({low * 1.8 + 32:.0f}–{high * 1.8 + 32:.0f} °F)")
        screen.hang(
            "-", f"{item.settings.dwell[0]:g}–{item.settings.dwell[1]:g} s, {item.settings.pressure} pressure"
        )
        screen.hang("-", f"peel {item.settings.peel}, after {item.settings.settle:g} s")
        if item.settings.note:
            screen.hang("-", item.settings.note)
    if note := note_on(knowledge, item_id):
        _section(screen, "Care note", [f"{note.title} [{note.id}]: presslore care {item_id}"])
    screen.line("The blank maker's own instructions come first.", "dim")
    screen.line(f"Basis: {cards.basis(knowledge, item.basis)}", "dim")


def condition(condition: Condition) -> str:
    """A condition as the tail of a sentence: ``, where item.polyester is < 95``."""
    parts = [
        f"{test.fact} is {test.written or ' or '.join(map(str, test.values))}" for test in condition.tests
    ]
    return f", where {' and '.join(parts)}" if parts else ""


def said_where(rule: Rule) -> str:
    """Where a rule stands and on whose word."""
    trial = " · on trial" if rule.status != "settled" else ""
    own = "" if rule.origin == SHIPPED else f" · {rule.origin}"
    return f"{rule.place} · basis: {'; '.join(rule.basis)} · {rule.date}{trial}{own}"


def _title(screen: Screen, entry: Entry) -> None:
    own = "" if entry.origin == SHIPPED else f" [{entry.origin}]"
    screen.line(f"{entry.title}{own}", "title")


def _section(screen: Screen, title: str, lines: Iterable[str] = ()) -> None:
    screen.line()
    screen.line(title, "title")
    for line in lines:
        screen.hang("-", line)
