"""Specks, stripes, waves and rings: marks spread over the print."""

from diagnose.handbook.pictures.artwork import postcard
from diagnose.handbook.pictures.bench import Canvas
from diagnose.handbook.pictures.colour import LINEN, NIGHT
from diagnose.handbook.pictures.effects import PRINT, WHOLE_PRINT, dots, fibres, grain, soft, stripes
from diagnose.handbook.pictures.goods import inside, towel
from diagnose.handbook.pictures.marks import disc, group, line, shape
from diagnose.handbook.pictures.prints import card_print, free_print, free_towel, on_cloth
from diagnose.handbook.pictures.scene import Scene

PICTURE = "M56 40h200v118H56Z"


def _night_print(bench: Canvas) -> str:
    return bench.once("night", on_cloth(postcard(NIGHT)))


def _night(bench: Canvas) -> str:
    return towel(bench, _night_print(bench))


def _banding(bench: Canvas) -> str:
    return towel(bench, card_print(bench), stripes(WHOLE_PRINT, 8.0, LINEN, 2.2, stroke_opacity=0.85))


def _grainy(bench: Canvas) -> str:
    return towel(bench, card_print(bench), grain(bench, WHOLE_PRINT, LINEN))


def _dark_specks(bench: Canvas) -> str:
    specks = dots(3, 34, (44, 18, 224, 210), "#1d2b4f", 4.5) + dots(5, 16, (44, 18, 224, 210), "#a02745", 4)
    return towel(bench, free_print(bench), specks, fibres(11, 15, (50, 24, 210, 196), "#27356b", 2.4, 12))


def _white_specks(bench: Canvas) -> str:
    left, top, wide, high = PRINT
    holes = dots(4, 60, (left, top, wide, high), LINEN, 4) + fibres(9, 16, (left, top, wide, high), LINEN, 2.2, 11)
    return towel(bench, _night_print(bench), holes)


def _roller_tracks(bench: Canvas) -> str:
    tracks = line("M74 40V158M112 40V158M150 40V158M188 40V158M226 40V158", LINEN, 3.6, stroke_dasharray="0 8")
    beside = line(
        "M80 40V158M118 40V158M156 40V158M194 40V158M232 40V158", LINEN, 2, stroke_dasharray="0 8", opacity=0.7
    )
    return towel(bench, _night_print(bench), tracks, beside)


def _cockle(bench: Canvas) -> str:
    wave = "v-6q14 20 0 42t2 42 0 42 0 30"
    light = line("".join(f"M{x} 34{wave}" for x in (72, 120, 170, 222)), LINEN, 13, stroke_opacity=0.8)
    dark = line("".join(f"M{x} 34{wave}" for x in (96, 145, 196, 244)), "#0c2a52", 10, stroke_opacity=0.6)
    return towel(bench, card_print(bench), inside(bench, "print", PICTURE, soft(bench, 3.5, light, dark)))


def _creases(bench: Canvas) -> str:
    shades = line("M36 84L276 50M84 8L136 238M36 206L276 156M238 8L204 238", "#1f2a33", 9, opacity=0.35)
    gaps = line("M36 78L276 44M90 8L142 238M36 200L276 150M232 8L198 238", LINEN, 5)
    folds = line("M36 81L276 47M87 8L139 238M36 203L276 153M235 8L201 238", "#4c5661", 1.6)
    return towel(bench, card_print(bench), soft(bench, 2.0, shades), gaps, folds)


def _water_marks(bench: Canvas) -> str:
    rings = group(
        *(
            disc(x, y, radius, LINEN, fill_opacity=0.55, stroke="#0d3f73", stroke_width=3.2, stroke_opacity=0.85)
            for x, y, radius in (
                (98, 74, 26),
                (232, 74, 19),
                (216, 178, 25),
                (70, 150, 13),
                (156, 50, 9),
                (132, 206, 12),
            )
        )
    )
    tide = shape(
        "M104 124C126 104 142 128 164 122S206 108 204 138 178 168 158 160 122 176 108 162 90 138 104 124Z",
        LINEN,
        fill_opacity=0.5,
        stroke="#0d3f73",
        stroke_width=3.2,
    )
    return towel(bench, card_print(bench), tide, rings)


SCENES = {
    "banding": Scene(
        bad=_banding,
        alternative="Fine pale stripes at even spacing run straight across the whole of the bad print.",
    ),
    "grainy": Scene(
        bad=_grainy,
        under_good="smooth tones",
        under_bad="sandy, dotted",
        alternative="The even tones of the bad piece look sandy: coarse dots stand singly with white between them.",
    ),
    "dark-specks": Scene(
        bad=_dark_specks,
        good=free_towel,
        under_bad="specks and hairs",
        alternative=(
            "Blue, red and dark dots and hair shapes lie scattered over print and white ground of the bad piece."
        ),
    ),
    "white-specks": Scene(
        bad=_white_specks,
        good=_night,
        under_bad="white pinholes",
        alternative="White pinholes and fibre-shaped gaps stand in the dark solid areas of the bad print.",
    ),
    "roller-tracks": Scene(
        bad=_roller_tracks,
        good=_night,
        under_bad="rows of dots",
        alternative="Rows of fine pale dots run down the dark areas of the bad print, side by side at even spacing.",
    ),
    "cockle-marks": Scene(
        bad=_cockle,
        alternative=(
            "Soft light and dark waves ripple through the bad picture, broad and uneven, like a buckled sheet of paper."
        ),
    ),
    "creases": Scene(
        bad=_creases,
        alternative=(
            "Sharp unprinted lines with a fold beside them run across the bad piece, crossing print and cloth."
        ),
    ),
    "water-marks": Scene(
        bad=_water_marks,
        under_bad="rings and tides",
        alternative="Pale rings and a tide line, each with a sharper dark rim, lie in no set place on the bad piece.",
    ),
}
