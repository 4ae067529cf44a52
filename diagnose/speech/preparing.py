"""How goods are made ready, laid and pressed, in words; what each trial piece of new goods is for; what is refused."""

from diagnose.foresight.ladder import GENTLER, LONGER, SHORTER, Ladder, Rung
from diagnose.foresight.settings import SettingLine
from diagnose.knowledge.model import Refused
from diagnose.speech.amounts import seconds_between
from diagnose.speech.saying import say


def part_title(part: str) -> str:
    """The title of a part of the work round a press."""
    return say("part-title", part=part)


def done(line: SettingLine) -> str:
    """What is done about a part of the work."""
    return line.text or say("without-the-sheet")


def part_words(line: SettingLine) -> str:
    """The same, with its seconds before it: ``5–8 s. With a clean sheet over it; ...``."""
    if not (line.seconds and line.seconds[1]):
        return done(line)
    return f"{say('stated', words=seconds_between(line.seconds))} {done(line)}"


def purpose_words(rung: Rung) -> str:
    """Why a trial piece is pressed."""
    return say("piece-purpose", purpose=rung.purpose)


def seen_words(made: Ladder, rung: Rung) -> tuple[tuple[str, str], ...]:
    """What a trial piece may show, each with what to do then."""
    if rung.purpose == LONGER:
        return (
            (say("full-and-sharp"), say("keep-or-halve")),
            (say("still-pale"), say("time-is-not-it")),
            (say("white-yellow"), say("press-piece-4")),
        )
    if rung.purpose == SHORTER:
        return (
            (say("full-and-sharp"), say("keep-it")),
            (say("pale"), say("halve-the-distance")),
            (say("still-soft"), say("before-the-time")),
        )
    if rung.purpose == GENTLER:
        return (
            (say("full-and-white"), say("keep-it")),
            (say("white-but-pale"), say("add-a-third")),
            (say("still-yellow"), say("do-not-stand-it")),
        )
    goods = "soft" if made.goods.soft else "hard"
    return (
        (say("full-sharp-white"), say("keep-and-make-sure")),
        (say("pale-and-sharp"), say("too-little")),
        (say("edges-soft", goods=goods), say("too-much")),
        (say("burnt", goods=goods), say("too-hot-for-these")),
        (say("second-image"), say("sheet-moved")),
    )


def refusal(stuff: Refused) -> str:
    """That goods of a stuff are refused, why, and what to offer instead."""
    return say("refused", title=stuff.title, why=stuff.why, instead=stuff.instead)
