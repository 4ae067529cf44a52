"""The parts of the work round a press, in words."""

from typing import Final

from diagnose.dialogue.speech.spans import seconds
from diagnose.foresight.settings import SettingLine

PART_TITLES: Final = {
    "artwork": "Artwork",
    "pre-press": "Pre-press",
    "face": "Lies",
    "held": "Held",
    "cover": "Covered",
    "pad": "Below",
    "peel": "Peel",
}


def part_words(line: SettingLine) -> str:
    """What is done, with its seconds before it: ``5–8 s. With a clean sheet over it; ...``."""
    return f"{seconds(line.seconds)}. {line.text}" if line.seconds and line.seconds[1] else line.text
