"""What happened after a good press: in the box, in the wash, in the sun, under a finger."""

from diagnose.handbook.pictures.artwork import postcard
from diagnose.handbook.pictures.bench import Canvas
from diagnose.handbook.pictures.colour import DAY, LINEN, Rgb
from diagnose.handbook.pictures.effects import WHOLE_PRINT, heather, soft
from diagnose.handbook.pictures.goods import TOWEL, inside, towel
from diagnose.handbook.pictures.marks import at, box, disc, line, shape
from diagnose.handbook.pictures.prints import card_print, free_print, free_towel, on_cloth
from diagnose.handbook.pictures.scene import Scene


def _migrated(bench: Canvas) -> str:
    spread = soft(bench, 9.0, free_print(bench))
    return towel(bench, spread, spread, soft(bench, 1.6, free_print(bench), opacity=0.7))


def _washed(bench: Canvas) -> str:
    rope = line("M2 8Q156 20 310 8", "#4c5661", 3)
    pegs = "".join(box(x, 0, 11, 30, "#b98238", rx=3, stroke="#5a3c12", stroke_width=1.5) for x in (70, 232))
    drops = "".join(
        shape(f"M{x} {y}q8 12 0 17-8-5 0-17Z", DAY.sky, stroke="#17507e")
        for x, y in ((84, 204), (128, 214), (164, 202), (196, 222), (232, 208))
    )
    cloth = towel(bench, on_cloth(postcard(DAY.faint(0.58))), heather(bench, WHOLE_PRINT, LINEN, opacity=0.8))
    return rope + at(32, 8, cloth, scale=0.8) + pegs + drops


def _sunned(bench: Canvas) -> str:
    def bleached(ink: Rgb) -> Rgb:
        return ink.towards(Rgb(196, 222, 232), 0.5).towards(LINEN, 0.45)

    lit = inside(bench, "lit", "M36 8H276L36 238Z", on_cloth(postcard(DAY.each(bleached))))
    fresh = inside(bench, "fresh", "M276 8V238H36Z", card_print(bench))
    rays = line("M46 40L104 80M28 52L70 112M56 24L128 48", "#ffd23c", 6, opacity=0.9)
    sun = disc(28, 28, 23, "#ffd23c", stroke="#b97f00", stroke_width=2.5)
    fold = line("M276 8L36 238", "#5a646d", 2, stroke_dasharray="7 6")
    return towel(bench, lit, fresh, fold) + sun + rays


def _rubbed(bench: Canvas) -> str:
    path = "M84 66Q140 92 210 152"
    worn = soft(bench, 3.0, line(path, LINEN, 34, stroke_opacity=0.88))
    print_ = towel(bench, card_print(bench), inside(bench, "cloth", TOWEL, worn))
    pad = shape(
        "M200 128Q238 112 272 138T290 206Q262 240 224 226T186 168Q186 138 200 128Z",
        "#fff",
        stroke="#5a646d",
        stroke_width=2,
    )
    folds = line("M232 140Q262 150 272 196M252 132Q284 156 284 190", "#9aa5ae", 2.5)
    dye = soft(
        bench,
        2.0,
        line("M204 146Q222 166 212 196", DAY.sky, 20, opacity=0.85),
        line("M218 150Q236 168 228 206", DAY.sea, 12, opacity=0.8),
    )
    return print_ + pad + folds + dye


SCENES = {
    "migration": Scene(
        bad=_migrated,
        good=free_towel,
        under_good="off the press",
        under_bad="weeks later",
        alternative=(
            "In storage the colours of the bad piece have spread into each other and into the white ground, like "
            "a stain round every shape."
        ),
    ),
    "wash-out": Scene(
        bad=_washed,
        under_good="before washing",
        under_bad="after washing",
        alternative=(
            "After washing the piece is much paler and heathered with white threads, and coloured water drips from it."
        ),
    ),
    "faded-in-light": Scene(
        bad=_sunned,
        under_good="kept in the dark",
        under_bad="half in the sun",
        alternative=(
            "The half of the bad piece that faced the sun is bleached and bluish; the half that was folded away "
            "is still fresh."
        ),
    ),
    "rubs-off": Scene(
        bad=_rubbed,
        under_good="stays when rubbed",
        under_bad="comes off dry",
        alternative="A white cloth drawn over the bad print has left a thin pale track and is itself full of colour.",
    ),
}
