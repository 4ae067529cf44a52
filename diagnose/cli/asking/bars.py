"""Goods that should not be pressed at all: that is said first, and gone on with only if the person wants it."""

from dataclasses import dataclass, field

from diagnose.cli.asking.prompts import Left, ask
from diagnose.cli.terminal.screen import Screen
from diagnose.dialogue.consultation import Consultation
from diagnose.speech.saying import say

YES_NO = {"y": "yes", "n": "no"}


@dataclass(slots=True)
class Bars:
    """Says on a screen what bars goods from the press, each thing once."""

    screen: Screen
    told: set[str] = field(default_factory=set)

    def prove(self, consultation: Consultation) -> None:
        """Say what bars the goods, where something new does, and ask whether to go on. Raises Left where not."""
        if {each.id for each in consultation.barred} <= self.told:
            return
        tell(self.screen, consultation)
        self.told |= {each.id for each in consultation.barred}
        go_on(self.screen)


def tell(screen: Screen, consultation: Consultation) -> None:
    """What bars the goods from the press, and what to do instead."""
    for each in consultation.barred:
        screen.hang("!", say("not-pressed", why=each.why, do=each.do), style="bad")


def go_on(screen: Screen) -> None:
    """Ask whether to go on with goods that should not be pressed. Raises Left where not."""
    screen.line(say("go-on-all-the-same"), "title")
    while (reply := ask(screen, numbers=0, letters=tuple(YES_NO), names=YES_NO, unshown="s")).letter != "y":
        if reply.letter:
            raise Left
        screen.line(say("on-or-not"))
