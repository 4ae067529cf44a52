"""A diagnosis carried out: as a dialogue, or from flags alone."""

import sys
from dataclasses import dataclass
from pathlib import Path

import click

from diagnose.cli import exits
from diagnose.cli.asking import bars
from diagnose.cli.asking.alarms import danger_card, sounded
from diagnose.cli.asking.bars import Bars
from diagnose.cli.asking.flags import Flags, TakenFlags, take
from diagnose.cli.asking.opening import Opening
from diagnose.cli.asking.prompts import Left, Reply
from diagnose.cli.diagnosis.ending import Keeping
from diagnose.cli.diagnosis.kept_session import Beginning, KeptSession
from diagnose.cli.diagnosis.recalling import Memory, told
from diagnose.cli.diagnosis.resuming import chosen, tell_of_many
from diagnose.cli.diagnosis.talk import Reopened, Talk
from diagnose.cli.lookup import cards
from diagnose.cli.shop import leaving_out
from diagnose.cli.shop.bookcase import place
from diagnose.cli.shop.shelf import Shelf
from diagnose.cli.terminal.screen import Screen, screen_for
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.saving import SAVED, make_folder, resumed, to_json
from diagnose.dialogue.session import Session
from diagnose.dialogue.telling import what_to_tell
from diagnose.files.kinds import refuse, write_out
from diagnose.knowledge.model import Check, Fix, Knowledge
from diagnose.problems import PressloreError
from diagnose.reasoning.words import Lexicon
from diagnose.speech.heard import GROUND, Echo
from diagnose.speech.report import to_plain, told_first
from diagnose.speech.saying import say
from diagnose.speech.talk import recalled
from diagnose.speech.titles import not_ours, refusal


@dataclass(frozen=True, slots=True, kw_only=True)
class Intake:
    """What a diagnosis starts from. ``shop`` was named by the person (None: not), ``resume`` names a saved dialogue
    ("": none), ``save_to`` a file (None: none), which may replace a saved dialogue where ``force`` is true; ``book``:
    the casebook that the case goes into at its end, where ``keep`` is true; ``recall``: whether what the shop knows of
    before counts."""

    flags: Flags
    shop: Path | None = None
    resume: str = ""
    save_to: Path | None = None
    force: bool = False
    book: str = ""
    keep: bool = True
    recall: bool = True

    @property
    def keeping(self) -> Keeping:
        return Keeping(self.keep, self._place)

    @property
    def memory(self) -> Memory:
        return Memory(self.recall, self._place)

    def _place(self) -> str:
        return place(self.book, self.shop)

    def beginning(self, knowledge: Knowledge, screen: Screen | None) -> Beginning:
        """What is gone on with and where it is kept. ``screen``: where to ask which one is meant; None where nobody
        is there. Raises PressloreError for a session that does not serve or a file that may not be written."""
        path = chosen(self.resume, knowledge, screen) if self.resume else None
        saved = resumed(path, knowledge) if path else None
        found = Beginning(path=path, saved=saved, save_to=self.save_to, force=self.force)
        if self.save_to and found.copied:
            refuse(self.save_to, SAVED, force=self.force)
        return found


def converse(case: Intake, shelf: Shelf, lexicon: Lexicon, first: Reply | None) -> int:
    """The dialogue. ``first`` is what was answered to its first question, None where it was not asked."""
    screen = screen_for(sys.stdout)
    leaving_out.tell(shelf, screen)
    knowledge, shop = shelf.knowledge, shelf.shop
    beginning = case.beginning(knowledge, screen)
    taken = _taken(case, shelf, lexicon, beginning)
    if taken.danger:
        danger_card(screen, taken.danger)
        screen.line(say("danger-over-from-flags"), "dim")
    _tell_refused(screen, knowledge, taken)
    for words in taken.puzzling:
        screen.line(say("not-understood", words=words))
    if first and sounded(screen, first.words):
        first = None
    barring = Bars(screen)

    def proven(session: Session) -> None:
        barring.prove(Consultation(knowledge, shop, session))

    opening = Opening(screen, knowledge, lexicon, shop.presses, shop.temperature, proven)
    steps: list[Check | Fix] = [*knowledge.checks.values(), *knowledge.fixes.values()]
    session, waits = taken.session, {step.id: step.waits.time for step in steps}
    kept = KeptSession(screen, beginning, knowledge.version, case.shop, session, waits)
    if beginning.saved is None:
        tell_of_many(screen)
    try:
        while True:
            before, session, first = session, opening.go(session, first), None
            if beginning.saved is None:
                start = Consultation(knowledge, shop, session)
                session = told(screen, start, case.memory.recalled(start))
            kept(session)
            opened = session != before
            try:
                now = Consultation(knowledge, shop, session)
                end = Talk(screen, now, lexicon, kept, opened=opened, bars=barring).go()
                if kept.progress.kept:
                    return exits.GOOD
                if case.keeping.keep(screen, end, kept.watch, kept.progress):
                    kept.case_is_kept(end.session)
                if case.keep:
                    case.memory.note(screen, end)
                kept.how_to_go_on()
                return exits.GOOD
            except Reopened as again:
                session = again.session
    except Left:
        kept.how_to_go_on()
        return exits.GOOD
    except (EOFError, KeyboardInterrupt):
        screen.line()
        kept.how_to_go_on()
        raise click.Abort from None


def answer(case: Intake, shelf: Shelf, lexicon: Lexicon, *, as_json: bool) -> int:
    """Print what is known from the flags alone, and ask nothing."""
    leaving_out.tell(shelf)
    knowledge = shelf.knowledge
    beginning = case.beginning(knowledge, None)
    taken = _taken(case, shelf, lexicon, beginning)
    session = taken.session
    if beginning.saved is None:
        before = case.memory.recalled(Consultation(knowledge, shelf.shop, session))
        session = Session((*session.moves, *before))
    if case.save_to:
        _save(beginning, case.save_to, session, knowledge.version)
    consultation = Consultation(knowledge, shelf.shop, session)
    screen, err = screen_for(sys.stdout), screen_for(sys.stderr)
    _tell_refused(err, knowledge, taken)
    _say_idle(consultation, err)
    if as_json:
        whole = to_plain(
            consultation,
            taken.understood(knowledge),
            shelf.files_left_out,
            told_first(taken.danger),
            tuple(dict.fromkeys(taken.refused)),
        )
        screen.json(whole)
    elif taken.danger:
        danger_card(screen, taken.danger)
    else:
        _print_text(screen, consultation, taken, words=bool(case.flags.words))
    if taken.danger:
        return exits.PROBLEMS
    return exits.GOOD if consultation.evidence.seen else exits.NOT_UNDERSTOOD


def _say_idle(consultation: Consultation, screen: Screen) -> None:
    """Why figures that were told say nothing. Loaded only where there are any."""
    if consultation.idle:
        from diagnose.speech.readings import idle_words

        for why in map(idle_words, consultation.idle):
            screen.line(f"{why[0].upper()}{why[1:]}.")


def _taken(case: Intake, shelf: Shelf, lexicon: Lexicon, beginning: Beginning) -> TakenFlags:
    session = beginning.saved.session if beginning.saved else Session()
    return take(case.flags, shelf.knowledge, lexicon, session, shelf.shop.presses)


def _save(beginning: Beginning, path: Path, session: Session, version: str) -> None:
    """Keep a session that nobody is asked about. Raises PressloreError."""
    content = to_json(session, version, beginning.progress(session)).encode()
    try:
        make_folder(path.parent)
        write_out(path, content, SAVED, force=beginning.force or not beginning.copied)
    except PressloreError as error:
        raise PressloreError(f"cannot save the session to {error}") from error


def _tell_refused(screen: Screen, knowledge: Knowledge, taken: TakenFlags) -> None:
    """What none of presslore's work is: goods of a stuff that no print takes to, and other crafts."""
    for stuff in dict.fromkeys(taken.refused):
        screen.line(refusal(knowledge.refused[stuff]))
    for craft in dict.fromkeys(each.id for each in taken.elsewhere):
        screen.line(not_ours(knowledge.elsewhere[craft]))


def _print_text(screen: Screen, consultation: Consultation, taken: TakenFlags, *, words: bool) -> None:
    """``words``: a message was given, of which it is said what was heard."""
    err = screen_for(sys.stderr)
    for puzzling in taken.puzzling:
        err.line(say("not-understood", words=puzzling))
    if taken.item_unknown and not taken.near_items:
        err.line(say("say-what-it-is-like"))
    for item in taken.near_items:
        err.line(say("nearest-item", id=item, title=consultation.knowledge.items[item].title))
    if not consultation.evidence.seen:
        if not taken.elsewhere:
            err.line(say("nothing-to-go-on"))
            _print_nearest(err, consultation.knowledge, taken)
        return
    if words:
        _print_heard(screen, consultation, taken)
    bars.tell(screen, consultation)
    cards.heading(screen, consultation)
    if last := recalled(consultation):
        screen.line(f"{last}.")
    if consultation.session.over is None:
        cards.beliefs_card(screen, consultation)
        screen.rule()
        _print_next(screen, consultation)
    else:
        cards.summary_card(screen, consultation)
    if consultation.session.over or what_to_tell(consultation):
        screen.rule()
        cards.care_card(screen, consultation)


def _print_nearest(err: Screen, knowledge: Knowledge, taken: TakenFlags) -> None:
    """What may be meant where no defect was understood: the nearest, else where all are listed."""
    if not taken.near_defects:
        err.line(say("all-defects-are-listed"))
        return
    err.line(say("nearest-defects"))
    for defect in taken.near_defects:
        err.line(say("nearest-defect", id=defect, title=knowledge.defects[defect].title))


def _print_heard(screen: Screen, consultation: Consultation, taken: TakenFlags) -> None:
    """What was heard in a message, a line for each thing."""
    echo = Echo(consultation.knowledge, consultation.shop.temperature)
    screen.line(say("heard-in-words"), "title")
    for each in taken.told:
        screen.hang("-", echo.line(each, taken.spoken.get(GROUND, "")))
    for reading in taken.unsure:
        screen.hang("?", say("unsure-of", what="; ".join(map(echo.move, reading))))


def _print_next(screen: Screen, consultation: Consultation) -> None:
    advice, knowledge = consultation.advice, consultation.knowledge
    screen.line("Next", "dim")
    if advice.kind == "check":
        check = knowledge.checks[advice.id]
        cards.check_card(screen, consultation, check)
        cards.unread(screen, consultation, check, set())
        outcomes = ", ".join(outcome.id for outcome in check.outcomes)
        screen.line(say("answer-with-a-flag", check=check.id, outcomes=outcomes), "dim")
    elif advice.kind == "fix":
        fix = knowledge.fixes[advice.id]
        cards.fix_card(screen, consultation, fix)
        cards.unread(screen, consultation, fix, set())
        cards.afterwards_lines(screen, consultation)
        screen.line(say("if-it-does-not-help", fix=advice.id), "dim")
    else:
        cards.call_card(screen, consultation)
