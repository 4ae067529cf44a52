"""How a check, a fix, a belief and an ending look on the screen. Cautions come before the step they belong to."""

from collections.abc import Collection, Iterable

from diagnose.cli.terminal.screen import Screen
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.contrast import contrast
from diagnose.dialogue.telling import care_note, what_to_tell
from diagnose.dialogue.telling import cautions as step_cautions
from diagnose.knowledge.cautions import in_brief
from diagnose.knowledge.model import SHIPPED, Check, Entry, Fix, Knowledge, Spends
from diagnose.reasoning.words.shares import COLOUR
from diagnose.speech.amounts import fix_taking, taking, used_up
from diagnose.speech.heard import goods
from diagnose.speech.saying import say
from diagnose.speech.talk import (
    caveat,
    look_again,
    questions_after,
    rather,
    reckoned,
    seen,
    steps_of,
    summary,
    told,
    what_would_change,
    why_check,
    why_fix,
    why_step,
    window,
)
from diagnose.speech.titles import cause_titled, whose

KINDS = {"look": "Look", "ask": "Say", "measure": "Measure", "try": say("try-out")}


def cautions(
    screen: Screen,
    knowledge: Knowledge,
    ids: Iterable[str],
    warned: set[str] | None = None,
    brief: Collection[str] = (),
) -> None:
    """Each caution with its mark, before the step: whole at first, by its title alone once it is in ``warned``, or
    where it is told in ``brief``."""
    known = set() if warned is None else warned
    for caution_id in ids:
        caution = knowledge.cautions[caution_id]
        short = caution_id in known or caution_id in brief
        screen.hang("!", f"{caution.title}." if short else f"{caution.title}. {caution.text}", style="caution")
        known.update({caution_id} - {*brief})


def _before(screen: Screen, consultation: Consultation, step: Check | Fix, warned: set[str] | None) -> None:
    known, ids = consultation.knowledge, step_cautions(consultation, step)
    cautions(screen, known, ids, warned, in_brief(known.cautions, step, ids))


def heading(screen: Screen, consultation: Consultation) -> None:
    """What is pressed, on which press, and what is wrong with it, on top of a step."""
    facts = {fact: value for fact, value in consultation.session.facts.items() if fact != COLOUR}
    item = goods(consultation.knowledge, consultation.session.item, facts)
    press = consultation.press.title if consultation.press else ""
    left = seen(consultation.evidence.left, consultation.knowledge)
    screen.rule()
    screen.line(" · ".join(filter(None, (item, press, left))), "dim")


def check_card(screen: Screen, consultation: Consultation, check: Check, warned: set[str] | None = None) -> None:
    """A question with its numbered outcomes."""
    own = "" if check.origin == SHIPPED else f" · {whose(check)}"
    price = f"{taking(check)}{spent(check.spends, consultation.shop.currency)}"
    screen.line(f"{KINDS[check.kind]} · {price}{own} · {questions_after(consultation)}", "dim")
    screen.line(check.asks, "title")
    if words := look_again(consultation, check):
        screen.line(words)
    if right := window(check.id, consultation):
        screen.line(right)
    _before(screen, consultation, check, warned)
    for number, outcome in enumerate(check.outcomes, 1):
        screen.hang(f"{number}", outcome.looks, style="key", indent=2)


def check_help(screen: Screen, consultation: Consultation, check: Check) -> None:
    """Why this question, and how to do it."""
    screen.line(why_check(consultation, check.id))
    if check.needs:
        screen.line(say("you-need", needs=", ".join(check.needs)))
    _numbered(screen, check.how)
    screen.line(say("basis", basis=basis(consultation.knowledge, check.basis)), "dim")


def fix_card(screen: Screen, consultation: Consultation, fix: Fix, warned: set[str] | None = None) -> None:
    """A fix with its cautions, its steps and the test press that ends it."""
    shop = consultation.shop
    tail = spent(fix.spends, shop.currency)
    screen.line(fix_taking(fix, shop.rates.test_minutes(consultation.item), tail), "dim")
    screen.line(titled(fix), "title")
    screen.line(why_fix(consultation, fix.id), "dim")
    _before(screen, consultation, fix, warned)
    _numbered(screen, (*steps_of(fix, consultation), say("press-one-test-piece-and-look")))
    afterwards_lines(screen, consultation)


def fix_help(screen: Screen, consultation: Consultation, fix: Fix) -> None:
    """What the causes that it puts right are about, those that come up now, the cautions that its card told in brief,
    and on whose word it rests."""
    up = [suspect.cause for suspect in consultation.suspects if suspect.cause in fix.cures]
    for cause_id in up or fix.cures:
        cause = consultation.knowledge.causes[cause_id]
        screen.hang("-", f"{cause_titled(consultation, cause_id)}: {cause.about}")
    known, ids = consultation.knowledge, step_cautions(consultation, fix)
    brief = in_brief(known.cautions, fix, ids)
    cautions(screen, known, (one for one in ids if one in brief))
    screen.line(say("basis", basis=basis(known, fix.basis)), "dim")


def beliefs_card(screen: Screen, consultation: Consultation, most: int = 5) -> None:
    """What is believed so far and why, and what would change it."""
    causes = told(consultation, most)
    if not causes:
        screen.line(say("nothing-explains-this"))
    for number, cause in enumerate(causes, 1):
        origin = "" if cause.origin == SHIPPED else f" [{cause.origin}]"
        screen.hang(f"{number}", f"{cause.title}{origin}: {cause.chance}", style="key")
        for reason in cause.reasons:
            screen.hang("-", reason, indent=3)
    if words := reckoned(consultation):
        screen.line(f"{words}.")
    changes = list(what_would_change(consultation))
    if changes:
        screen.line(say("what-would-change-this"))
    for change in changes:
        screen.hang("-", change, indent=1)
    if warning := caveat(consultation):
        screen.line(warning, "caution")


def contrast_card(screen: Screen, consultation: Consultation, one: str, other: str) -> None:
    """Why the one cause and not the other."""
    head, *lines = rather(consultation, contrast(consultation, one, other))
    screen.line(head, "title")
    for line in lines:
        screen.hang("-", line)


def call_card(screen: Screen, consultation: Consultation) -> None:
    """Why help is called for, and the summary to send."""
    screen.line(say("call-for-help"), "title")
    screen.line(why_step(consultation))
    screen.line(say("send-this-to-your-supplier"))
    summary_card(screen, consultation)


def summary_card(screen: Screen, consultation: Consultation) -> None:
    """The case as lines to paste, between two rules."""
    screen.rule()
    summary_lines(screen, consultation)
    afterwards_lines(screen, consultation)
    screen.rule()


def afterwards_lines(screen: Screen, consultation: Consultation) -> None:
    """What becomes of the spoiled piece and of the rest of the order. What reckons it is loaded once it is told."""
    from diagnose.speech.afterwards import afterwards

    for line in afterwards(consultation):
        screen.line(line)


def summary_lines(screen: Screen, consultation: Consultation) -> None:
    """All that is known of the case, what was seen and done each with a dash."""
    for line in summary(consultation):
        mark, _, rest = line.partition(" ")
        if mark == "-":
            screen.hang("-", rest)
        else:
            screen.line(line)


def care_card(screen: Screen, consultation: Consultation) -> None:
    """The care note that goes out with the item, and what to tell a customer who came back with what was seen."""
    note = care_note(consultation)
    if note is None:
        return
    screen.line(say("care-note-to-read", title=note.title, item=consultation.session.item))
    if words := what_to_tell(consultation):
        screen.line(say("if-a-customer-came-back", words=words))


def titled(entry: Entry) -> str:
    """The title of an entry, and whose it is where it does not ship: ``The door stands open [this shop]``."""
    return entry.title if entry.origin == SHIPPED else f"{entry.title} [{whose(entry)}]"


def basis(knowledge: Knowledge, ids: Iterable[str]) -> str:
    """The sources a text rests on, by author and year, or the plain phrase it was given."""
    words = []
    for one in ids:
        source = knowledge.sources.get(one)
        words.append(f"{source.authors}, {source.year}" if source else one)
    return "; ".join(words)


def spent(spends: Spends, currency: str = "") -> str:
    """What a step uses up, as the tail of a line."""
    return "".join(f" · {part}" for part in used_up(spends, currency))


def _numbered(screen: Screen, steps: Iterable[str]) -> None:
    for number, step in enumerate(steps, 1):
        screen.hang(f"{number}.", step, indent=2)
