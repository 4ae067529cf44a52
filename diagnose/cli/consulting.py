"""A diagnosis carried out: as a dialogue, or from flags alone."""

import shlex
import sys
from dataclasses import dataclass
from pathlib import Path

import click

from diagnose.cli import cards, exits, leaving_out
from diagnose.cli.bookcase import place
from diagnose.cli.ending import Keeping, Watch
from diagnose.cli.flags import Flags, Taken, take
from diagnose.cli.opening import Opening
from diagnose.cli.prompts import Reply
from diagnose.cli.screen import Screen, screen_for
from diagnose.cli.shelf import Shelf, state_folder
from diagnose.cli.talk import Left, Reopened, Talk
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Pressed
from diagnose.dialogue.report import report
from diagnose.dialogue.saving import resume, save
from diagnose.dialogue.session import Session
from diagnose.dialogue.speech.care import what_to_tell
from diagnose.problems import PressloreError
from diagnose.reasoning.words import Lexicon

LAST = "last"


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """What a diagnosis starts from. ``shop`` was named by the person (None: not), ``resume`` and ``save_to`` name
    files ("" and None: none named); ``book``: the casebook that the case goes into at its end, where ``keep`` is
    true."""

    flags: Flags
    shop: Path | None = None
    resume: str = ""
    save_to: Path | None = None
    book: str = ""
    keep: bool = True

    @property
    def keeping(self) -> Keeping:
        return Keeping(self.keep, lambda: place(self.book, self.shop))

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
    return state_folder() / f"{LAST}.json"


def converse(case: Case, shelf: Shelf, lexicon: Lexicon, first: Reply | None) -> int:
    """The dialogue. ``first`` is what was answered to its first question, None where it was not asked."""
    screen = screen_for(sys.stdout)
    leaving_out.tell(shelf, screen)
    knowledge, shop = shelf.knowledge, shelf.shop
    taken = _taken(case, shelf, lexicon)
    for words in taken.not_understood:
        screen.line(f"Not understood: {words}")
    opening = Opening(screen, knowledge, lexicon, shop.presses)
    kept, session = _Kept(screen, case.kept_at, knowledge.version, case.shop), taken.session
    ended_before = session.over is not None
    try:
        while True:
            session = opening.go(session, first)
            kept(session)
            try:
                end = Talk(screen, Consultation(knowledge, shop, session), lexicon, kept).go()
                if not ended_before:
                    case.keeping.keep(screen, end, kept.watch)
                return exits.GOOD
            except Reopened:
                session = Session(tuple(move for move in session.moves if isinstance(move, Pressed)))
    except Left:
        kept.how_to_go_on()
        return exits.GOOD
    except (EOFError, KeyboardInterrupt):
        screen.line()
        kept.how_to_go_on()
        raise click.Abort from None


def answer(case: Case, shelf: Shelf, lexicon: Lexicon, *, as_json: bool) -> int:
    """Print what is known from the flags alone, and ask nothing."""
    leaving_out.tell(shelf)
    knowledge = shelf.knowledge
    taken = _taken(case, shelf, lexicon)
    if case.save_to:
        save(taken.session, case.save_to, knowledge.version)
    consultation = Consultation(knowledge, shelf.shop, taken.session)
    screen, err = screen_for(sys.stdout), screen_for(sys.stderr)
    for why in consultation.idle:
        err.line(f"{why[0].upper()}{why[1:]}.")
    if as_json:
        whole = report(consultation, taken.understood(knowledge), shelf.files_left_out)
        screen.json(whole)
    else:
        _print_text(screen, consultation, taken)
    return exits.GOOD if consultation.evidence.seen else exits.NOT_UNDERSTOOD


def _taken(case: Case, shelf: Shelf, lexicon: Lexicon) -> Taken:
    if case.resume == LAST and not last_session().exists():
        raise PressloreError("no session was left that could be gone on with: begin one with presslore diagnose")
    session = resume(case.resumed_from, shelf.knowledge) if case.resumed_from else Session()
    return take(case.flags, shelf.knowledge, lexicon, session, shelf.shop.presses)


class _Kept:
    """Keeps the session after every move, so that leaving in any way loses nothing; says once where it cannot. Times
    the steps as they are made."""

    def __init__(self, screen: Screen, where: Path, version: str, shop: Path | None) -> None:
        self.screen, self.where, self.version = screen, where, version
        self.shop = f" --shop {shlex.quote(str(shop))}" if shop else ""
        self.warned = self.done = False
        self.watch = Watch()

    def how_to_go_on(self) -> None:
        """Which call goes on with the session; nothing where it could not be kept."""
        if self.done:
            where = "" if self.where == last_session() else f" {shlex.quote(str(self.where))}"
            self.screen.line("Saved. Go on with:")
            self.screen.whole(f"  presslore diagnose{self.shop} --resume{where}")

    def __call__(self, session: Session) -> None:
        self.watch.step(session)
        try:
            save(session, self.where, self.version)
            self.done = True
        except PressloreError as error:
            if not self.warned:
                self.screen.line(f"This session is not being kept: {error}", "caution")
            self.warned, self.done = True, False


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
