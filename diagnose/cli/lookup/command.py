"""Looking things up: ``presslore defects|causes|checks|fixes|items [ID]`` and ``presslore why CAUSE DEFECT``."""

import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import click

from diagnose.cli import exits
from diagnose.cli.asking.flags import Flags, known_id
from diagnose.cli.completion import ids
from diagnose.cli.lookup import pages
from diagnose.cli.options import shop_option
from diagnose.cli.shop import leaving_out, shelf
from diagnose.cli.shop.shelf import Shelf
from diagnose.cli.terminal.screen import Screen, screen_for
from diagnose.knowledge.model import Entry, Knowledge
from diagnose.knowledge.trial import on_trial, rests_on_trial
from diagnose.speech.amounts import in_words
from diagnose.speech.saying import say
from diagnose.speech.titles import marked, titled

Page = Callable[[Screen, Shelf, str], None]


def _lookup(kind: str, one: str, example: str, page: Page) -> click.Command:
    """The command that lists everything of a kind, or shows one of it."""

    def command(entry_id: str | None, shop: Path | None) -> None:
        found, screen = shelf.at(shop), screen_for(sys.stdout)
        leaving_out.tell(found)
        entries: Mapping[str, Entry] = getattr(found.knowledge, kind)
        if entry_id is None:
            screen.columns((entry.id, _listed(found.knowledge, kind, entry)) for entry in entries.values())
        else:
            page(screen, found, known_id(entry_id, entries, one))

    command.__doc__ = f"List the {kind}, or show one of them."
    made = click.command(kind, epilog=f"\b\nExamples:\n  presslore {kind}\n  presslore {kind} {example}")(command)
    return shop_option(click.argument("entry_id", metavar="[ID]", required=False, shell_complete=ids(kind))(made))


def _listed(knowledge: Knowledge, kind: str, entry: Entry) -> str:
    return marked(titled(entry), kind == "causes" and rests_on_trial(knowledge, entry.id))


defects = _lookup("defects", "defect", "ghosting", pages.defect_page)
causes = _lookup("causes", "cause", "platen-runs-cool", pages.cause_page)
checks = _lookup("checks", "check", "probe-the-platen", pages.check_page)
fixes = _lookup("fixes", "fix", "set-heat-by-probe", pages.fix_page)
items = _lookup("items", "item", "ceramic-tile", pages.item_page)


@click.command(
    epilog="\b\nExamples:\n  presslore why damp-item blotches\n"
    "  presslore why platen-runs-cool --rather-than dwell-short --saw faint-colour --answer spent-sheet=much-left"
)
@click.argument("cause", shell_complete=ids("causes"))
@click.argument("defect", required=False, shell_complete=ids("defects"))
@click.option("--rather-than", "other", metavar="CAUSE", shell_complete=ids("causes"), help="Why not this one?")
@click.option("--item", default="", shell_complete=ids("items"), help="With --rather-than: what was pressed.")
@click.option("--saw", multiple=True, shell_complete=ids("defects"), help="With --rather-than: what is wrong.")
@click.option(
    "--answer",
    "answers",
    multiple=True,
    metavar="CHECK=OUTCOME",
    shell_complete=ids("answers"),
    help="With --rather-than: the outcome of a check.",
)
@click.option("--tried", multiple=True, metavar="FIX", shell_complete=ids("fixes"), help="With --rather-than: in vain.")
@shop_option
def why(cause: str, defect: str | None, other: str | None, shop: Path | None, **flags: Any) -> int:
    """Say why a cause brings on a defect, or is likelier than another.

    With --rather-than, what was seen, answered and tried is weighed as presslore diagnose weighs it.
    """
    if (defect is None) == (other is None):
        raise click.UsageError("expected a defect after the cause, or --rather-than and another cause")
    found, screen = shelf.at(shop), screen_for(sys.stdout)
    leaving_out.tell(found)
    knowledge = found.knowledge
    if other is not None:
        return _rather(screen, found, (cause, other), Flags(**flags))
    assert defect is not None
    found_cause = knowledge.causes[known_id(cause, knowledge.causes, "cause")]
    found_defect = knowledge.defects[known_id(defect, knowledge.defects, "defect")]
    rules = [rule for rule in found_defect.rules if rule.cause == found_cause.id]
    if not rules:
        said = say("no-rule-says-so", cause=found_cause.title, defect=found_defect.title)
        screen_for(sys.stderr).line(said)
        return exits.PROBLEMS
    title = f"{found_cause.title} → {found_defect.title}"
    screen.line(marked(title, any(map(on_trial, rules))), "title")
    for rule in rules:
        screen.line(rule.why)
        chance, only_for = in_words(rule.brings.value, knowledge.scale), pages.condition(knowledge, rule.condition)
        screen.line(say("how-surely", chance=chance, only_for=only_for))
        screen.line(pages.said_where(rule, both=pages.mixed(rules)), "dim")
    return exits.GOOD


def _rather(screen: Screen, found: Shelf, two: tuple[str, str], flags: Flags) -> int:
    """Why the one cause and not the other, by what the flags tell of one spoiled piece."""
    from diagnose.cli.asking.flags import take
    from diagnose.cli.lookup.cards import contrast_card
    from diagnose.dialogue.consultation import Consultation
    from diagnose.dialogue.session import Session
    from diagnose.reasoning.words import lexicon

    one, other = (known_id(cause, found.knowledge.causes, "cause") for cause in two)
    if one == other:
        raise click.UsageError(f"expected two causes, got {one} twice")
    taken = take(flags, found.knowledge, lexicon(found.knowledge), Session())
    for words in taken.puzzling:
        screen_for(sys.stderr).line(say("not-understood", words=words))
    if not taken.session.evidence.seen:
        raise click.UsageError("expected what is wrong as well: --saw, in your own words or by id")
    contrast_card(screen, Consultation(found.knowledge, found.shop, taken.session), one, other)
    return exits.GOOD
