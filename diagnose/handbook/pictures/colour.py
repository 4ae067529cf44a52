"""Colours as red, green and blue, and what heat, water and missing ink make of them."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import NamedTuple


class Colour(NamedTuple):
    """One colour; each part from 0 to 255."""

    red: int
    green: int
    blue: int

    def __str__(self) -> str:
        return "#" + self.digits

    @property
    def digits(self) -> str:
        """The colour as six hexadecimal digits."""
        return f"{self.red:02x}{self.green:02x}{self.blue:02x}"

    def towards(self, other: "Colour", share: float) -> "Colour":
        """A mixture that holds ``share`` of the other colour."""
        return Colour(*(round(a + (b - a) * share) for a, b in zip(self, other, strict=True)))

    def over(self, ground: "Colour") -> "Colour":
        """What is seen of a clear dye on a coloured ground: each takes its part of the light away."""
        return Colour(*(a * b // 255 for a, b in zip(self, ground, strict=True)))


WHITE = Colour(255, 255, 255)
LINEN = Colour(250, 248, 241)
BLACK = Colour(26, 26, 31)
GREY = Colour(128, 132, 138)
CYAN = Colour(0, 158, 219)
MAGENTA = Colour(214, 30, 120)
YELLOW = Colour(247, 203, 22)
NAVY = Colour(38, 46, 76)
BROWN = Colour(104, 64, 28)
CREAM = Colour(247, 233, 176)


@dataclass(frozen=True, slots=True, kw_only=True)
class Inks:
    """The colours of the artwork. ``bare`` is where it carries no ink and the piece shows."""

    sky: Colour
    sun: Colour
    hill: Colour
    sail: Colour
    sea: Colour
    black: Colour = BLACK
    bare: Colour = LINEN

    def each(self, change: Callable[[Colour], Colour]) -> "Inks":
        """Every ink changed; the piece itself stays."""
        return Inks(
            sky=change(self.sky),
            sun=change(self.sun),
            hill=change(self.hill),
            sail=change(self.sail),
            sea=change(self.sea),
            black=change(self.black),
            bare=self.bare,
        )

    def faint(self, share: float) -> "Inks":
        """Every ink lighter by the same share."""
        return self.each(lambda ink: ink.towards(self.bare, share))

    def on(self, ground: Colour) -> "Inks":
        """The same inks on a piece of another white."""
        return replace(self, bare=ground)

    def dyed(self, ground: Colour) -> "Inks":
        """What is seen of them on a coloured piece."""
        return self.each(lambda ink: ink.over(ground)).on(ground)


DAY = Inks(
    sky=Colour(64, 164, 222),
    sun=Colour(250, 190, 30),
    hill=Colour(74, 158, 74),
    sail=Colour(216, 44, 52),
    sea=Colour(20, 84, 150),
)
NIGHT = replace(
    DAY, sky=Colour(26, 28, 40), sun=Colour(252, 222, 120), hill=Colour(44, 48, 58), sea=Colour(16, 60, 110)
)
