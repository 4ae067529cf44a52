"""One defect, cause, check, fix or item on the screen."""

from collections.abc import Iterable

from diagnose.cli.lookup import cards
from diagnose.cli.shop.shelf import Shelf
from diagnose.cli.terminal.screen import Screen
from diagnose.foresight.settings import barred
from diagnose.knowledge.care import note_on, notes_touching
from diagnose.knowledge.cautions import at_a_press, before, in_brief
from diagnose.knowledge.conditions import Condition
from diagnose.knowledge.model import SHIPPED, Entry, Knowledge, Rule
from diagnose.knowledge.trial import on_trial, rests_on_trial
from diagnose.speech.amounts import degrees_between, in_words, taking
from diagnose.speech.conditions import condition_words, fact_words
from diagnose.speech.saying import say
from diagnose.speech.titles import marked, titled
from diagnose.speech.titles import whose as origin

NAMES_SHOWN = 12


def defect_page(screen: Screen, shelf: Shelf, defect_id: str) -> None:
    """What it looks like, what people call it, what it is mistaken for, and its causes, the strongest first."""
    knowledge = shelf.knowledge
    defect = knowledge.defects[defect_id]
    _title(screen, defect)
    screen.line(defect.looks)
    more = len(defect.said) - NAMES_SHOWN
    others = f", and {more} more" if more > 0 else ""
    screen.line(say("also-called", names=", ".join(defect.said[:NAMES_SHOWN]), others=others), "dim")
    _section(screen, say("not-to-be-mistaken-for"))
    for alike in defect.look_alikes:
        screen.hang("-", f"{knowledge.defects[alike.defect].title}: {alike.tell}")
    _section(screen, say("brought-on-by"))
    for rule in sorted(defect.rules, key=lambda r: (-r.brings.value, r.cause)):
        cause = knowledge.causes[rule.cause]
        title = marked(cause.title, on_trial(rule))
        how = in_words(rule.brings.value, knowledge.scale)
        own = f"; {rule.origin}" if mixed(defect.rules) else whose(rule.origin)
        screen.hang("-", f"{title} ({how}{condition(knowledge, rule.condition)}{own}): {rule.why} [{cause.id}]")
    if notes := notes_touching(knowledge, defect_id):
        _section(screen, say("care-notes-it-touches"), (f"{note.title} [{note.id}]" for note in notes))
        screen.line(say("what-to-tell-presslore-care"))
    screen.line()
    screen.line(say("on-whose-word-defect", defect=defect_id), "dim")
    screen.line(say("rules-stand-in", file=defect.place.file), "dim")


def cause_page(screen: Screen, shelf: Shelf, cause_id: str) -> None:
    """What it is, what it brings on, how to find it, and what puts it right."""
    knowledge = shelf.knowledge
    cause = knowledge.causes[cause_id]
    _title(screen, cause, say("on-trial") if rests_on_trial(knowledge, cause_id) else "")
    screen.line(cause.about)
    screen.line(say("how-often-it-turns-up", chance=in_words(cause.turns_up.value, knowledge.scale)))
    _section(screen, say("brings-on"))
    brought = [(rule, defect) for defect in knowledge.defects.values() for rule in defect.rules]
    for rule, defect in brought:
        if rule.cause == cause_id:
            screen.hang(
                "-",
                f"{marked(defect.title, on_trial(rule))} ({in_words(rule.brings.value, knowledge.scale)}"
                f"{condition(knowledge, rule.condition)}{whose(rule.origin)}) [{defect.id}]",
            )
    _section(screen, say("how-to-find-it"))
    for check in knowledge.checks.values():
        shown = [o for o in check.outcomes if cause_id in o.shows]
        for outcome in shown:
            how = in_words(outcome.shows[cause_id].value, knowledge.scale)
            screen.hang("-", f"{titled(check)}: {outcome.looks} ({how}) [{check.id}]")
    _section(screen, say("what-puts-it-right"))
    for fix in knowledge.fixes.values():
        if cause_id in fix.cures:
            screen.hang("-", f"{titled(fix)} ({in_words(fix.cures[cause_id].value, knowledge.scale)}) [{fix.id}]")


def check_page(screen: Screen, shelf: Shelf, check_id: str) -> None:
    """The question, how to answer it, and what each outcome says."""
    knowledge = shelf.knowledge
    check = knowledge.checks[check_id]
    _title(screen, check)
    screen.line(check.asks)
    screen.line(f"{taking(check)}{cards.spent(check.spends)}{condition(knowledge, check.condition)}", "dim")
    if check.needs:
        screen.line(say("you-need", needs=", ".join(check.needs)))
    cards.cautions(screen, knowledge, before(knowledge.cautions, check))
    for number, step in enumerate(check.how, 1):
        screen.hang(f"{number}.", step, indent=2)
    _section(screen, "Outcomes")
    for outcome in check.outcomes:
        screen.hang("-", f"{outcome.looks} [{outcome.id}]")
        for cause, chance in outcome.shows.items():
            screen.hang("-", f"{_cause(knowledge, cause)}: {in_words(chance.value, knowledge.scale)}", indent=4)
    _basis(screen, knowledge, check)


def fix_page(screen: Screen, shelf: Shelf, fix_id: str) -> None:
    """Cautions, steps, and which causes it puts right."""
    knowledge = shelf.knowledge
    fix = knowledge.fixes[fix_id]
    _title(screen, fix)
    screen.line(f"{taking(fix)}{cards.spent(fix.spends)}{condition(knowledge, fix.condition)}", "dim")
    ids = before(knowledge.cautions, fix)
    cards.cautions(screen, knowledge, ids, brief=in_brief(knowledge.cautions, fix, ids))
    for number, step in enumerate(fix.steps, 1):
        screen.hang(f"{number}.", step, indent=2)
    _section(screen, say("puts-right-title"))
    for cause, chance in fix.cures.items():
        screen.hang("-", f"{_cause(knowledge, cause)} ({in_words(chance.value, knowledge.scale)}) [{cause}]")
    _basis(screen, knowledge, fix)


def item_page(screen: Screen, shelf: Shelf, item_id: str) -> None:
    """What is known of the item, and how it is pressed, in the shop's unit of temperature."""
    knowledge = shelf.knowledge
    item = knowledge.items[item_id]
    _title(screen, item)
    cards.cautions(screen, knowledge, at_a_press(knowledge.cautions, item))
    for fact, value in item.job.items():
        screen.hang("-", fact_words(fact, value, knowledge.facts))
    against = barred(knowledge, item.facts)
    for statement in against:
        screen.hang("!", say("not-pressed", why=statement.why, do=statement.do), style="bad")
    if item.settings and not against:
        _section(screen, say("how-it-is-pressed"))
        screen.hang("-", degrees_between(item.settings.temperature, shelf.shop.temperature))
        screen.hang("-", f"{item.settings.dwell[0]:g}–{item.settings.dwell[1]:g} s, {item.settings.pressure} pressure")
        wait = f", after {item.settings.settle:g} s" if item.settings.settle else ""
        screen.hang("-", f"peel {item.settings.peel}{wait}")
        if item.settings.note:
            screen.hang("-", item.settings.note)
        screen.hang("-", f"how it is made ready, laid, held and covered: presslore settings {item_id}")
    if note := note_on(knowledge, item_id):
        _section(screen, say("care-note-title"), [f"{note.title} [{note.id}]: presslore care {item_id}"])
    screen.line(say("makers-instructions-first"), "dim")
    _basis(screen, knowledge, item)


def condition(knowledge: Knowledge, condition: Condition) -> str:
    """A condition as the tail of a sentence: ``; only for polyester share: under 95 %``."""
    words = condition_words(condition, knowledge.facts)
    return f"; only for {words}" if words else ""


def said_where(rule: Rule, *, both: bool = False) -> str:
    """Where a rule stands and on whose word; whose it is where it does not ship, or ``both`` sorts occur."""
    trial = f" · {say('on-trial')}" if on_trial(rule) else ""
    own = f" · {rule.origin}" if both or rule.origin != SHIPPED else ""
    cases = f" · learnt from: {', '.join(rule.learned_from)}" if rule.learned_from else ""
    return f"{rule.place} · basis: {'; '.join(rule.basis)} · {rule.date}{trial}{own}{cases}"


def mixed(rules: Iterable[Rule]) -> bool:
    """Whether some of the rules ship and some are the shop's own."""
    return len({rule.origin for rule in rules}) > 1


def whose(origin: str) -> str:
    """Where something comes from as the tail of a bracket: ``; this shop``; "" where it ships."""
    return "" if origin == SHIPPED else f"; {origin}"


def _title(screen: Screen, entry: Entry, trial: str = "") -> None:
    own = ", ".join(filter(None, ("" if entry.origin == SHIPPED else origin(entry), trial)))
    screen.line(f"{entry.title} [{own}]" if own else entry.title, "title")


def _cause(knowledge: Knowledge, cause: str) -> str:
    return marked(knowledge.causes[cause].title, rests_on_trial(knowledge, cause))


def _basis(screen: Screen, knowledge: Knowledge, entry: Entry) -> None:
    if entry.basis:
        screen.line(say("basis", basis=cards.basis(knowledge, entry.basis)), "dim")


def _section(screen: Screen, title: str, lines: Iterable[str] = ()) -> None:
    screen.line()
    screen.line(title, "title")
    for line in lines:
        screen.hang("-", line)
