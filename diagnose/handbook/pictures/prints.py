"""The usual prints in their usual places, and the sound pieces that most scenes begin from.

Within one picture each print is written once, however often it is seen.
"""

from diagnose.handbook.pictures.artwork import postcard, poster, vignette
from diagnose.handbook.pictures.bench import Canvas
from diagnose.handbook.pictures.colour import DAY, WHITE
from diagnose.handbook.pictures.goods import towel
from diagnose.handbook.pictures.marks import at


def on_cloth(*artwork: str) -> str:
    """Artwork of the usual size in its place on a piece of cloth."""
    return at(56, 40, *artwork)


def all_over(*artwork: str) -> str:
    """The poster in its place on a piece that is covered to its edges."""
    return at(56, 44, *artwork)


def card_print(bench: Canvas) -> str:
    """The postcard on cloth, in full colour."""
    return bench.once("postcard", on_cloth(postcard()))


def free_print(bench: Canvas) -> str:
    """The boat standing free on cloth, in full colour."""
    return bench.once("vignette", on_cloth(vignette()))


def cloth_poster(bench: Canvas) -> str:
    """The poster all over a piece of cloth."""
    return bench.once("poster", all_over(poster(DAY)))


def hard_poster(bench: Canvas) -> str:
    """The poster all over a coated piece."""
    return bench.once("poster", all_over(poster(DAY.on(WHITE))))


def card_towel(bench: Canvas) -> str:
    """A tea towel with the postcard: sharp, even, in full colour."""
    return towel(bench, card_print(bench))


def free_towel(bench: Canvas) -> str:
    """A tea towel with the boat standing free on it."""
    return towel(bench, free_print(bench))


def full_towel(bench: Canvas) -> str:
    """A tea towel printed to its edges."""
    return towel(bench, cloth_poster(bench))
