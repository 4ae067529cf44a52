"""How a check, a fix, a belief and an ending look on the screen. Cautions come before the step they belong to: marked
by their titles on its card, which fits a small screen, and in full where the person asks, or where nobody can."""

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


def in_full(screen: Screen, consultation: Consultation, step: Check | Fix, warned: set[str]) -> None:
    """Every caution of a step with its text, read or not."""
    ids = step_cautions(consultation, step)
    cautions(screen, consultation.knowledge, ids)
    warned.update(ids)


def unread(screen: Screen, consultation: Consultation, step: Check | Fix, warned: set[str]) -> None:
    """The cautions of a step that were not read in full yet, below what is to be done. Those that its test press brings
    to a fix away from the press stay told by their titles."""
    known, ids = consultation.knowledge, step_cautions(consultation, step)
    brief = in_brief(known.cautions, step, ids)
    cautions(screen, known, [one for one in ids if one not in warned and one not in brief], warned)


def _marks(screen: Screen, consultation: Consultation, step: Check | Fix) -> None:
    """The cautions of a step by their titles, each with its mark, as many beside each other as fit."""
    titles = [consultation.knowledge.cautions[one].title for one in step_cautions(consultation, step)]
    if titles:
        screen.choices([f"! {title}" for title in titles], style="caution")


def heading(screen: Screen, consultation: Consultation) -> None:
    """What is pressed, on which press, and what is wrong with it, on top of a step."""
    facts = {fact: value for fact, value in consultation.session.facts.items() if fact != COLOUR}
    item = goods(consultation.knowledge, consultation.session.item, facts)
    press = consultation.press.title if consultation.press else ""
    left = seen(consultation.evidence.left, consultation.knowledge)
    screen.rule()
    screen.line(" · ".join(filter(None, (item, press, left))), "dim")


def check_card(screen: Screen, consultation: Consultation, check: Check) -> None:
    """A question with its cautions by their titles and its numbered outcomes."""
    own = "" if check.origin == SHIPPED else f" · {whose(check)}"
    price = f"{taking(check)}{spent(check.spends, consultation.shop.currency)}"
    screen.line(f"{KINDS[check.kind]} · {price}{own} · {questions_after(consultation)}", "dim")
    screen.line(check.asks, "title")
    if words := look_again(consultation, check):
        screen.line(words)
    if right := window(check.id, consultation):
        screen.line(right)
    _marks(screen, consultation, check)
    for number, outcome in enumerate(check.outcomes, 1):
        screen.hang(f"{number}", outcome.looks, style="key", indent=2)


def check_help(screen: Screen, consultation: Consultation, check: Check, warned: set[str]) -> None:
    """Why this question, how to do it, and the cautions that were not read in full yet."""
    screen.line(why_check(consultation, check.id))
    if check.needs:
        screen.line(say("you-need", needs=", ".join(check.needs)))
    _numbered(screen, check.how)
    unread(screen, consultation, check, warned)
    screen.line(say("basis", basis=basis(consultation.knowledge, check.basis)), "dim")


def fix_card(screen: Screen, consultation: Consultation, fix: Fix) -> None:
    """A fix with its cautions by their titles, its steps and the test press that ends it."""
    shop = consultation.shop
    tail = spent(fix.spends, shop.currency)
    screen.line(fix_taking(fix, shop.rates.test_minutes(consultation.item), tail), "dim")
    screen.line(titled(fix), "title")
    screen.line(why_fix(consultation, fix.id), "dim")
    _marks(screen, consultation, fix)
    _numbered(screen, (*steps_of(fix, consultation), say("press-one-test-piece-and-look")))


def fix_help(screen: Screen, consultation: Consultation, fix: Fix, warned: set[str]) -> None:
    """What the causes that it puts right are about, those that come up now, its cautions where they were not read in
    full yet, and on whose word it rests."""
    up = [suspect.cause for suspect in consultation.suspects if suspect.cause in fix.cures]
    for cause_id in up or fix.cures:
        cause = consultation.knowledge.causes[cause_id]
        screen.hang("-", f"{cause_titled(consultation, cause_id)}: {cause.about}")
    known = consultation.knowledge
    cautions(screen, known, [one for one in step_cautions(consultation, fix) if one not in warned], warned)
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


def call_card(screen: Screen, consultation: Consultation, *, asked: bool = False) -> None:
    """Why help is called for, unless the person ``asked`` for it in place of a step, and the summary to send."""
    screen.line(say("call-for-help"), "title")
    if not asked:
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
    """What becomes of the spoiled piece and of the rest of the order; at a fix of the dialogue only where it is asked
    for, so that its answers stay in sight. What reckons it is loaded once it is told."""
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
