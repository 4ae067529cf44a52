"""Too little colour or too much of it: all over, in places, or against a dark ground."""

from dataclasses import replace

from diagnose.handbook.pictures.artwork import postcard, view
from diagnose.handbook.pictures.bench import Canvas
from diagnose.handbook.pictures.colour import BLACK, BROWN, DAY, GREY, LINEN, NAVY, Inks, Rgb
from diagnose.handbook.pictures.effects import CLOTH, WHOLE_PRINT, heather, soft, stripes, wash
from diagnose.handbook.pictures.goods import piece, sheet, towel
from diagnose.handbook.pictures.marks import at, box, disc, group, lettering, shape
from diagnose.handbook.pictures.prints import card_print, cloth_poster, full_towel, on_cloth
from diagnose.handbook.pictures.scene import Scene

SMALL = "M8 2H212V132H8Z"


def _faint(bench: Canvas) -> str:
    return towel(bench, on_cloth(postcard(DAY.faint(0.58))))


def _poor_uptake(bench: Canvas) -> str:
    muted = DAY.each(lambda ink: ink.towards(GREY, 0.25).towards(LINEN, 0.2))
    return towel(bench, on_cloth(postcard(muted)), heather(bench, WHOLE_PRINT, LINEN))


def _too_dark(bench: Canvas) -> str:
    heavy = replace(DAY.each(lambda ink: ink.towards(BLACK, 0.6)), sun=DAY.sun.towards(BROWN, 0.35))
    closed = on_cloth(
        shape("M30 86H166V118H30Z", BLACK, opacity=0.5), shape("M104 18Q112 58 142 80H104Z", BLACK, opacity=0.4)
    )
    return towel(bench, on_cloth(postcard(heavy)), closed)


def _one_side_pale(bench: Canvas) -> str:
    pale = bench.fade("pale", LINEN, (0.15, 0), (0.85, 0.9))
    return towel(bench, cloth_poster(bench), wash(CLOTH, pale))


def _cold_corners(bench: Canvas) -> str:
    cold = bench.glow("cold", LINEN, (0.3, 0.95), (1, 0))
    return towel(bench, cloth_poster(bench), disc(276, 238, 135, cold))


def _blotches(bench: Canvas) -> str:
    thin = shape(
        "M70 48q26-14 34 8t-22 22-12-30ZM170 56q22-18 44-2t-2 30-42-28ZM118 96q20 4 12 26t-34 6 22-32Z"
        "M186 118q34-10 54 10t-30 22-24-32ZM60 128q16-8 30 8t-20 18-10-26Z",
        LINEN,
        opacity=0.75,
    )
    deep = shape(
        "M120 44q24-6 30 10t-24 16-6-26ZM66 92q20-4 22 14t-24 10 2-24ZM204 92q24-6 36 8t-22 16-14-24Z"
        "M130 132q20-6 30 8t-22 14-8-22Z",
        Rgb(10, 40, 90),
        opacity=0.5,
    )
    return towel(
        bench, card_print(bench), soft(bench, 5.0, thin, deep, clip_path=bench.clip("print", "M56 40h200v118H56Z"))
    )


def _beside_its_sheet(bench: Canvas, on_piece: float, on_sheet: float) -> str:
    """A piece and the sheet it was pressed with; how much of the dye is on each."""
    print_ = bench.once("view", view())
    cloth = piece(bench, "cloth", SMALL, LINEN, group(at(22, 14, print_, scale=0.88), opacity=on_piece))
    mirrored = group(print_, transform="translate(256 64) scale(-1 1)", opacity=on_sheet)
    label = lettering("its sheet:", 24, 206, 22, "#14202b")
    return at(6, 4, cloth) + label + at(116, 102, sheet(bench, mirrored), scale=0.6)


def _no_transfer(bench: Canvas) -> str:
    return _beside_its_sheet(bench, 0.07, 0.93)


def _all_came_over(bench: Canvas) -> str:
    return _beside_its_sheet(bench, 1, 0.2)


def _lost_on_dark(bench: Canvas) -> str:
    return towel(bench, on_cloth(postcard(DAY.dyed(NAVY))), ground=NAVY)


def _run(bench: Canvas, *tones: tuple[str, Inks]) -> str:
    """Pieces of one run, fanned out; the tone of each, and what it is called."""
    fan = ""
    for place, (name, inks) in enumerate(tones):
        printed = piece(bench, "cloth", SMALL, LINEN, at(22, 14, view(inks), scale=0.88))
        fan += at(4 + 44 * place, 2 + 52 * place, bench.once(name, printed))
    return fan


def _unlike(bench: Canvas) -> str:
    reddish = DAY.each(lambda ink: ink.towards(Rgb(214, 60, 110), 0.42))
    return _run(bench, ("right", DAY), ("pale", DAY.faint(0.6)), ("reddish", reddish))


def _alike(bench: Canvas) -> str:
    return _run(bench, *[("right", DAY)] * 3)


def _bars(bench: Canvas, *thinning: str) -> str:
    """A sheet with a long solid, and a short one that was printed after a rest."""
    return sheet(bench, box(72, 22, 168, 144, DAY.sea), *thinning, box(72, 192, 118, 24, DAY.sea))


def _starved(bench: Canvas) -> str:
    paper = Rgb(243, 244, 240)
    thin = box(72, 22, 168, 144, bench.fade("thin", paper, (0.2, 0), (1, 0.86), x2="0", y2="1"))
    return _bars(bench, thin, stripes((72, 96, 168, 70), 8.0, paper, 2.4, stroke_opacity=0.8))


SCENES = {
    "faint-colour": Scene(
        bad=_faint,
        under_good="as the proof",
        under_bad="pale all over",
        alternative=(
            "Every colour of the bad piece is weak by about the same share, and the black is grey. Edges are as "
            "sharp as on the good one."
        ),
    ),
    "poor-uptake": Scene(
        bad=_poor_uptake,
        under_good="on polyester",
        under_bad="on a cotton blend",
        alternative=(
            "The bad piece is muted and heathered: white threads lie among the coloured ones in every solid area, "
            "while the outlines are sharp."
        ),
    ),
    "too-dark": Scene(
        bad=_too_dark,
        alternative=(
            "The bad piece is heavy and muddy: hull, sea and hill have run together into one dark mass, and light "
            "lines in it are gone."
        ),
    ),
    "one-side-pale": Scene(
        bad=_one_side_pale,
        good=full_towel,
        alternative=(
            "The bad piece has full colour at its left and fades evenly, without a step, to almost nothing at its "
            "right."
        ),
    ),
    "cold-corners": Scene(
        bad=_cold_corners,
        good=full_towel,
        alternative=(
            "The lower right corner of the bad piece is nearly white and gains colour gradually; all else is in "
            "full colour."
        ),
    ),
    "blotches": Scene(
        bad=_blotches,
        alternative=(
            "Cloudy patches, some pale and some deep, spoil the flat colour of sky and sea on the bad piece. The "
            "lettering looks right."
        ),
    ),
    "no-transfer": Scene(
        bad=_no_transfer,
        good=_all_came_over,
        under_bad="it stayed behind",
        alternative=(
            "The bad piece is blank but for a shadow of the picture, and the sheet beside it still has all its "
            "colour. With the good piece it is the other way round."
        ),
    ),
    "lost-on-dark": Scene(
        bad=_lost_on_dark,
        under_good="on a white cloth",
        under_bad="on a dark cloth",
        alternative=(
            "On the dark cloth of the bad piece the picture hardly shows, and the white sail has the colour of "
            "the cloth."
        ),
    ),
    "batch-differences": Scene(
        bad=_unlike,
        good=_alike,
        under_good="one like another",
        under_bad="no two alike",
        alternative=(
            "Of three pieces of the bad run one is right, one is pale and one leans to red. Those of the good run "
            "match."
        ),
    ),
    "starved-solids": Scene(
        bad=_starved,
        good=_bars,
        under_good="even to the end",
        under_bad="thins as it goes",
        alternative=(
            "The long solid on the bad sheet fades from full blue at its top to pale streaks at its foot; the short "
            "one below it is full again."
        ),
    ),
}
