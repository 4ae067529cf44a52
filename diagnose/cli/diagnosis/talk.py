"""The dialogue at the press: one step at a time, until the print is good or help is called for."""

from collections.abc import Callable
from dataclasses import dataclass, field

from diagnose.cli.asking import figures
from diagnose.cli.asking.opening import named
from diagnose.cli.asking.prompts import LETTERS, Reply, ask, several
from diagnose.cli.lookup import cards
from diagnose.cli.terminal.screen import Screen
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.hearing import hear
from diagnose.dialogue.moves import Answered, CannotDo, CannotTell, Cured, DidNotSee, HandedOver, Pressed, Saw, TriedFix
from diagnose.dialogue.session import Session
from diagnose.knowledge.model import Check, Fix
from diagnose.reasoning.evidence import BETTER, SAME
from diagnose.reasoning.words import Lexicon, answer, nearest
from diagnose.speech.saying import say
from diagnose.speech.talk import seen, spoken
from diagnose.speech.titles import not_ours

Keep = Callable[[Session], None]
FIX_LETTERS = {**LETTERS, "u": "cannot do this"}
RESULTS = (
    say("the-fault-is-gone-good-print"),
    say("better-but-not-right-yet"),
    say("no-change"),
    say("something-else-shows-now"),
)
RESULTS_SAID = {
    **dict.fromkeys(("gone", "good", "good print", "the fault is gone", "cured", "fixed"), 1),
    **dict.fromkeys(("better", "a bit better", "better but not right yet", "not right yet"), 2),
    **dict.fromkeys(("no change", "same", "the same", "did not help", "worse"), 3),
    **dict.fromkeys(("something else", "something else shows now"), 4),
}


class Left(Exception):
    """The person saved and left."""


class Reopened(Exception):
    """The person went back beyond the first step, to the opening questions."""


@dataclass(slots=True)
class Talk:
    """A dialogue on a screen. ``keep`` is called after every move, so that leaving in any way loses nothing.
    ``warned`` holds the cautions already read out in full."""

    screen: Screen
    consultation: Consultation
    lexicon: Lexicon
    keep: Keep
    warned: set[str] = field(default_factory=set)

    def go(self) -> Consultation:
        """Go on until the session is over. Raises Left on save-and-leave, Reopened on going back to the opening."""
        while self.consultation.session.over is None:
            cards.heading(self.screen, self.consultation)
            after = self._step()
            self.keep(after)
            self.consultation = self.consultation.then(after)
        self._ending()
        return self.consultation

    def _step(self) -> Session:
        advice, knowledge = self.consultation.advice, self.consultation.knowledge
        if advice.kind == "check":
            return self._check(knowledge.checks[advice.id])
        if advice.kind == "fix":
            return self._fix(knowledge.fixes[advice.id])
        return self._call()

    def _check(self, check: Check) -> Session:
        session = self.consultation.session
        cards.check_card(self.screen, self.consultation, check, self.warned)
        hint = figures.hint(self.consultation, check)
        while True:
            reply = ask(self.screen, numbers=len(check.outcomes), letters=tuple(LETTERS), more=hint)
            if hint and reply.words and any(letter.isdigit() for letter in reply.words):
                if move := figures.answered(self.screen, self.consultation, check, reply.words):
                    return self._measured(session.make(move), check)
                continue
            if outcome := self._outcome(check, reply):
                return session.make(Answered(check.id, outcome))
            if reply.letter == "u":
                return session.make(CannotTell(check.id))
            if reply.letter == "?":
                cards.check_help(self.screen, self.consultation, check)
            elif after := self._common(reply):
                return after

    def _measured(self, after: Session, check: Check) -> Session:
        """The session after a figure, which is said back as it was taken."""
        for reading in self.consultation.then(after).readings:
            if check.id in reading.settles:
                self.screen.line(f"{spoken(reading, self.consultation)}.", "good")
        return after

    def _fix(self, fix: Fix) -> Session:
        cards.fix_card(self.screen, self.consultation, fix, self.warned)
        while True:
            self.screen.line(say("how-is-the-test-piece"), "title")
            self._numbered(RESULTS)
            reply = ask(self.screen, numbers=len(RESULTS), letters=tuple(FIX_LETTERS), names=FIX_LETTERS)
            if result := reply.number or RESULTS_SAID.get(nearest(RESULTS_SAID, reply.words), 0):
                return self._tried(fix, result)
            if reply.letter == "u":
                return self.consultation.session.make(CannotDo(fix.id))
            if reply.letter == "?":
                cards.fix_help(self.screen, self.consultation, fix)
            elif after := self._common(reply):
                return after

    def _call(self) -> Session:
        cards.call_card(self.screen, self.consultation)
        while True:
            reply = ask(self.screen, numbers=0, letters=("d", "b", "w", "s"), names={**LETTERS, "d": "done, I call"})
            if reply.letter == "d":
                return self.consultation.session.make(HandedOver())
            if after := self._common(reply):
                return after

    def _common(self, reply: Reply) -> Session | None:
        """What ``b``, ``w`` and ``s`` do at every step."""
        if reply.letter == "b":
            return self._back()
        if reply.letter == "w":
            cards.beliefs_card(self.screen, self.consultation)
        elif reply.letter == "s":
            raise Left
        else:
            self.screen.line(say("i-do-not-know-which-of-these"))
        return None

    def _back(self) -> Session:
        """The session one step back, with what was seen after that step taken back as well."""
        moves = list(self.consultation.session.moves)
        while moves and isinstance(moves[-1], Pressed | Saw | DidNotSee):
            moves.pop()
        before = Session(tuple(moves[:-1]))
        if not before.evidence.seen:
            raise Reopened
        return before

    def _outcome(self, check: Check, reply: Reply) -> str:
        """The id of the outcome that a number or some words name, "" where none is. Words in which an outcome is
        only guessed at are confirmed."""
        if reply.number:
            return check.outcomes[reply.number - 1].id
        guess = answer(self.lexicon, check.id, reply.words) if reply.words else ""
        if not guess or reply.words.lower() in {guess, check.outcome(guess).looks.lower()}:
            return guess
        self.screen.line(say("do-you-mean", looks=check.outcome(guess).looks))
        names = {"y": "yes", "n": "no"}
        return guess if ask(self.screen, numbers=0, letters=tuple(names), names=names).letter == "y" else ""

    def _tried(self, fix: Fix, result: int) -> Session:
        session = self.consultation.session
        if result == 1:
            return session.make(Cured(fix.id))
        if result == 2:
            gone = self._gone()
            everything = gone and len(gone) == len(self.consultation.evidence.left)
            return session.make(Cured(fix.id) if everything else TriedFix(fix.id, BETTER, gone))
        if result == 3:
            return session.make(TriedFix(fix.id, SAME))
        return self._something_else(session.make(TriedFix(fix.id)))

    def _gone(self) -> tuple[str, ...]:
        """Which of several defects the fix made go away."""
        left = self.consultation.evidence.left
        if len(left) < 2:
            return ()
        self.screen.line(say("is-one-of-these-gone-altogether"), "title")
        self._numbered([self.consultation.knowledge.defects[defect].title for defect in left])
        while True:
            reply = ask(
                self.screen,
                numbers=len(left),
                letters=("n",),
                names={"n": "none of them"},
                more="several numbers count as well",
            )
            gone = several(reply, len(left))
            if gone or reply.letter:
                return tuple(left[number - 1] for number in gone)

    def _something_else(self, session: Session) -> Session:
        knowledge = self.consultation.knowledge
        self.screen.line(say("what-shows-now"), "title")
        reply = ask(self.screen, numbers=0, letters=("n",), names={"n": "nothing new after all"})
        if reply.letter:
            return session
        heard = hear(knowledge, self.lexicon, reply.words)
        defects = heard.defects
        for defect in defects:
            self.screen.hang("+", named(knowledge.defects[defect]), style="good")
        if not defects:
            other = knowledge.elsewhere.get(heard.elsewhere)
            self.screen.line(not_ours(other) if other else say("not-recognised-going-on"))
            return session
        return session.make(Saw(defects))

    def _numbered(self, texts: tuple[str, ...] | list[str]) -> None:
        for number, text in enumerate(texts, 1):
            self.screen.hang(f"{number}", text, style="key", indent=2)

    def _ending(self) -> None:
        consultation = self.consultation
        self.screen.rule()
        if isinstance(consultation.session.over, Cured):
            what = seen(consultation.session.evidence.seen, consultation.knowledge)
            self.screen.line(say("done-put-right", defects=what), "good")
            cards.summary_card(self.screen, consultation)
        else:
            self.screen.line(say("handed-over"), "good")
        cards.care_card(self.screen, consultation)
