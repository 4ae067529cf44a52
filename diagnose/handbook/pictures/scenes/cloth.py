"""What the press did to cloth: pressed, glazed, flattened or melted it, or drove the dye through."""

from collections.abc import Callable
from math import cos, radians, sin

from diagnose.handbook.pictures.artwork import poster
from diagnose.handbook.pictures.bench import Canvas
from diagnose.handbook.pictures.colour import DAY, LINEN
from diagnose.handbook.pictures.effects import soft
from diagnose.handbook.pictures.goods import CUSHION, cushion, inside, piece, towel
from diagnose.handbook.pictures.marks import at, box, disc, group, line, oval, shape
from diagnose.handbook.pictures.prints import all_over, card_print, cloth_poster, free_print, free_towel, full_towel
from diagnose.handbook.pictures.scene import Scene

FOLDED = "M36 8H106L276 178V238H36Z"
CORNER = "M106 8V178H276Z"


def pressed_in(course: str, width: float = 3) -> str:
    """A line that stands in relief: dark on the side away from the light, bright on the other."""
    return at(1.6, 1.6, line(course, "#2c3742", width, opacity=0.7)) + at(
        -1.2, -1.2, line(course, "#fff", width, opacity=0.9)
    )


def _press_box(bench: Canvas) -> str:
    edge = "M50 22H262V218H50Z"
    flat = bench.fade("flat", "#fff", (0, 0.9), (0.35, 0.25), (0.55, 0.95), (0.8, 0.3), (1, 0.85), x2="1", y2="1")
    return towel(bench, shape(edge, "#dfe3e6"), shape(edge, flat), pressed_in(edge, 2.6), free_print(bench))


def _shine(bench: Canvas) -> str:
    gleam = bench.fade(
        "gleam", "#fff", (0.12, 0), (0.3, 0.85), (0.4, 0.1), (0.52, 0.1), (0.62, 0.8), (0.7, 0), x2="1", y2="0.7"
    )
    sparks = shape(
        "M86 62l4 14 14 4-14 4-4 14-4-14-14-4 14-4ZM226 150l3 11 11 3-11 3-3 11-3-11-11-3 11-3Z"
        "M206 50l2 8 8 2-8 2-2 8-2-8-8-2 8-2Z",
        "#fff",
    )
    return towel(bench, card_print(bench), box(46, 28, 220, 190, gleam), sparks)


def _pile(height: Callable[[int], int]) -> str:
    """A cloth with pile, from the side: every tuft as high as it is told to be."""
    colours = (DAY.sky, DAY.sun, DAY.sail, DAY.sky, DAY.hill)
    tufts = [
        line("".join(f"M{x} 196{_tuft(height(x), x)}" for x in range(20 + 54 * part, 74 + 54 * part, 6)), colour, 5.5)
        for part, colour in enumerate(colours)
    ]
    return group(box(12, 190, 288, 22, LINEN, stroke="#5a646d", stroke_width=2), *tufts)


def _tuft(high: int, x: int) -> str:
    sway = (x * 7) % 11 - 5
    return f"q{sway}-{high * 2 // 3} {sway // 2}-{high}" if high > 40 else f"q4-{high} 20-{high}"


def _crushed(bench: Canvas) -> str:
    plate = line("M92 168V176H226V168", "#3b4650", 2.5, stroke_dasharray="4 5")
    return _pile(lambda x: 16 if 88 < x < 212 else 104 + x % 9) + at(0, -20, plate)


def _standing(bench: Canvas) -> str:
    return _pile(lambda x: 104 + x % 9)


def _rays(x: float, y: float, first: int) -> str:
    """Narrow wedges round a point, thirty degrees apart."""
    course = ""
    for angle in range(first, 360, 30):
        near, far = ((x + 118 * cos(radians(turn)), y + 118 * sin(radians(turn))) for turn in (angle, angle + 9))
        course += f"M{x:.0f} {y:.0f}L{near[0]:.0f} {near[1]:.0f} {far[0]:.0f} {far[1]:.0f}Z"
    return course


def _melted(bench: Canvas) -> str:
    hole = "M150 92q22-12 40 4t30 30-10 42-40 18-46-12-14-42 40-40Z"
    dark = shape(_rays(168, 134, 8), "#1f2a33", opacity=0.24)
    light = shape(_rays(168, 134, 20), "#fff", opacity=0.6)
    rim = bench.glow("rim", "#5b3a17", (0.5, 0.9), (0.75, 0.4), (1, 0))
    return towel(
        bench,
        card_print(bench),
        soft(bench, 2.0, dark, light),
        oval(168, 134, 84, 78, rim),
        shape(hole, "#b7c0c8"),
        shape("M122 138q0-40 30-42t40 4 26 28q-30-24-56-20T122 138Z", "#5c656d"),
        shape(hole, "none", stroke="#3a210a", stroke_width=13, stroke_linejoin="round"),
        line("M113 128q6-30 36-38M224 134q0 34-28 48M132 184q18 12 40 8", "#e9c9a0", 3.5, opacity=0.9),
    )


def _embossed(bench: Canvas) -> str:
    button = "M206 78a25 25 0 1 0 .1 0M199 97v1M213 97v1M199 110v1M213 110v1"
    seam = "M36 188H276M36 204H276"
    stitches = line("M40 196H276", "#2c3742", 3, stroke_dasharray="9 7", opacity=0.65)
    zip_ = "M76 8V156M" + "M".join(f"{67 if row % 2 else 76} {18 + row * 9}h9" for row in range(16))
    return towel(bench, card_print(bench), *map(pressed_in, (button, seam, zip_)), stitches)


def _turned_over(bench: Canvas, back: str) -> str:
    front = piece(bench, "front", FOLDED, LINEN, cloth_poster(bench))
    flap = piece(bench, "flap", CORNER, LINEN, back)
    return front + flap


def _through(bench: Canvas) -> str:
    seen = group(all_over(poster(DAY.faint(0.45))), transform="matrix(0 1 1 0 98 -98)")
    return _turned_over(bench, seen)


def _clean_back(bench: Canvas) -> str:
    return _turned_over(bench, shape(CORNER, "#1f2a33", opacity=0.06))


def _cover(bench: Canvas, *gaps: str) -> str:
    buttons = group(
        *(
            disc(90, y, 10, "#f3ead2", stroke="#4c4433", stroke_width=2) + line(f"M87 {y}h.1M93 {y}h.1", "#4c4433", 3.4)
            for y in (62, 124, 186)
        )
    )
    seam = line("M90 18V230", "#1c2a3a", 2.5) + line("M97 20V228", "#1c2a3a", 1.5, stroke_dasharray="5 4")
    return cushion(bench, cloth_poster(bench), *gaps, seam, buttons)


def _gaps(bench: Canvas) -> str:
    beside = line("M83 14V234M105 14V234", LINEN, 6)
    rings = "".join(disc(90, y, 19, "none", stroke=LINEN, stroke_width=7) for y in (62, 124, 186))
    return _cover(bench, soft(bench, 0.8, beside, rings, line(CUSHION, LINEN, 15)))


def _overlap(bench: Canvas) -> str:
    first = inside(bench, "first", "M36 8H166V238H36Z", cloth_poster(bench))
    second = inside(bench, "second", "M150 8H276V238H150Z", at(0, 5, cloth_poster(bench)))
    twice = box(150, 8, 16, 230, "#0a1830", opacity=0.62)
    return towel(bench, first, second, twice, pressed_in("M150 8V238M166 8V238", 1.4))


SCENES = {
    "press-box": Scene(
        bad=_press_box,
        good=free_towel,
        under_bad="a pressed-in box",
        alternative=(
            "A straight frame is pressed into the bad cloth a little way outside the design, and the cloth within "
            "it is flat and gleams. The print itself is sound."
        ),
    ),
    "shine": Scene(
        bad=_shine,
        under_good="matt cloth",
        under_bad="glazed, shiny",
        alternative=(
            "Broad gleams lie over the bad piece as over oilcloth, from a surface that was pressed smooth. The "
            "colour is right."
        ),
    ),
    "crushed-pile": Scene(
        bad=_crushed,
        good=_standing,
        under_good="pile stands up",
        under_bad="pile lies flat",
        alternative=(
            "Seen from the side, the tufts in the middle of the bad cloth are pressed flat, while those beside it "
            "stand up."
        ),
    ),
    "melted-cloth": Scene(
        bad=_melted,
        under_bad="fused and holed",
        alternative=(
            "The bad cloth has a hole with a hard, dark, glossy rim, and the cloth round it is drawn together in folds."
        ),
    ),
    "embossed-marks": Scene(
        bad=_embossed,
        under_bad="seam, zip, button",
        alternative="The shapes of a zip, a button and a seam stand in relief in the bad piece, in full colour.",
    ),
    "through-back": Scene(
        bad=_through,
        good=_clean_back,
        under_good="the back is clean",
        under_bad="dye on the back",
        alternative=(
            "A corner of each piece is turned over: the back of the bad one shows a weaker copy of the picture, "
            "that of the good one is white."
        ),
    ),
    "gaps-at-seams": Scene(
        bad=_gaps,
        good=_cover,
        under_bad="pale at the seams",
        alternative=(
            "White lines follow the seam, the edge and the buttons of the bad cushion cover; a little way off, "
            "the print has its full colour."
        ),
    ),
    "overlap-lines": Scene(
        bad=_overlap,
        good=full_towel,
        under_good="one piece",
        under_bad="pressed in steps",
        alternative=(
            "A dark strip with hard edges runs down the bad piece, and the picture beyond it is a little lower than "
            "the one before."
        ),
    ),
}
