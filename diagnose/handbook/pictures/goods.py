"""The pieces themselves, each about 240 wide and 232 high, in a panel of 312 by 246."""

from diagnose.handbook.pictures.bench import Canvas
from diagnose.handbook.pictures.colour import LINEN, WHITE, Rgb
from diagnose.handbook.pictures.marks import box, disc, group, line, shape

TOWEL = "M36 8H276V238H36Z"
TILE = "M46 10H266Q272 10 272 16V232Q272 238 266 238H46Q40 238 40 232V16Q40 10 46 10Z"
CUSHION = "M40 12Q156 26 272 12Q258 123 272 236Q156 222 40 236Q54 123 40 12Z"
BOARD = "M52 14H260Q272 14 272 26V224Q272 236 260 236H52Q40 236 40 224V26Q40 14 52 14Z"
SHEET = "M50 6H262V240H50Z"
MUG = "M44 20H212V214Q212 232 194 232H62Q44 232 44 214Z"


def towel(bench: Canvas, *prints: str, ground: Rgb = LINEN) -> str:
    """A tea towel: plain weave, a stitched hem, a loop to hang it by."""
    loop = line("M56 8q-8-11 4-11t4 11", "#7b858f", 3)
    hem = line("M43 15H269V231H43Z", _darker(ground, 0.25), 1.5, stroke_dasharray="5 4")
    return piece(bench, "towel", TOWEL, ground, *prints, made_of=(loop, _weave(bench, TOWEL, ground), hem))


def cushion(bench: Canvas, *prints: str, ground: Rgb = LINEN) -> str:
    """A cushion cover, a little drawn in between its corners."""
    return piece(bench, "cushion", CUSHION, ground, *prints)


def tile(bench: Canvas, *prints: str, gloss: bool = True) -> str:
    """A ceramic tile with its bevelled edge and a gleam over one corner."""
    gleam = shape("M40 100L130 10H176L40 152Z", "#fff", opacity=0.28) if gloss else ""
    bevel = line("M43 235V13H269", "#fff", 3, opacity=0.7)
    return piece(bench, "tile", TILE, WHITE, *prints, gleam, bevel)


def board(bench: Canvas, *prints: str) -> str:
    """A coated board with a hole to hang it by."""
    hole = disc(248, 38, 9, "#8d979f", stroke="#5a646d", stroke_width=2)
    return piece(bench, "board", BOARD, WHITE, *prints, hole)


def sheet(bench: Canvas, *prints: str) -> str:
    """A printed sheet of transfer paper, one corner curled."""
    curl = shape("M262 240V192L214 240Z", "#cfd3d5", stroke="#5a646d", stroke_width=2)
    return piece(bench, "sheet", SHEET, Rgb(243, 244, 240), *prints, curl)


def mug(bench: Canvas, *prints: str) -> str:
    """A mug from the side, its handle to the right."""
    handle = line("M208 66Q274 62 272 124T208 184", "#5a646d", 23) + line("M208 66Q274 62 272 124T208 184", WHITE, 18)
    round_ = bench.fade("round", "#1f2a33", (0, 0.34), (0.22, 0), (0.7, 0), (1, 0.38))
    return group(handle, piece(bench, "mug", MUG, WHITE, *prints, box(44, 20, 168, 214, round_)))


def inside(bench: Canvas, name: str, outline: str, *layers: str) -> str:
    """Layers cut off at an outline."""
    return group(*layers, clip_path=bench.clip(name, outline))


def piece(bench: Canvas, name: str, outline: str, ground: Rgb, *layers: str, made_of: tuple[str, ...] = ()) -> str:
    """Anything flat: its shadow on the bench, its ground and what belongs to it, and layers that end where it ends."""
    shadow = shape(outline, "#1f2a33", opacity=0.28, transform="translate(4 5)")
    return group(
        bench.once(f"{name}-{ground.digits}", shadow, shape(outline, ground), *made_of),
        inside(bench, name, outline, *layers),
        shape(outline, "none", stroke="#5a646d", stroke_width=2),
    )


def _weave(bench: Canvas, outline: str, ground: Rgb) -> str:
    thread = line("M0 .5H5M.5 0V5", _darker(ground, 0.09), 1)
    return shape(outline, bench.pattern(f"weave-{ground.digits}", 5, 5, thread))


def _darker(ground: Rgb, share: float) -> Rgb:
    return ground.towards(Rgb(70, 76, 84), share)
