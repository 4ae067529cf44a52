"""``presslore demo``: a made-up spoiled order, from first sight to cure. The dialogue in it is a real one."""

import sys
from pathlib import Path

import click

from diagnose.cli import exits
from diagnose.cli.lookup import cards
from diagnose.cli.options import shop_option
from diagnose.cli.shop import leaving_out, shelf
from diagnose.cli.shop.shelf import Shelf
from diagnose.cli.terminal.screen import Screen, screen_for
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.hearing import hear
from diagnose.dialogue.moves import Answered, Cured, Move, Pressed, Saw, TriedFix
from diagnose.dialogue.rehearsal import RehearsedTurn, rehearse
from diagnose.dialogue.session import Session
from diagnose.problems import PressloreError
from diagnose.reasoning.evidence import BETTER
from diagnose.reasoning.words import find_item, lexicon
from diagnose.speech.saying import say

ITEM = "65/35 polyester cotton tea towel"
SAW = "print is pale and there is a faint second copy of the text"
TRUTH = frozenset({"dwell-short", "sheet-lifts-on-opening"})


@click.command(epilog="\b\nExample: presslore demo")
@shop_option
def demo(shop: Path | None) -> int:
    """Replay a made-up spoiled order from first sight to cure.

    What is wrong is made up; the questions, the beliefs and the fixes are worked out as for a real piece.
    """
    found, screen = shelf.at(shop), screen_for(sys.stdout)
    leaving_out.tell(found)
    if missing := sorted(TRUTH - set(found.knowledge.causes)):
        raise PressloreError(f"The demo needs causes that this shop retired: {', '.join(missing)}.")
    screen.line(say("story-of-the-demo"))
    start = _opening(screen, found)
    last: RehearsedTurn | None = None
    for turn in rehearse(start, TRUTH):
        _show(screen, turn)
        last = turn
    if last is not None:
        end = last.consultation.then(last.consultation.session.make(last.move))
        cards.summary_card(screen, end)
        cards.care_card(screen, end)
    return exits.GOOD


def _opening(screen: Screen, shelf: Shelf) -> Consultation:
    knowledge = shelf.knowledge
    words = lexicon(knowledge)
    found, heard = find_item(words, ITEM), hear(knowledge, words, SAW)
    for question, answer in ((say("what-was-pressed"), ITEM), (say("what-do-you-see"), SAW)):
        screen.line(question, "title")
        screen.line(f"> {answer}", "key")
    item = Pressed(found.id, dict(found.facts)) if found else Pressed("")
    return Consultation(knowledge, shelf.shop, Session((item, Saw(heard.defects))))


def _show(screen: Screen, turn: RehearsedTurn) -> None:
    consultation, advice = turn.consultation, turn.consultation.advice
    cards.heading(screen, consultation)
    if advice.kind == "check":
        cards.check_card(screen, consultation, consultation.knowledge.checks[advice.id])
    elif advice.kind == "fix":
        cards.fix_card(screen, consultation, consultation.knowledge.fixes[advice.id])
        cards.afterwards_lines(screen, consultation)
    else:
        cards.call_card(screen, consultation)
    screen.line(f"> {_said(consultation, turn.move)}", "key")


def _said(consultation: Consultation, move: Move) -> str:
    match move:
        case Answered(check, outcome):
            known = consultation.knowledge.checks[check]
            number = [o.id for o in known.outcomes].index(outcome) + 1
            return f"{number}   ({known.outcome(outcome).looks})"
        case Cured():
            return say("the-fault-is-gone-good-print")
        case TriedFix(_, change, gone):
            titles = ", ".join(consultation.knowledge.defects[defect].title for defect in gone)
            what = say("better-but-not-right-yet") if change == BETTER else say("no-change")
            return f"{what}; gone: {titles}" if titles else what
    return say("i-call-for-help")
