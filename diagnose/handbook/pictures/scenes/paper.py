"""What the paper did: ink that ran or smeared on it, shreds that stayed, tape that held it."""

from diagnose.handbook.pictures.bench import Canvas
from diagnose.handbook.pictures.colour import DAY
from diagnose.handbook.pictures.effects import soft
from diagnose.handbook.pictures.goods import towel
from diagnose.handbook.pictures.marks import box, group, line, oval, shape, turned
from diagnose.handbook.pictures.prints import card_print, free_print, free_towel
from diagnose.handbook.pictures.scene import Scene


def _bleeding(bench: Canvas) -> str:
    return towel(bench, group(card_print(bench), filter=bench.fraying(26.0)))


def _smears(bench: Canvas) -> str:
    streaks = group(
        line("M200 129C232 126 254 136 290 130M186 140C226 146 250 140 284 150", DAY.black, 10),
        line("M190 98C226 92 246 106 284 98M196 112C226 108 246 118 276 114", DAY.sail, 9),
        line("M120 188C140 206 170 210 222 214M190 188C212 202 236 206 272 204", DAY.black, 10),
        opacity=0.6,
    )
    thumb = group(
        oval(86, 208, 15, 19, DAY.black, opacity=0.3),
        line("M76 214q10-24 20 0M80 218q6-14 12 0M73 206q13-24 26 0", DAY.black, 2.4),
        opacity=0.75,
    )
    return towel(bench, free_print(bench), soft(bench, 2.2, streaks), turned(18, 86, 208, thumb))


def _stuck(bench: Canvas) -> str:
    shred = (
        "M276 104l-20 8-12-6-16 14-22-4-8 16-24 0-6 14-22 6 4 16-20 10 2 18-18 12-2 30H276Z"
        "M60 52l22-10 14 8 20-4 4 18-16 10 4 14-22 6-18-8-14 4 2-20ZM70 168l18-6 10 12-8 16-20 2Z"
    )
    fuzz = line(
        "M256 112l-7-5M228 120l-6-6M198 132l-8-4M168 146l-8-5M146 166l-9 2M128 194l-8 2M82 42l-4-8M120 64l8-4",
        "#fff",
        2,
    )
    grey = shape(shred, "#dcd9d2", stroke="#8c8880", stroke_width=1.5)
    shade = shape(shred, "#1f2a33", opacity=0.4, transform="translate(3 4)")
    return towel(bench, card_print(bench), shade, grey, fuzz)


def _tape(bench: Canvas) -> str:
    strips = [
        group(
            box(x, y, 74, 24, "#fff8dc", opacity=0.72),
            line(f"M{x} {y}h74M{x} {y + 24}h74", "#8d6b25", 2.2, opacity=0.75),
            transform=f"rotate({slant} {x + 37} {y + 12})",
        )
        for x, y, slant in ((36, 44, -45), (203, 44, 45), (36, 136, 45), (203, 136, -45))
    ]
    return towel(bench, card_print(bench), *strips)


SCENES = {
    "ink-bleeding": Scene(
        bad=_bleeding,
        under_bad="colours run",
        alternative=(
            "On the bad piece every edge is feathered: whiskers grow out of the letters, and colours creep into "
            "each other."
        ),
    ),
    "wet-smears": Scene(
        bad=_smears,
        good=free_towel,
        under_bad="ink dragged along",
        alternative=(
            "Streaks of black and red are dragged out of the picture of the bad piece, and a thumb has left its mark."
        ),
    ),
    "paper-sticks": Scene(
        bad=_stuck,
        under_good="peeled clean",
        under_bad="shreds stay on",
        alternative=(
            "Torn shreds of grey paper with ragged edges cling to the bad piece and hide parts of the picture."
        ),
    ),
    "tape-marks": Scene(
        bad=_tape,
        under_bad="tape marks",
        alternative=(
            "Four pale strips with sticky brown edges cross the corners of the bad picture, just where tape held "
            "the sheet."
        ),
    ),
}
