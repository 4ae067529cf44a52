"""What of a colour difference a person sees, and which plain name a colour has: as kinds, not yet in words."""

from collections.abc import Iterator
from dataclasses import dataclass

from diagnose.press.colour.difference import Difference
from diagnose.press.colour.lab import Lab

SEEN = 0.5  # in CIEDE2000: a part below this goes unsaid
A_LITTLE, MUCH = 1.5, 5.0
NEUTRAL = 8.0  # chroma up to which a colour passes for white, grey or black
HUES = {"red": 25.0, "yellow": 90.0, "green": 164.0, "blue": 246.0, "purple": 315.0}  # where people place them, about
FAR = {"unseen": 0.5, "just": 1.0, "side-by-side": 2.0, "glance": 5.0, "plain": float("inf")}  # common practice


@dataclass(frozen=True, slots=True, order=True)
class Change:
    """One way in which a print looks other than its proof, and by how much in CIEDE2000. ``kind``: ``lighter``,
    ``more-colourful``, ``turned`` towards a ``hue``, ``yellower`` and so on."""

    size: float
    kind: str
    hue: str = ""

    @property
    def degree(self) -> str:
        return "little" if self.size < A_LITTLE else "much" if self.size > MUCH else "some"


def changes(difference: Difference) -> list[Change]:
    """What is seen, the strongest first."""
    return sorted((change for change in _all(difference) if change.size >= SEEN), reverse=True)


def _all(difference: Difference) -> Iterator[Change]:
    """Every way it may differ; on white, grey or black a shift is seen as a tint, its size in CIELAB, which is near
    enough there."""
    parts = difference.parts
    yield Change(abs(parts.lightness), "lighter" if parts.lightness > 0 else "darker")
    if is_neutral(difference.proof):
        yield Change(abs(difference.b), "yellower" if difference.b > 0 else "bluer")
        yield Change(abs(difference.a), "redder" if difference.a > 0 else "greener")
        return
    yield Change(abs(parts.chroma), "more-colourful" if parts.chroma > 0 else "less-colourful")
    if not is_neutral(difference.print_):
        yield Change(abs(parts.hue), "turned", towards(difference))


def how_far(distance: float) -> str:
    """What a CIEDE2000 means to a person: one of ``FAR``."""
    return next(far for far, bound in FAR.items() if distance < bound)


def is_neutral(colour: Lab) -> bool:
    return colour.chroma <= NEUTRAL


def towards(difference: Difference) -> str:
    """The hue that a turn leads to: the next one on its way, but for those it leaves behind."""
    hue, turn = difference.proof.hue, difference.hue
    way = {name: (place - hue if turn > 0 else hue - place) % 360.0 for name, place in HUES.items()}
    return min((name for name in way if way[name] > 0.6 * abs(turn)), key=way.__getitem__, default="red")


def named(colour: Lab) -> tuple[str, str]:
    """How deep a colour is (``dark``, ``pale``, ``greyish``, ``light`` or "") and its hue: ``dark`` and ``blue``."""
    if is_neutral(colour):
        bounds = ((25.0, "", "black"), (45.0, "dark", "grey"), (70.0, "", "grey"), (88.0, "light", "grey"))
        return next(((depth, hue) for bound, depth, hue in bounds if colour.lightness < bound), ("", "white"))
    if colour.lightness > 85 and colour.chroma < 15 and 55 < colour.hue < 110:
        return "", "cream"
    hues = {
        20.0: "pink" if colour.lightness > 60 else "red", 45.0: "red", 75.0: "orange", 105.0: "yellow",
        195.0: "green", 240.0: "turquoise", 300.0: "blue", 335.0: "purple", 360.0: "pink",
    }  # fmt: skip
    hue = next(word for bound, word in hues.items() if colour.hue <= bound)
    if hue == "orange" and colour.lightness < 50:
        hue = "brown"
    return _depth(colour, hue), hue


def _depth(colour: Lab, hue: str) -> str:
    if colour.lightness < 32:
        return "dark"
    if colour.lightness > 75 and colour.chroma < 40 and hue != "pink":
        return "pale"
    return "greyish" if colour.chroma < 20 else ""
