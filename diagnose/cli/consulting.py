"""A diagnosis carried out: as a dialogue, or from flags alone."""

import json
import sys
from dataclasses import dataclass
from pathlib import Path

import click

from diagnose.cli import cards, exits, shelf
from diagnose.cli.flags import Flags, Taken, take
from diagnose.cli.opening import open_dialogue
from diagnose.cli.screen import Screen, screen_for
from diagnose.cli.talk import Left, Talk
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.report import report
from diagnose.dialogue.saving import resume, save
from diagnose.dialogue.session import Session
from diagnose.dialogue.speech.care import what_to_tell
from diagnose.knowledge.model import Knowledge
from diagnose.problems import PressloreError
from diagnose.reasoning.words import Lexicon

LAST = "last"


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """What a diagnosis starts from. ``resume`` and ``save_to`` name files ("" and None: none named)."""

    flags: Flags
    shop: Path | None = None
    resume: str = ""
    save_to: Path | None = None

    @property
    def kept_at(self) -> Path:
        """Where the session is kept as it goes."""
        return self.save_to or self.resumed_from or last_session()

    @property
    def resumed_from(self) -> Path | None:
        if not self.resume:
            return None
        return last_session() if self.resume == LAST else Path(self.resume)


def last_session() -> Path:
    """Where a session is kept that was given no place of its own."""
    return shelf.state_folder() / f"{LAST}.json"


def converse(case: Case, knowledge: Knowledge, lexicon: Lexicon, item_words: str | None) -> int:
    """The dialogue. ``item_words`` is what was answered to its first question, None where it was not asked."""
    screen = screen_for(sys.stdout)
    taken = _taken(case, knowledge, lexicon)
    for words in taken.not_understood:
        screen.line(f"Not understood: {words}")
    try:
        opened = open_dialogue(screen, knowledge, lexicon, taken.session, item_words)
        consultation = Consultation(knowledge, shelf.shop(case.shop), opened)
        kept = _Kept(screen, case.kept_at, knowledge.version)
        kept(opened)
        Talk(screen, consultation, lexicon, kept).go()
    except Left:
        where = "" if case.kept_at == last_session() else f" {case.kept_at}"
        screen.line(f"Saved to {case.kept_at}. Go on with: presslore diagnose --resume{where}")
    except EOFError:
        raise click.Abort from None
    return exits.GOOD


def answer(case: Case, knowledge: Knowledge, lexicon: Lexicon, *, as_json: bool) -> int:
    """Print what is known from the flags alone, and ask nothing."""
    taken = _taken(case, knowledge, lexicon)
    if case.save_to:
        save(taken.session, case.save_to, knowledge.version)
    consultation = Consultation(knowledge, shelf.shop(case.shop), taken.session)
    screen = screen_for(sys.stdout)
    if as_json:
        whole = report(consultation, taken.understood(knowledge))
        print(json.dumps(whole, indent=2, ensure_ascii=not screen.unicode))
    else:
        _print_text(screen, consultation, taken)
    return exits.GOOD if consultation.evidence.seen else exits.NOT_UNDERSTOOD


def _taken(case: Case, knowledge: Knowledge, lexicon: Lexicon) -> Taken:
    session = resume(case.resumed_from, knowledge) if case.resumed_from else Session()
    return take(case.flags, knowledge, lexicon, session)


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


def _print_text(screen: Screen, consultation: Consultation, taken: Taken) -> None:
    err = screen_for(sys.stderr)
    for words in taken.not_understood:
        err.line(f"Not understood: {words}")
    if not consultation.evidence.seen:
        err.line("Nothing to go on: say what is wrong with --saw, in your own words.")
        return
    cards.heading(screen, consultation)
    if consultation.session.over is None:
        cards.beliefs_card(screen, consultation)
        screen.rule()
        _print_next(screen, consultation)
    else:
        cards.summary_card(screen, consultation)
    if consultation.session.over or what_to_tell(consultation):
        screen.rule()
        cards.care_card(screen, consultation)


def _print_next(screen: Screen, consultation: Consultation) -> None:
    advice, knowledge = consultation.advice, consultation.knowledge
    screen.line("Next", "dim")
    if advice.kind == "check":
        check = knowledge.checks[advice.id]
        cards.check_card(screen, consultation, check)
        outcomes = ", ".join(outcome.id for outcome in check.outcomes)
        screen.line(f"Answer with --answer {check.id}=OUTCOME: {outcomes}", "dim")
    elif advice.kind == "fix":
        cards.fix_card(screen, consultation, knowledge.fixes[advice.id])
        screen.line(f"If it does not help: --tried {advice.id}", "dim")
    else:
        cards.call_card(screen, consultation)
