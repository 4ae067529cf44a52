"""The artwork on every piece: a boat in the harbour, for the village fête."""

from diagnose.handbook.pictures.colour import CYAN, DAY, GREY, MAGENTA, YELLOW, Inks, Rgb
from diagnose.handbook.pictures.marks import Value, at, box, disc, group, lettering, line, shape


def vignette(inks: Inks = DAY) -> str:
    """The boat, the sun and the words, standing free on the piece."""
    waves = line("M18 108q11-9 22 0t22 0 22 0 22 0 22 0 22 0 22 0", inks.sea, 5)
    return group(_sun(inks), at(0, 4, _boat(inks)), waves, words(inks.black))


def postcard(inks: Inks = DAY) -> str:
    """The boat in a picture of full colour, with the words below."""
    return group(view(inks), words(inks.black))


def view(inks: Inks = DAY) -> str:
    """The picture of the postcard alone, 200 wide and 118 high."""
    return group(
        box(0, 0, 200, 118, inks.sky),
        _sun(inks),
        shape("M0 86Q30 40 66 62T120 86Z", inks.hill),
        box(0, 86, 200, 32, inks.sea),
        _waves(inks),
        _boat(inks),
    )


def poster(inks: Inks = DAY) -> str:
    """The picture made large, to run over all edges: 60 beyond its width and height on every side."""
    return group(
        box(-60, -60, 320, 280, inks.sky),
        _sun(inks),
        shape("M-60 86Q-20 24 34 48T120 86Z", inks.hill),
        box(-60, 86, 320, 132, inks.sea),
        _waves(inks),
        _boat(inks),
        words(inks.bare),
    )


def words(colour: Value) -> str:
    """What the fête's posters say, set to the picture's width whatever the face."""
    return lettering(
        "VILLAGE FÊTE", 2, 150, 27, colour, font_weight=700, textLength=196, lengthAdjust="spacingAndGlyphs"
    )


def swatches(*colours: Rgb | None) -> str:
    """A row of test patches; one that got no ink is left as an outline."""
    return group(
        *(
            box(4 + 40 * place, 0, 32, 24, colour or "none", stroke="#8a8f96", stroke_width=1.5)
            for place, colour in enumerate(colours)
        )
    )


INK_ROW = (CYAN, MAGENTA, YELLOW, DAY.black)
GREY_ROW = tuple(GREY.towards(DAY.bare, share) for share in (-0.6, -0.2, 0.2, 0.5, 0.75))


def _sun(inks: Inks) -> str:
    rays = "M166 6v-3M166 58v3M140 32h-3M192 32h3M148 14l-2-2M184 14l2-2M148 50l-2 2M184 50l2 2"
    return group(disc(166, 32, 19, inks.sun), line(rays, inks.sun, 4))


def _waves(inks: Inks) -> str:
    return line("M8 108q8-7 16 0t16 0M150 104q8-7 16 0t16 0", inks.bare, 3)


def _boat(inks: Inks) -> str:
    return group(
        shape("M96 10V80H48Q80 56 96 10Z", inks.bare, stroke=inks.black, stroke_width=1.5),
        shape("M104 18Q112 58 142 80H104Z", inks.sail),
        line("M100 4V86", inks.black, 4),
        shape("M100 3l18 5-18 6Z", inks.sail),
        shape("M40 84H154Q148 104 132 106H64Q46 104 40 84Z", inks.black),
        line("M52 92H142", inks.bare, 2.5),
    )
