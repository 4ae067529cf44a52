"""``presslore diagnose``: the main job, as a dialogue or by flags."""

import json
import sys
from pathlib import Path
from typing import Any

import click

from diagnose.cli import cards, exits, shelf
from diagnose.cli.completion import ids
from diagnose.cli.flags import Flags, Taken, take
from diagnose.cli.opening import open_dialogue
from diagnose.cli.screen import Screen, both_terminals, screen_for
from diagnose.cli.talk import Left, Talk
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.report import report
from diagnose.dialogue.saving import resume as resume_session
from diagnose.dialogue.saving import save
from diagnose.dialogue.session import Session
from diagnose.problems import PressloreError
from diagnose.reasoning.words import lexicon as build_lexicon

LAST = "last"


@click.command(
    epilog="\b\nExamples:\n  presslore diagnose\n"
    '  presslore diagnose --item "tea towel" --saw "pale and doubled"\n'
    "  presslore diagnose --saw ghosting --answer edges-under-magnifier=doubled --json"
)
@click.option("--item", default="", help="What was pressed, in your own words or by id.")
@click.option(
    "--fact", "facts", multiple=True, metavar="FACT=VALUE", help="A fact of the job: item.polyester=65."
)
@click.option(
    "--saw", multiple=True, shell_complete=ids("defects"), help="What is wrong, in your own words or by id."
)
@click.option(
    "--not-seen", multiple=True, shell_complete=ids("defects"), help="What you looked for and is not there."
)
@click.option(
    "--answer",
    "answers",
    multiple=True,
    metavar="CHECK=OUTCOME",
    shell_complete=ids("answers"),
    help="A check's outcome.",
)
@click.option(
    "--cannot-tell", multiple=True, metavar="CHECK", shell_complete=ids("checks"), help="A check not to ask."
)
@click.option(
    "--tried", multiple=True, metavar="FIX", shell_complete=ids("fixes"), help="A fix that did not help."
)
@click.option(
    "--cannot-do", multiple=True, metavar="FIX", shell_complete=ids("fixes"), help="A fix not to propose."
)
@click.option(
    "--shop", type=click.Path(path_type=Path), help="The shop's folder or shop.yaml, for its prices."
)
@click.option(
    "--resume", is_flag=False, flag_value=LAST, metavar="[FILE]", help="Go on with a session that was left."
)
@click.option(
    "--save", "save_to", type=click.Path(path_type=Path, dir_okay=False), help="Where to keep the session."
)
@click.option("--json", "as_json", is_flag=True, help="Print the diagnosis as JSON, and ask nothing.")
def diagnose(shop: Path | None, resume: str | None, save_to: Path | None, as_json: bool, **flags: Any) -> int:
    """Find out why a transfer went wrong.

    In a terminal this is a dialogue: a number answers; ? says why and how, u cannot tell, b back, w what is
    believed, s save and leave. With --json, or without a terminal, it asks nothing and prints what it knows.
    """
    knowledge, words = shelf.knowledge(), None
    where = save_to or _place(resume) or shelf.state_folder() / f"{LAST}.json"
    session = resume_session(_place(resume) or where, knowledge) if resume else Session()
    given = Flags(**flags)
    words = build_lexicon(knowledge)
    taken = take(given, knowledge, words, session)
    start = Consultation(knowledge, shelf.shop(shop), taken.session)
    if not as_json and both_terminals():
        opened = open_dialogue(screen_for(sys.stdout), knowledge, words, taken.session)
        return _talk(start.then(opened), words, where)
    if save_to:
        save(taken.session, save_to, knowledge.version)
    return _print(start, taken, as_json)


def _place(resume: str | None) -> Path | None:
    if resume is None:
        return None
    return shelf.state_folder() / f"{LAST}.json" if resume == LAST else Path(resume)


def _talk(consultation: Consultation, words: Any, where: Path) -> int:
    screen = screen_for(sys.stdout)
    kept = _Kept(screen, where, consultation.knowledge.version)
    kept(consultation.session)
    try:
        Talk(screen, consultation, words, kept).go()
    except Left:
        screen.line(f"Saved to {where}. Go on with: presslore diagnose --resume" + _named(where))
    except EOFError:
        raise click.Abort from None
    return exits.GOOD


def _named(where: Path) -> str:
    return "" if where == shelf.state_folder() / f"{LAST}.json" else f" {where}"


class _Kept:
    """Keeps the session after every move, so that leaving in any way loses nothing; says once where it cannot."""

    def __init__(self, screen: Screen, where: Path, version: str) -> None:
        self.screen, self.where, self.version, self.warned = screen, where, version, False

    def __call__(self, session: Session) -> None:
        try:
            save(session, self.where, self.version)
        except PressloreError as error:
            if not self.warned:
                self.screen.line(f"This session is not being kept: {error}", "caution")
            self.warned = True


def _print(consultation: Consultation, taken: Taken, as_json: bool) -> int:
    understood = taken.understood(consultation.knowledge)
    if as_json:
        whole = report(consultation, understood)
        print(json.dumps(whole, indent=2, ensure_ascii=not screen_for(sys.stdout).unicode))
    else:
        _print_text(screen_for(sys.stdout), consultation, taken)
    return exits.GOOD if consultation.evidence.seen else exits.NOT_UNDERSTOOD


def _print_text(screen: Screen, consultation: Consultation, taken: Taken) -> None:
    for words in taken.not_understood:
        screen_for(sys.stderr).line(f"Not understood: {words}")
    if not consultation.evidence.seen:
        screen_for(sys.stderr).line("Nothing to go on: say what is wrong with --saw, in your own words.")
        return
    cards.heading(screen, consultation)
    cards.beliefs_card(screen, consultation)
    screen.rule()
    screen.line("Next", "dim")
    advice = consultation.advice
    if advice.kind == "check":
        cards.check_card(screen, consultation, consultation.knowledge.checks[advice.id])
        screen.line(f"Answer with --answer {advice.id}=OUTCOME: " + _outcomes(consultation, advice.id), "dim")
    elif advice.kind == "fix":
        cards.fix_card(screen, consultation, consultation.knowledge.fixes[advice.id])
        screen.line(f"If it does not help: --tried {advice.id}", "dim")
    else:
        cards.call_card(screen, consultation)


def _outcomes(consultation: Consultation, check_id: str) -> str:
    return ", ".join(outcome.id for outcome in consultation.knowledge.checks[check_id].outcomes)
