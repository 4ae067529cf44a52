"""Patches of colour in the terminal, where it has colours enough; elsewhere nothing is drawn."""

import os

from diagnose.cli.terminal.screen import Screen
from diagnose.press.colour.conversion import to_srgb
from diagnose.press.colour.lab import Lab

MANY, SOME, NONE = "all colours", "256 colours", "none"
CUBE = (0, 95, 135, 175, 215, 255)


def depth(screen: Screen) -> str:
    """How many colours the terminal shows: none where colour is off (NO_COLOR, TERM=dumb) or there are just a few."""
    if not screen.colour:
        return NONE
    if os.environ.get("COLORTERM", "").lower() in ("truecolor", "24bit"):
        return MANY
    return SOME if "256" in os.environ.get("TERM", "") or os.environ.get("FORCE_COLOR") in ("2", "3") else NONE


def ground(screen: Screen, colour: Lab, light: str = "D65") -> str:
    """A ground of this colour in a terminal's own numbers (ECMA-48, select graphic rendition); "" where the terminal
    has no colours for it."""
    found = depth(screen)
    if found == NONE:
        return ""
    red, green, blue = to_srgb(colour, light)
    return f"48;2;{red};{green};{blue}" if found == MANY else f"48;5;{_nearest(red, green, blue)}"


def _nearest(red: int, green: int, blue: int) -> int:
    """The nearest of the 6 × 6 × 6 cube and the 24 greys that 256 colours hold."""
    steps = [min(range(6), key=lambda step, value=value: abs(CUBE[step] - value)) for value in (red, green, blue)]  # type: ignore[misc]
    grey = min(23, max(0, round(((red + green + blue) / 3 - 8) / 10)))
    tone = 8 + 10 * grey
    off_cube = sum((CUBE[step] - value) ** 2 for step, value in zip(steps, (red, green, blue), strict=True))
    off_grey = sum((tone - value) ** 2 for value in (red, green, blue))
    return 232 + grey if off_grey < off_cube else 16 + 36 * steps[0] + 6 * steps[1] + steps[2]
