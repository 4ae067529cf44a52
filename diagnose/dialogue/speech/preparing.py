"""What is told before a press, in words: the parts of the work, and goods that are refused."""

from typing import Final

from diagnose.dialogue.speech.spans import seconds
from diagnose.foresight.settings import Line
from diagnose.knowledge.model import Refused

PART_TITLES: Final = {
    "artwork": "Artwork",
    "pre-press": "Pre-press",
    "face": "Lies",
    "held": "Held",
    "cover": "Covered",
    "pad": "Below",
    "peel": "Peel",
}


def part_words(line: Line) -> str:
    """What is done, with its seconds before it: ``5–8 s. With a clean sheet over it; ...``."""
    return f"{seconds(line.seconds)}. {line.text}" if line.seconds and line.seconds[1] else line.text


def refusal(stuff: Refused) -> str:
    """That goods of a stuff are refused, why, and what to offer instead."""
    return f"{stuff.title}. {stuff.why} {stuff.instead}"
