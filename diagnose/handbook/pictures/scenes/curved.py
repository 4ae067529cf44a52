"""Round and hollow goods: mugs, tumblers and plates, and what the wrap or the platen did to them."""

from diagnose.handbook.pictures.artwork import poster
from diagnose.handbook.pictures.bench import Canvas
from diagnose.handbook.pictures.colour import DAY, WHITE
from diagnose.handbook.pictures.effects import soft
from diagnose.handbook.pictures.goods import inside, mug, piece
from diagnose.handbook.pictures.marks import at, box, disc, group, lettering, line, shape, turned
from diagnose.handbook.pictures.prints import hard_poster
from diagnose.handbook.pictures.scene import Scene

PRINTED = DAY.on(WHITE)
CONE = "M36 18H230L200 222Q198 234 186 234H80Q68 234 66 222Z"
PLATE = "M156 5A118 118 0 1 0 156.1 5Z"


def _wrap(bench: Canvas) -> str:
    return bench.once("wrap", at(48, 64, poster(PRINTED), scale=0.8))


def _covered(bench: Canvas) -> str:
    return mug(bench, _wrap(bench))


def _join(bench: Canvas) -> str:
    left = inside(bench, "left", "M44 20H122V234H44Z", _wrap(bench))
    right = inside(bench, "right", "M132 20H212V234H132Z", at(8, 9, _wrap(bench)))
    return mug(bench, left, right, line("M122 20V234M132 20V234", "#14202b", 1.4, opacity=0.5))


def _sleeve_marks(bench: Canvas) -> str:
    seam = "M92 20Q86 120 94 234"
    folds = "M118 182Q146 200 206 190M112 204Q150 220 208 212M128 40Q160 52 210 44"
    dull = soft(bench, 4.0, line(seam + folds, WHITE, 13, opacity=0.8))
    return mug(bench, _wrap(bench), dull, line(seam, "#10283f", 3.2), line(folds, "#10283f", 2.4))


def _arc(y: float, sag: float) -> str:
    """A line round the cone, level where it does not sag."""
    return f"M20 {y - sag:.0f}Q133 {y + sag:.0f} 246 {y - sag:.0f}"


def _cone(bench: Canvas, sag: float) -> str:
    """A tapered mug whose pictures, lines and words run level or bend."""
    handle = line("M216 66Q286 60 278 116T206 172", "#5a646d", 23) + line("M216 66Q286 60 278 116T206 172", WHITE, 18)
    sea = shape(_arc(136, sag) + "V260H20Z", DAY.sea)
    bands = line(_arc(158, sag) + _arc(178, sag), WHITE, 5)
    border = line(_arc(52, sag) + _arc(206, sag), DAY.sail, 8)
    words = "".join(_sign(sign, x, sag) for sign, x in zip("FÊTE", (82, 112, 142, 172), strict=True))
    round_ = bench.fade("round", "#1f2a33", (0, 0.34), (0.22, 0), (0.7, 0), (1, 0.38))
    body = piece(bench, "cone", CONE, WHITE, sea, bands, border, words, box(36, 18, 194, 216, round_))
    return group(handle, body)


def _sign(sign: str, x: float, sag: float) -> str:
    """One letter on the line that hangs through by ``sag``."""
    off = x - 127
    letter = lettering(sign, x, 104 + sag - abs(off) * sag / 45, 30, DAY.black, font_weight=700, text_anchor="middle")
    return turned(-off * sag / 70, x, 96, letter)


def _level(bench: Canvas) -> str:
    return _cone(bench, 0)


def _bowed(bench: Canvas) -> str:
    return _cone(bench, 24)


def _plate(bench: Canvas, *weak: str) -> str:
    """A plate from above: rim and well."""
    well = disc(156, 123, 74, "none", stroke="#14202b", stroke_width=2, opacity=0.45)
    gleam = line("M66 92Q84 40 134 26", "#fff", 6, opacity=0.5)
    return piece(bench, "plate", PLATE, WHITE, hard_poster(bench), *weak, well, gleam)


def _whole_plate(bench: Canvas) -> str:
    return _plate(bench)


def _pale_well(bench: Canvas) -> str:
    return _plate(bench, disc(156, 123, 84, bench.glow("pale", "#fff", (0, 0.9), (0.72, 0.86), (1, 0))))


SCENES = {
    "wrap-join": Scene(
        bad=_join,
        good=_covered,
        under_good="ends meet",
        under_bad="ends do not meet",
        alternative=(
            "A white stripe runs from rim to foot of the bad mug, and the picture to the right of it stands lower than "
            "the one to the left."
        ),
    ),
    "sleeve-marks": Scene(
        bad=_sleeve_marks,
        good=_covered,
        under_good="even all round",
        under_bad="seam and wrinkles",
        alternative=(
            "A dark line with a pale border runs down the picture of the bad mug, "
            "and wrinkles cross it near rim and foot."
        ),
    ),
    "bowed-image": Scene(
        bad=_bowed,
        good=_level,
        under_good="lines run level",
        under_bad="lines bend",
        alternative=(
            "On the bad tapered mug horizon, borders and words hang through in the middle and climb at both sides, "
            "like a smile."
        ),
    ),
    "pale-hollow": Scene(
        bad=_pale_well,
        good=_whole_plate,
        under_good="full to the well",
        under_bad="pale in the well",
        alternative="The well of the bad plate is nearly white, while its rim has the full colour of the picture.",
    ),
}
