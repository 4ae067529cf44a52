"""Figures that a person reads off the press, a probe, a watch or a colour meter, and how each is written.

Held in °C, seconds, metres and sheets; a colour as L*, a* and b* under the names ``print.l`` and so on.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from diagnose.press.colour.lab import MOST, Lab
from diagnose.press.quantities import DWELL, LENGTH, TEMPERATURE, Unclear, dwell, length, plain, temperature

MOST_SHEETS = 20
AXES = ("l", "a", "b")


@dataclass(frozen=True, slots=True)
class Figure:
    """``title``: what was measured, within a sentence. ``example``: one as it may be written. ``beside``: the figure
    that gives it a meaning, asked for together with it ("" for none). ``window``: what makes sense, least and most.
    ``celsius``: the example of a temperature in °C."""

    id: str
    title: str
    example: str
    read: Callable[[str], float]
    window: tuple[float, float]
    beside: str = ""
    celsius: str = ""

    def shown(self, unit: str) -> str:
        """The example, temperatures in the unit ``C`` or ``F``."""
        return self.celsius if unit == "C" and self.celsius else self.example


def title(name: str) -> str:
    """What a figure or colour is, within a sentence."""
    return TITLES[name] if name in TITLES else f"the colour of {COLOURS[name]}"


def sheets(text: str) -> float:
    """A number of sheets, with the word or without."""
    text = plain(text, "a number of sheets", "2 sheets")
    found = re.fullmatch(r"\s*(\d{1,3})\s*(?:sheets?|layers?|papers?)?\s*", text.lower())
    if found is None or int(found[1]) > MOST_SHEETS:
        raise Unclear(f"'{text}' is not a number of sheets: write a whole one up to {MOST_SHEETS}, such as 2 sheets")
    return float(found[1])


DEGREES, SECONDS = (TEMPERATURE.least, TEMPERATURE.most), (1e-3, DWELL.most)
FIGURES: Mapping[str, Figure] = {
    each.id: each
    for each in (
        Figure("set", "the temperature on the display", "385F", temperature, DEGREES, celsius="196C"),
        Figure("dwell", "the time on the press's clock", "45s", dwell, SECONDS),
        Figure("probe", "what the probe reads on the platen", "371F", temperature, DEGREES, "set", "188C"),
        Figure("watch", "the time by a watch", "38s", dwell, SECONDS, "dwell"),
        Figure("sheets", "the sheets between platen and transfer", "2 sheets", sheets, (0.0, MOST_SHEETS)),
        Figure("thickness", "how thick the item is", "6mm", length, (1e-5, LENGTH.most)),
        Figure("strip", "what the strip reads between sheet and item", "365F", temperature, DEGREES, "set", "185C"),
    )
}
TITLES = {name: figure.title for name, figure in FIGURES.items()}
OF_HEAT, OF_TIME = ("set", "probe", "strip"), ("dwell", "watch")  # which are temperatures and times
COLOURS: Mapping[str, str] = {
    "proof": "the patch on a proof that was right",
    "print": "the same patch on this piece",
    "blank": "the bare ground of an unpressed piece",
    "ground": "the bare ground of this piece",
}
WINDOWS: Mapping[str, tuple[float, float]] = {  # what makes sense, least and most, by the name of a figure
    **{name: figure.window for name, figure in FIGURES.items()},
    **{f"{name}.{axis}": (0.0, 100.0) if axis == "l" else (-MOST, MOST) for name in COLOURS for axis in AXES},
}
NAMES = frozenset(WINDOWS)
ROUNDING = 1e-9  # beyond its window a figure may be off by so much


def sensible(name: str, value: float) -> bool:
    """Whether a figure that is held can be one; True for a name that is not known."""
    least, most = WINDOWS.get(name, (value, value))
    return least - ROUNDING <= value <= most + ROUNDING


def colour(name: str, value: Lab) -> dict[str, float]:
    """A colour as figures by their names."""
    return {f"{name}.{axis}": part for axis, part in zip(AXES, (value.lightness, value.a, value.b), strict=True)}


def typed(figure: Figure, text: str) -> dict[str, float]:
    """The figure in some typed words, with the one it stands beside where both are there: ``371F``, ``371F against
    385F``, ``371F where 385F is set``.

    Raises:
        Unclear: with what was expected.
    """
    text = plain(text, figure.title, figure.example)
    beside = FIGURES.get(figure.beside)
    parts = [part for part in re.split(r"\s+(?:against|where|but|not|of|for|instead of|/)\s+|\s*[;/]\s*", text) if part]
    if beside is None or len(parts) == 1:
        return {figure.id: figure.read(text)}
    if len(parts) > 2:
        raise Unclear(f"'{text}' is more than two figures: write {figure.example} against {beside.example}")
    return {figure.id: figure.read(parts[0]), beside.id: beside.read(_bare(parts[1]))}


def _bare(text: str) -> str:
    """The second figure without the words about it: ``the display's 385F``, ``385F is set``."""
    return re.sub(
        r"^(?:the\s+)?(?:display(?:'s)?|clock(?:'s)?|set)?\s*|\s*(?:is|was|are)?\s*(?:set|shown)?\s*$", "", text
    )
