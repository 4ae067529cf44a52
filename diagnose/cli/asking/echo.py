"""What was heard is shown, a line for each thing; the person takes it, strikes lines out, or puts them right."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from diagnose.cli.asking.prompts import Reply, ask, several
from diagnose.cli.terminal.screen import Screen
from diagnose.dialogue.hearing import Heard, hear_again
from diagnose.dialogue.moves import DidNotSee, Move, Pressed, Saw
from diagnose.dialogue.taking import Telling, corrected_by, tellings
from diagnose.dialogue.wishes import adds, corrected
from diagnose.knowledge.model import Knowledge
from diagnose.reasoning.words import Lexicon
from diagnose.speech.heard import GROUND, Echo
from diagnose.speech.saying import say
from diagnose.speech.titles import refusal

RIGHT = {"y": "right, go on", "n": "say it again"}
NONE = {"n": say("none-of-these")}


@dataclass(slots=True)
class Listener:
    """Hears what is typed on a screen, and has it confirmed. ``unit``: the shop's, ``C`` or ``F``; ``ground``: the word
    that was said for the colour of the goods."""

    screen: Screen
    knowledge: Knowledge
    lexicon: Lexicon
    unit: str = "C"
    ground: str = ""

    def listen(self, words: str, item: str = "", *, again: bool = False) -> tuple[Heard, list[Telling]]:
        """What the words say, and that as tellings; of readings that come near each other, the one that is meant.
        ``item``: the one that is pressed as far as is known: goods that are merely mentioned are no other item.
        ``again``: what was said may be put right by naming other goods alone."""
        heard = hear_again(self.knowledge, self.lexicon, words)
        self.ground = heard.spoken.get(GROUND, self.ground)
        if item and heard.item not in ("", item) and not corrected(words) and (heard.of_the_fault or not again):
            heard = replace(heard, item="", facts=())
        told = tellings(heard, item)
        if heard.unsure:
            chosen, otherwise = self.which([self.line(reading) for reading in heard.unsure])
            if otherwise:
                return self.listen(otherwise, item, again=again)
            told += [Telling(move) for move in (heard.unsure[chosen] if chosen >= 0 else ())]
        return heard, told

    def which(self, readings: Sequence[str], question: str = "") -> tuple[int, str]:
        """The place of the reading that the person means, -1 where it is none of these; and what they say instead."""
        self.screen.line(question or say("which-do-you-mean"), "title")
        for number, reading in enumerate(readings, 1):
            self.screen.hang(f"{number:>2}", reading, style="key")
        reply = ask(self.screen, numbers=len(readings), letters=tuple(NONE), names=NONE, unshown="us")
        return reply.number - 1, reply.words

    def line(self, moves: Sequence[Move]) -> str:
        """Some moves in one line."""
        echo = Echo(self.knowledge, self.unit)
        return "; ".join(echo.move(move, self.ground) for move in moves)

    def confirm(self, told: list[Telling], not_understood: Sequence[str] = ()) -> tuple[Move, ...]:
        """What the person takes of what was heard; () where that is nothing, or all is to be said again."""
        while told:
            self._show(told, not_understood)
            more = say("a-number-strikes-one-out")
            reply = ask(self.screen, numbers=len(told), letters=tuple(RIGHT), names=RIGHT, more=more, unshown="bs")
            if reply.letter:
                return tuple(each.move for each in told) if reply.letter == "y" else ()
            if struck := several(reply, len(told)):
                told = [each for number, each in enumerate(told, 1) if number not in struck]
            else:
                told, not_understood = self._put_right(told, reply, not_understood)
        return ()

    def _show(self, told: list[Telling], not_understood: Sequence[str]) -> None:
        self.screen.line(_heading(told))
        echo = Echo(self.knowledge, self.unit)
        for number, each in enumerate(told, 1):
            self.screen.hang(f"{number:>2}", echo.line(each, self.ground), style="key")
        if not_understood:
            self.screen.line(say("not-understood", words=", ".join(not_understood)), "dim")

    def _put_right(self, told: list[Telling], reply: Reply, left: Sequence[str]) -> tuple[list[Telling], Sequence[str]]:
        """What was heard, with what other words put right."""
        item = next((each.move.item for each in told if isinstance(each.move, Pressed)), "")
        heard, anew = self.listen(reply.words, item, again=True)
        if heard.refused:
            self.screen.line(refusal(self.knowledge.refused[heard.refused]))
        if not anew:
            self.screen.line(say("not-recognised"))
            return told, left
        return corrected_by(told, anew, added=adds(reply.words)), heard.not_understood


def _heading(told: list[Telling]) -> str:
    if not any(isinstance(each.move, Saw) for each in told):
        return say("noted-so-far")
    sights = all(isinstance(each.move, Saw | DidNotSee) for each in told)
    return say("i-take-it-that-you-see") if sights else say("this-is-what-i-heard")
