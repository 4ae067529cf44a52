"""The dialogue at the press: one step at a time, until the print is good or help is called for."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from diagnose.cli.asking import figures
from diagnose.cli.asking.bars import Bars
from diagnose.cli.asking.echo import Listener
from diagnose.cli.asking.prompts import LETTERS, Left, Reply, ask, ask_words, several
from diagnose.cli.lookup import cards
from diagnose.cli.terminal.screen import Screen, progress
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.hearing import Heard
from diagnose.dialogue.moves import (
    Answered,
    CannotDo,
    CannotTell,
    Cured,
    DidNotSee,
    HandedOver,
    Move,
    Pressed,
    Saw,
    TriedFix,
)
from diagnose.dialogue.session import MANY_UNTOLD, Session
from diagnose.dialogue.taking import Telling, after, denies, gone_of, news
from diagnose.dialogue.telling import cautions, likeliest_fix
from diagnose.dialogue.wishes import CURED, adds, came_out, corrected, gone_by
from diagnose.foresight.figures_told import figures_told, without_figures
from diagnose.knowledge.model import Check, Fix
from diagnose.press.quantities import Unclear
from diagnose.reasoning.evidence import BETTER, SAME
from diagnose.reasoning.words import Lexicon, answer, nearest
from diagnose.speech.heard import named
from diagnose.speech.saying import say
from diagnose.speech.talk import look_afresh, seen, spoken, steady
from diagnose.speech.titles import not_ours

Keep = Callable[[Session], None]
RATHER = re.compile(r"(?:why )?(\d{1,2}) (?:rather than|instead of|and not|not|over) (\d{1,2})\??", re.IGNORECASE)
CAUTIONS = {"!": "cautions"}
LEFT = {"n": say("the-same-as-before")}
FIX_LETTERS = {**LETTERS, "u": "cannot do this", "p": "the piece, the order"}
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


class Reopened(Exception):
    """The person went back beyond the first step, to the opening questions, or took back all that was seen.
    ``session``: what is left of what was told."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session


@dataclass(slots=True)
class Talk:
    """A dialogue on a screen. ``keep`` is called after every move, so that leaving in any way loses nothing.
    ``warned`` holds the cautions already told in full, ``earlier`` the sessions to go back to; ``opened``: the
    opening questions were asked just before; ``bars`` says what bars the goods, once an answer tells it."""

    screen: Screen
    consultation: Consultation
    lexicon: Lexicon
    keep: Keep
    warned: set[str] = field(default_factory=set)
    opened: bool = False
    earlier: list[Session] = field(default_factory=list)
    bars: Bars | None = None

    @property
    def listener(self) -> Listener:
        consultation = self.consultation
        return Listener(self.screen, consultation.knowledge, self.lexicon, consultation.shop.temperature)

    def go(self) -> Consultation:
        """Go on until the session is over. Raises Left on save-and-leave, Reopened on going back to the opening."""
        while self.consultation.session.over is None:
            if self.bars:
                self.bars.prove(self.consultation)
            cards.heading(self.screen, self.consultation)
            before, depth = self.consultation.session, len(self.earlier)
            session = self._step()
            if len(self.earlier) == depth and session != before:
                self.earlier.append(before)
            if not session.evidence.seen:
                raise Reopened(session)
            self.keep(session)
            self.consultation = self.consultation.then(session)
        self._ending()
        return self.consultation

    def _step(self) -> Session:
        advice, knowledge = self.consultation.advice, self.consultation.knowledge
        if words := look_afresh(self.consultation):
            self.screen.line(f"{words} {say('say-what-it-has-not')}", "title")
        if advice.kind == "check":
            return self._check(knowledge.checks[advice.id])
        if advice.kind == "fix":
            return self._fix(knowledge.fixes[advice.id])
        return self._call()

    def _check(self, check: Check) -> Session:
        session = self.consultation.session
        cards.check_card(self.screen, self.consultation, check)
        names = self._letters(LETTERS, check)
        hint = figures.hint(self.consultation, check)
        if session.untold_in_a_row >= MANY_UNTOLD:
            self.screen.line(say("many-not-told", many=session.untold_in_a_row))
        while True:
            reply = ask(
                self.screen, numbers=len(check.outcomes), letters=tuple(names), names=names, more=hint, unshown="thc"
            )
            if reply.number:
                return session.make(self._answered(check, check.outcomes[reply.number - 1].id))
            if reply.letter == "u":
                return session.make(CannotTell(check.id))
            if reply.letter == "t":
                return self._likeliest()
            if reply.letter == "c":
                return self._call(asked=True)
            if reply.letter == "?":
                cards.check_help(self.screen, self.consultation, check, self.warned)
            elif reply.letter == "!":
                cards.in_full(self.screen, self.consultation, check, self.warned)
            elif reply.words and self._contrasted(reply.words):
                continue
            elif told := self._reply(check, reply, hint) if reply.words else self._common(reply):
                return told

    def _answered(self, check: Check, outcome: str) -> Answered:
        """The answer to the check that is asked: a second look, where it was answered before."""
        return Answered(check.id, outcome, check.id in self.consultation.doubted)

    def _reply(self, check: Check, reply: Reply, hint: str) -> Session | None:
        """The session after some words typed at a check; None where they led to nothing, which has been said."""
        session, plain = self.consultation.session, reply.words.lower()
        if named := next((each for each in check.outcomes if plain in (each.id, each.looks.lower())), None):
            return session.make(self._answered(check, named.id))
        unclear = ""
        if hint and any(letter.isdigit() for letter in reply.words):
            try:
                if move := figures.answered(self.screen, self.consultation, check, reply.words):
                    return self._measured(session.make(move), check)
                return None
            except Unclear as error:
                unclear = f"{error}."
                if any(letter.isdigit() for letter in without_figures(reply.words, figures_told(reply.words))):
                    self.screen.line(unclear)  # a figure among them cannot be taken
                    return None
        told = self._told(reply.words, check, unclear)
        if told is None:
            self._numbered([outcome.looks for outcome in check.outcomes])
        return told

    def _told(self, words: str, check: Check | None = None, unclear: str = "") -> Session | None:
        """The session after what was told in words at any step: an answer to its check, something else that is new, or
        both. None where that is nothing: then it was said so, by ``unclear`` where it stood for a figure."""
        session, listener = self.consultation.session, self.listener
        heard, told = listener.listen(words, session.item)
        own, guess = self._of_check(check, words, told)
        new = news([each for each in told if each.move != own], session)
        if guess and new and own is None:
            looks = check.outcome(guess).looks if check else ""
            chosen, otherwise = listener.which([looks, listener.line([each.move for each in new])])
            if otherwise:
                return self._told(otherwise, check)
            moves = ((self._answered(check, guess),) if check else (), tuple(n.move for n in new), ())[chosen]
        elif guess and check and not new:
            moves = (self._answered(check, guess),) if self._meant(check, guess) else ()
        else:
            moves = listener.confirm([*([Telling(own)] if own else []), *new], heard.not_understood)
        if not (guess or new):
            self.screen.line(unclear or self._nothing_new(heard, told))
        return after(session, moves) if moves else None

    def _nothing_new(self, heard: Heard, told: list[Telling]) -> str:
        """Why words led to nothing: what they say is known, or of another craft, or nobody knows what they say."""
        if told:
            return say("noted-already", what=self.listener.line([each.move for each in told]))
        other = self.consultation.knowledge.elsewhere.get(heard.elsewhere)
        return not_ours(other) if other else say("i-do-not-know-which-of-these")

    def _of_check(self, check: Check | None, words: str, told: list[Telling]) -> tuple[Move | None, str]:
        """The answer to the check that was heard among other things, and the outcome that the words may stand for."""
        if check is None:
            return None, ""
        own = next(
            (each.move for each in told if isinstance(each.move, Answered) and each.move.check == check.id), None
        )
        if isinstance(own, Answered):
            return own, own.outcome
        free = not (adds(words) or corrected(words))
        return None, self._guess(check, words) if free else ""

    def _guess(self, check: Check, words: str) -> str:
        """The outcome that words may stand for, "" where they stand for none. What tells a figure tells no outcome,
        unless one is called just so."""
        left = without_figures(words, figures_told(words))
        called = any(words.lower() == name.lower() for outcome in check.outcomes for name in outcome.said)
        heard = words if called else left
        return answer(self.lexicon, check.id, heard) if any(letter.isalpha() for letter in heard) else ""

    def _meant(self, check: Check, guess: str) -> bool:
        """Whether an outcome is meant that words only suggest."""
        self.screen.line(say("do-you-mean", looks=check.outcome(guess).looks))
        names = {"y": "yes", "n": "no"}
        return ask(self.screen, numbers=0, letters=tuple(names), names=names).letter == "y"

    def _likeliest(self) -> Session:
        """The fix that is best tried now, without a further question; back leads to the question again."""
        fix = likeliest_fix(self.consultation)
        return self._fix(self.consultation.knowledge.fixes[fix], asked=True) if fix else self._call()

    def _measured(self, after: Session, check: Check) -> Session:
        """The session after a figure, which is said back as it was taken."""
        for reading in self.consultation.then(after).readings:
            if check.id in reading.settles:
                self.screen.line(f"{spoken(reading, self.consultation)}.", "good")
        return after

    def _fix(self, fix: Fix, *, asked: bool = False) -> Session:
        """``asked``: the person wanted a fix in place of a question, to which going back leads."""
        cards.fix_card(self.screen, self.consultation, fix)
        names = self._letters(FIX_LETTERS, fix)
        while True:
            self.screen.line(say("how-is-the-test-piece"), "title")
            self._numbered(RESULTS)
            reply = ask(self.screen, numbers=len(RESULTS), letters=tuple(names), names=names, unshown="hc")
            said = came_out(reply.words) or RESULTS_SAID.get(nearest(RESULTS_SAID, reply.words), 0)
            if result := reply.number or said:
                return self._tried(fix, result)
            if reply.letter == "u":
                return self.consultation.session.make(CannotDo(fix.id))
            if reply.letter == "b" and asked:
                return self.consultation.session
            if reply.letter == "c":
                return self._call(asked=True)
            if reply.letter == "?":
                cards.fix_help(self.screen, self.consultation, fix, self.warned)
            elif reply.letter == "!":
                cards.in_full(self.screen, self.consultation, fix, self.warned)
            elif reply.letter == "p":
                cards.afterwards_lines(self.screen, self.consultation)
            elif reply.words and self._contrasted(reply.words):
                continue
            elif told := self._result(fix, reply.words) if reply.words else self._common(reply):
                return told

    def _letters(self, letters: Mapping[str, str], step: Check | Fix) -> Mapping[str, str]:
        """The letters on offer at a step: one for its cautions in full, where it has some."""
        if not cautions(self.consultation, step):
            return letters
        first, *rest = letters.items()
        return dict([first, *CAUTIONS.items(), *rest])

    def _result(self, fix: Fix, words: str) -> Session | None:
        """The session after the result of a fix in words: which faults it made go away, what shows now. None where the
        words tell none, which has been said, or something else altogether."""
        session, left = self.consultation.session, self.consultation.evidence.left
        went, stayed = gone_by(words)
        listener = self.listener
        gone = tuple(defect for defect in listener.listen(went)[0].defects if defect in left) if went else ()
        heard, told = listener.listen(stayed if gone else words, session.item)
        new = news(told, session)
        if gone and {*gone} == {*left} and not new:
            return session.make(Cured(fix.id))
        tried = TriedFix(fix.id, BETTER if gone else "", gone)
        afresh = look_afresh(self.consultation) and any(denies(each.move, left) for each in new)
        if afresh or (not gone and not any(isinstance(each.move, Saw) for each in new)):
            return self._told(words)
        moves = listener.confirm([*([Telling(tried)] if gone else []), *new], heard.not_understood)
        if moves and tried not in moves:
            moves = (TriedFix(fix.id), *moves)
        return after(session, moves) if moves else None

    def _call(self, *, asked: bool = False) -> Session:
        """``asked``: the person wanted to hand over in place of a question, to which going back leads."""
        cards.call_card(self.screen, self.consultation, asked=asked)
        while True:
            reply = ask(
                self.screen,
                numbers=0,
                letters=("d", "b", "w", "s"),
                names={**LETTERS, "d": "done, I call"},
                unshown="h",
            )
            if reply.letter == "d":
                return self.consultation.session.make(HandedOver())
            if reply.letter == "b" and asked:
                return self.consultation.session
            if reply.words and self._contrasted(reply.words):
                continue
            if told := self._told(reply.words) if reply.words else self._common(reply):
                return told

    def _contrasted(self, words: str) -> bool:
        """Whether the words held one cause against another, by their numbers in the list of what is believed: then
        what speaks for which was told."""
        if not (found := RATHER.fullmatch(words.strip())):
            return False
        listed = {str(place): suspect.cause for place, suspect in enumerate(self.consultation.suspects, 1)}
        one, other = (listed.get(number, "") for number in found.groups())
        if one and other and one != other:
            cards.contrast_card(self.screen, self.consultation, one, other)
        else:
            self.screen.line(say("no-such-two"))
        return True

    def _common(self, reply: Reply) -> Session | None:
        """What ``b``, ``w``, ``h`` and ``s`` do at every step."""
        if reply.letter == "b":
            return self._back()
        if reply.letter == "w":
            cards.beliefs_card(self.screen, self.consultation)
            self.screen.line(say("ask-of-beliefs"), "dim")
        elif reply.letter == "h":
            with progress(say("shaking-the-numbers")) as far:
                found = self.consultation.steadiness(far)
            self.screen.line(steady(found))
        elif reply.letter == "s":
            raise Left
        return None

    def _back(self) -> Session:
        """The session one step back: all that was said at that step is taken back together. In a dialogue gone on with,
        the last move, with what was seen after it."""
        if self.earlier:
            return self.earlier.pop()
        moves = list(self.consultation.session.moves)
        while moves and isinstance(moves[-1], Pressed | Saw | DidNotSee):
            moves.pop()
        before = Session(tuple(moves[:-1]))
        if self.opened or not before.evidence.seen:
            raise Reopened(
                Session(tuple(move for move in self.consultation.session.moves if isinstance(move, Pressed)))
            )
        return before

    def _tried(self, fix: Fix, result: int) -> Session:
        session = self.consultation.session
        if result == 1:
            return session.make(Cured(fix.id))
        if result == 2:
            return self._remaining(fix)
        if result == 3:
            return session.make(TriedFix(fix.id, SAME))
        return self._something_else(session.make(TriedFix(fix.id)))

    def _remaining(self, fix: Fix) -> Session:
        """The session after a fix that made it better: what is left is told by the numbers of what was seen, or in
        words. What was seen and is not named then has gone; what is new is seen from now on."""
        session, left = self.consultation.session, self.consultation.evidence.left
        while True:
            self.screen.line(say("what-is-left"), "title")
            if len(left) > 1:
                self._numbered([self.consultation.knowledge.defects[defect].title for defect in left])
            reply = ask_words(self.screen, say("what-is-left-in-words", many=len(left)), LEFT, unshown="s")
            if not reply.words or (several(reply, 1) and len(left) == 1):
                return session.make(TriedFix(fix.id, BETTER))
            if came_out(reply.words) == CURED:
                return session.make(Cured(fix.id))
            if chosen := several(reply, len(left)):
                gone = tuple(defect for number, defect in enumerate(left, 1) if number not in chosen)
                return session.make(TriedFix(fix.id, BETTER, gone))
            if told := self._remaining_in_words(fix, reply.words):
                return told

    def _remaining_in_words(self, fix: Fix, words: str) -> Session | None:
        """The session after what is left was told in words; None where they tell nothing of that, which has been said,
        or were not taken."""
        session, left, listener = self.consultation.session, self.consultation.evidence.left, self.listener
        went, stayed = gone_by(words)
        named = listener.listen(went)[0].defects if went else ()
        heard, told = listener.listen(stayed if named else words, session.item)
        new = [each for each in news(told, session) if not denies(each.move, left)]
        if not (named or {*heard.defects, *heard.not_seen} & {*left} or new):
            self.screen.line(self._nothing_new(heard, told))
            return None
        gone = gone_of(left, seen=heard.defects, went=(*named, *heard.not_seen))
        if {*gone} == {*left} and not new:
            return session.make(Cured(fix.id))
        tried = TriedFix(fix.id, BETTER, gone)
        if not gone and not new:
            return session.make(tried)
        moves = listener.confirm([*([Telling(tried)] if gone else []), *new], heard.not_understood)
        if not moves:
            return None
        return after(session, moves if tried in moves else (TriedFix(fix.id, BETTER), *moves))

    def _something_else(self, session: Session) -> Session:
        knowledge = self.consultation.knowledge
        self.screen.line(say("what-shows-now"), "title")
        reply = ask(self.screen, numbers=0, letters=("n",), names={"n": "nothing new after all"})
        if reply.letter:
            return session
        listener = self.listener
        heard, told = listener.listen(reply.words, session.item)
        new = news(told, session)
        if not new:
            other = knowledge.elsewhere.get(heard.elsewhere)
            self.screen.line(not_ours(other) if other else say("not-recognised-going-on"))
            return session
        if any(not isinstance(each.move, Saw) for each in new):
            return after(session, listener.confirm(new, heard.not_understood))
        for defect in heard.defects:
            self.screen.hang("+", named(knowledge.defects[defect]), style="good")
        return after(session, (each.move for each in new))

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
