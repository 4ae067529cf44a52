"""Wrong hue: of the print, of the ground beneath it, or of something that does not belong there."""

from dataclasses import replace

from diagnose.handbook.pictures.artwork import GREY_ROW, INK_ROW, postcard, swatches, vignette
from diagnose.handbook.pictures.bench import Canvas
from diagnose.handbook.pictures.colour import BLACK, BROWN, CREAM, DAY, LINEN, NIGHT, Inks, Rgb
from diagnose.handbook.pictures.effects import CLOTH, soft, wash
from diagnose.handbook.pictures.goods import piece, towel
from diagnose.handbook.pictures.marks import at, box, disc, group, lettering, oval, shape, turned
from diagnose.handbook.pictures.prints import free_print, free_towel, on_cloth
from diagnose.handbook.pictures.scene import Scene


def _with_row(bench: Canvas, inks: Inks, row: tuple[Rgb | None, ...]) -> str:
    return towel(bench, at(56, 24, postcard(inks), at(0, 164, swatches(*row))))


def _pink(colour: Rgb) -> Rgb:
    return colour.towards(Rgb(236, 60, 150), 0.38)


def _cast(bench: Canvas) -> str:
    return _with_row(bench, DAY.each(_pink), tuple(_pink(grey) for grey in GREY_ROW))


def _no_yellow(colour: Rgb) -> Rgb:
    return colour._replace(blue=max(*colour, 225))


def _missing(bench: Canvas) -> str:
    cyan, magenta, _, black = INK_ROW
    without = replace(DAY.each(_no_yellow), sun=LINEN.towards(magenta, 0.1), black=DAY.black)
    return _with_row(bench, without, (cyan, magenta, None, black))


def _true_black(bench: Canvas) -> str:
    return _with_row(bench, NIGHT, (BLACK,) * 5)


def _browned(bench: Canvas) -> str:
    brown = NIGHT.each(lambda ink: BROWN if sum(ink) < 170 else ink)
    return _with_row(bench, brown, (BROWN,) * 5)


def _yellowed(bench: Canvas) -> str:
    inks = DAY.on(CREAM)
    return towel(bench, on_cloth(vignette(inks)), ground=CREAM) + _scrap(bench)


def _still_white(bench: Canvas) -> str:
    return free_towel(bench) + _scrap(bench)


def _scrap(bench: Canvas) -> str:
    """A scrap of the same cloth, never pressed, laid on the corner for comparison."""
    return turned(-7, 70, 40, piece(bench, "scrap", "M14 4l6 5 6-5 6 5 6-5 6 5 6-5 6 5 6-5 6 5 6-5V66H14Z", LINEN))


def _tinted(bench: Canvas) -> str:
    tint = Rgb(214, 60, 150)
    sheet = box(46, 24, 220, 196, tint, opacity=0.15)
    breath = soft(bench, 12.0, oval(156, 112, 96, 70, tint), opacity=0.24)
    return towel(bench, sheet, breath, free_print(bench))


def _scorched(bench: Canvas) -> str:
    tan = bench.glow("tan", "#9a6118", (0, 0.85), (0.5, 0.6), (1, 0))
    toast = bench.glow("toast", "#57300c", (0, 0.8), (1, 0))
    burns = group(
        wash(CLOTH, "#b98238", opacity=0.22),
        oval(214, 176, 118, 100, tan),
        oval(66, 40, 82, 66, tan),
        oval(228, 194, 56, 46, toast),
    )
    return towel(bench, free_print(bench), burns)


def _stray(bench: Canvas) -> str:
    pink = Rgb(226, 70, 140)
    fish = shape("M0 30Q34-8 84 24L112 2V58L84 36Q34 68 0 30Z", pink) + disc(22, 26, 5, LINEN)
    reversed_word = group(
        lettering("CAKES", 0, 0, 50, pink, font_weight=700), transform="translate(262 92) scale(-1 1)"
    )
    earlier = group(turned(-14, 156, 150, reversed_word, at(56, 168, fish)), opacity=0.42)
    return towel(bench, earlier, free_print(bench))


SCENES = {
    "colour-cast": Scene(
        bad=_cast,
        good=lambda bench: _with_row(bench, DAY, GREY_ROW),
        under_good="greys are grey",
        under_bad="greys turn pink",
        alternative=(
            "The whole of the bad piece leans to pink: sky, hill and even the row of grey patches below the picture."
        ),
    ),
    "missing-colour": Scene(
        bad=_missing,
        good=lambda bench: _with_row(bench, DAY, INK_ROW),
        under_good="all four inks",
        under_bad="no yellow at all",
        alternative=(
            "On the bad piece the yellow patch is empty, the sun is nearly gone, the green hill is blue and the "
            "red sail purple."
        ),
    ),
    "browned-blacks": Scene(
        bad=_browned,
        good=_true_black,
        under_good="black is black",
        under_bad="black gone brown",
        alternative=(
            "Night sky, hull and lettering of the bad piece are brown where they should be black. Moon, sail and "
            "sea have their right colours."
        ),
    ),
    "yellowed-ground": Scene(
        bad=_yellowed,
        good=_still_white,
        under_good="still white",
        under_bad="ground gone cream",
        alternative=(
            "The whole ground of the bad piece is cream beside the scrap of unpressed white cloth on its corner."
        ),
    ),
    "tinted-surround": Scene(
        bad=_tinted,
        good=free_towel,
        under_good="clean ground",
        under_bad="tint all round",
        alternative=(
            "A faint pink lies round the design of the bad piece and ends in a straight edge where the sheet ended."
        ),
    ),
    "scorching": Scene(
        bad=_scorched,
        good=free_towel,
        alternative=(
            "Tan to brown patches lie over print and bare cloth of the bad piece, darkest where it was hottest."
        ),
    ),
    "stray-dye": Scene(
        bad=_stray,
        good=free_towel,
        under_bad="an earlier job",
        alternative=(
            "Behind the boat on the bad piece stand a faint pink fish and a word that reads backwards, both from "
            "another job."
        ),
    ),
}
