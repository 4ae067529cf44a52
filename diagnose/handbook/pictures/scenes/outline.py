"""Outlines: soft, doubled, reversed, askew or out of size."""

from diagnose.handbook.pictures.artwork import postcard, vignette
from diagnose.handbook.pictures.bench import Canvas
from diagnose.handbook.pictures.effects import soft
from diagnose.handbook.pictures.goods import towel
from diagnose.handbook.pictures.marks import at, box, group, line, turned
from diagnose.handbook.pictures.prints import card_print, free_print, free_towel, on_cloth
from diagnose.handbook.pictures.scene import Scene

ORDERED = box(52, 36, 208, 166, "none", stroke="#3b4650", stroke_width=2, stroke_dasharray="8 6")
CENTRE = line("M156 18V228M46 123H266", "#3b4650", 2, stroke_dasharray="2 7")


def _ghosting(bench: Canvas) -> str:
    second = group(free_print(bench), opacity=0.36)
    return towel(bench, at(10, 9, second), at(-3, -3, free_print(bench)))


def _blurred(bench: Canvas) -> str:
    return towel(bench, on_cloth(soft(bench, 2.8, vignette())))


def _mirrored(bench: Canvas) -> str:
    return towel(bench, group(card_print(bench), transform="translate(312) scale(-1 1)"))


def _crooked(bench: Canvas) -> str:
    return towel(bench, CENTRE, turned(9, 156, 123, at(50, 63, postcard())))


def _straight(bench: Canvas) -> str:
    return towel(bench, CENTRE, card_print(bench))


def _size_off(bench: Canvas) -> str:
    stretched = group(postcard(), transform="translate(46 72) scale(1.1 .52)")
    return towel(bench, stretched, ORDERED)


def _as_ordered(bench: Canvas) -> str:
    return towel(bench, card_print(bench), ORDERED)


SCENES = {
    "ghosting": Scene(
        bad=_ghosting,
        good=free_towel,
        under_good="one sharp image",
        under_bad="a second copy",
        alternative=(
            "Behind every shape and letter of the bad piece stands a second, paler copy, shifted down and to the "
            "right by the same distance everywhere."
        ),
    ),
    "blurred-edges": Scene(
        bad=_blurred,
        good=free_towel,
        under_good="crisp edges",
        under_bad="soft edges",
        alternative=(
            "All outlines of the bad piece are soft, as if out of focus, and the letters fill in. There is no "
            "second copy."
        ),
    ),
    "mirrored-image": Scene(
        bad=_mirrored,
        under_good="reads rightly",
        under_bad="reads backwards",
        alternative=(
            "The bad piece is the good one as in a mirror: its words run from right to left, its sun stands on "
            "the other side."
        ),
    ),
    "crooked-placement": Scene(
        bad=_crooked,
        good=_straight,
        under_good="square, centred",
        under_bad="askew, off centre",
        alternative=(
            "The picture on the bad piece is turned a little and sits off the dotted centre lines. It is sharp "
            "and single."
        ),
    ),
    "size-off": Scene(
        bad=_size_off,
        good=_as_ordered,
        under_good="as ordered",
        under_bad="stretched",
        alternative=(
            "The picture on the bad piece is wider and much lower than the dashed outline of the order; its sun "
            "is oval."
        ),
    ),
}
