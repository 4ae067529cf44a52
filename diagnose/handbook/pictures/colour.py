"""Colours as red, green and blue, and what heat, water and missing ink make of them."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import NamedTuple


class Rgb(NamedTuple):
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

    def towards(self, other: "Rgb", share: float) -> "Rgb":
        """A mixture that holds ``share`` of the other colour."""
        return Rgb(*(round(a + (b - a) * share) for a, b in zip(self, other, strict=True)))

    def over(self, ground: "Rgb") -> "Rgb":
        """What is seen of a clear dye on a coloured ground: each takes its part of the light away."""
        return Rgb(*(a * b // 255 for a, b in zip(self, ground, strict=True)))


WHITE = Rgb(255, 255, 255)
LINEN = Rgb(250, 248, 241)
BLACK = Rgb(26, 26, 31)
GREY = Rgb(128, 132, 138)
CYAN = Rgb(0, 158, 219)
MAGENTA = Rgb(214, 30, 120)
YELLOW = Rgb(247, 203, 22)
NAVY = Rgb(38, 46, 76)
BROWN = Rgb(104, 64, 28)
CREAM = Rgb(247, 233, 176)


@dataclass(frozen=True, slots=True, kw_only=True)
class Inks:
    """The colours of the artwork. ``bare`` is where it carries no ink and the piece shows."""

    sky: Rgb
    sun: Rgb
    hill: Rgb
    sail: Rgb
    sea: Rgb
    black: Rgb = BLACK
    bare: Rgb = LINEN

    def each(self, change: Callable[[Rgb], Rgb]) -> "Inks":
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

    def on(self, ground: Rgb) -> "Inks":
        """The same inks on a piece of another white."""
        return replace(self, bare=ground)

    def dyed(self, ground: Rgb) -> "Inks":
        """What is seen of them on a coloured piece."""
        return self.each(lambda ink: ink.over(ground)).on(ground)


DAY = Inks(
    sky=Rgb(64, 164, 222),
    sun=Rgb(250, 190, 30),
    hill=Rgb(74, 158, 74),
    sail=Rgb(216, 44, 52),
    sea=Rgb(20, 84, 150),
)
NIGHT = replace(DAY, sky=Rgb(26, 28, 40), sun=Rgb(252, 222, 120), hill=Rgb(44, 48, 58), sea=Rgb(16, 60, 110))
