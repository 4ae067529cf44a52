"""How goods are made ready, laid and pressed, in words; what each trial piece of new goods is for."""

from diagnose.foresight.ladder import GENTLER, LONGER, SHORTER, START, Ladder, Rung
from diagnose.foresight.settings import SettingLine
from diagnose.speech.amounts import seconds_between
from diagnose.speech.saying import say

SIGHTS = {  # what a piece may show, by what it is pressed for
    START: ("right", "pale", "soft", "burnt", "doubled"),
    LONGER: ("right", "pale", "yellow"),
    SHORTER: ("right", "pale", "soft"),
    GENTLER: ("right", "pale", "yellow"),
}


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


def seen_words(made: Ladder, rung: Rung) -> list[tuple[str, str]]:
    """What a trial piece may show, each with what to do then."""
    goods, purpose = "soft" if made.goods.soft else "hard", rung.purpose
    return [
        (say("piece-shows", purpose=purpose, sight=sight, goods=goods), say("piece-then", purpose=purpose, sight=sight))
        for sight in SIGHTS[purpose]
    ]
