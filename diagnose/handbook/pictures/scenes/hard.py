"""Coated and hard goods: tiles, boards and mugs."""

from diagnose.handbook.pictures.artwork import poster
from diagnose.handbook.pictures.bench import Canvas
from diagnose.handbook.pictures.colour import DAY, WHITE
from diagnose.handbook.pictures.goods import board, inside, mug, piece, tile
from diagnose.handbook.pictures.marks import at, box, disc, group, line, oval, shape, turned
from diagnose.handbook.pictures.prints import hard_poster
from diagnose.handbook.pictures.scene import Scene

PRINTED = DAY.on(WHITE)
BUBBLES = (
    (92, 66, 17),
    (130, 96, 9),
    (206, 84, 22),
    (176, 132, 13),
    (92, 150, 24),
    (228, 168, 15),
    (150, 190, 19),
    (64, 108, 7),
    (112, 200, 8),
    (246, 120, 8),
    (190, 206, 7),
    (158, 50, 8),
)


def _printed_tile(bench: Canvas) -> str:
    return tile(bench, hard_poster(bench))


def _printed_board(bench: Canvas) -> str:
    return board(bench, hard_poster(bench))


def _blisters(bench: Canvas) -> str:
    dome = bench.glow("dome", "#0b1722", (0.35, 0), (0.8, 0.25), (1, 0.6), cx="0.38", cy="0.34")
    light = bench.glow("light", "#fff", (0, 0.75), (1, 0), cx="0.36", cy="0.32", r="0.42")
    raised = "".join(disc(x, y, size, dome) + disc(x, y, size, light) for x, y, size in BUBBLES)
    burst = shape("M196 74l8-8 12 4 8 10-4 12-14 6-12-8Z", "#fff", stroke="#26313a", stroke_width=2)
    return board(bench, hard_poster(bench), raised, burst)


def _haze(bench: Canvas) -> str:
    milk = bench.glow("milk", "#eef1f2", (0, 0.62), (1, 0.82))
    wiped = "M36 8H276V238H36ZM70 214Q110 126 226 92L238 124Q142 154 108 226Z"
    return tile(bench, hard_poster(bench), shape(wiped, milk, fill_rule="evenodd"), gloss=False)


def _finger_mark(x: float, y: float, slant: float) -> str:
    ridges = line("M-9 14q9-38 18 0M-15 16q15-58 30 0M-4 15q4-18 8 0M-20 12q4-42 20-42t20 42", "#fff", 2.6, opacity=0.9)
    dent = oval(0, 0, 25, 33, "#16222d", opacity=0.35)
    return group(dent, ridges, transform=f"translate({x} {y}) rotate({slant})")


def _sticky(bench: Canvas) -> str:
    threads = "M196 92Q186 124 178 150M206 96Q200 124 196 152M218 98Q216 124 214 152M230 96Q232 122 234 148"
    strands = line(threads, "#16222d", 8, opacity=0.35) + line(threads, "#eef6fb", 5.5)
    pool = oval(206, 156, 46, 17, "#eef6fb", opacity=0.75, stroke="#16222d", stroke_width=1.5)
    finger = shape("M186 64Q184 100 212 102T240 66L312 0H222Z", "#51626f", stroke="#26313a", stroke_width=2.5)
    gleam = line("M200 62Q198 84 208 92", "#9fb0bc", 4)
    marks = _finger_mark(86, 76, -16) + _finger_mark(110, 186, 12)
    return board(bench, hard_poster(bench), marks, pool, strands) + finger + gleam


def _peels(bench: Canvas) -> str:
    body = shape("M272 96L252 104 240 96 210 130 196 128 176 160 158 158 142 188 124 190 104 238H272Z", "#8a7a66")
    scratches = line("M196 196l30-20M226 218l26-30M166 222l20-14M244 146l18-16", "#6d5f4e", 3)
    roll = "M272 62C250 48 224 62 206 80C166 118 108 166 78 212C68 226 76 236 88 238L108 238Q122 206 158 170T272 104Z"
    under = bench.fade("under", "#1f2a33", (0.3, 0.05), (0.5, 0), (0.68, 0.5), x2="0.8", y2="1")
    flakes = shape("M206 162l16-6 8 12-14 10ZM240 204l12-8 8 14-14 6ZM160 206l14-4 2 14-14 2Z", DAY.sea)
    return board(
        bench,
        hard_poster(bench),
        body,
        scratches,
        shape(roll, "#f6f7f8", stroke="#3b4650", stroke_width=2),
        shape(roll, under),
        group(flakes, stroke="#fff", stroke_width=2),
    )


def _bow(command: str, left: float, right: float, y: float, sag: float) -> str:
    """A line from one side to the other whose middle lies at ``y`` and whose ends stand ``sag`` above it."""
    return f"{command}{left:.0f} {y - sag:.0f}Q{(left + right) / 2:.0f} {y + sag:.0f} {right:.0f} {y - sag:.0f}"


def _on_table(sag: float) -> str:
    """A board on the table, seen from a low side."""
    near, back = _bow("M", 18, 294, 176, sag), _bow("L", 242, 70, 96, sag) + "Z"
    horizon = _bow("L", 270, 42, 134, sag) + "Z"
    edge = near + f"v20Q156 {196 + sag:.0f} 18 {196 - sag:.0f}Z"
    ink = "#26313a"
    return group(
        box(2, 196, 308, 44, "#8a6d48"),
        line("M2 196H310", "#4f3b22", 3),
        oval(156, 203, 140, 8, "#20160a", opacity=0.55),
        shape(near + back, DAY.sky),
        shape(near + horizon, DAY.sea),
        at(88, 66, _small_boat(), scale=1.15),
        shape(near + back, "none", stroke=ink, stroke_width=2),
        shape(edge, "#e2cfa8", stroke=ink, stroke_width=2),
    )


def _small_boat() -> str:
    return group(
        shape("M60 4V50H22Q48 30 60 4Z", "#fff"),
        shape("M66 8Q72 36 96 50H66Z", DAY.sail),
        shape("M16 54H108Q102 68 90 70H34Q20 68 16 54Z", DAY.black),
    )


def _flat(bench: Canvas) -> str:
    return _on_table(0)


def _warped(bench: Canvas) -> str:
    arrows = line("M30 196V140M24 150l6-11 6 11M282 196V140M276 150l6-11 6 11", "#a3242b", 3.5)
    return _on_table(44) + at(0, -2, arrows)


def _cracked(bench: Canvas) -> str:
    whole = "M46 10H198L206 40 230 58 238 84 272 100V232Q272 238 266 238H46Q40 238 40 232V16Q40 10 46 10Z"
    corner = "M198 10L206 40 230 58 238 84 272 100V16Q272 10 266 10Z"
    crack = (
        "M40 74L78 92 96 84 132 120 146 112 176 158 170 178 206 200 214 238"
        "M132 120L120 160 92 178 86 238M206 40L176 66 146 112"
    )
    broken = line(crack, "#fff", 6, opacity=0.85) + line(crack, "#10161c", 2.8)
    sprung = turned(8, 236, 54, piece(bench, "corner", corner, WHITE, hard_poster(bench)))
    return piece(bench, "rest", whole, WHITE, hard_poster(bench), broken) + at(24, -7, sprung)


def _on_mug(bench: Canvas, name: str, outline: str) -> str:
    wrap = bench.once("wrap", at(48, 64, poster(PRINTED), scale=0.8))
    return mug(bench, inside(bench, name, outline, wrap))


def _covered(bench: Canvas) -> str:
    return _on_mug(bench, "whole", "M44 20H212V234H44Z")


def _bare_edges(bench: Canvas) -> str:
    return _on_mug(bench, "short", "M44 50H182V204H44Z")


SCENES = {
    "blisters": Scene(
        bad=_blisters,
        good=_printed_board,
        under_bad="bubbled coat",
        alternative=(
            "Round bubbles of several sizes stand up in the face of the bad board, each with a gleam and a shadow."
        ),
    ),
    "haze": Scene(
        bad=_haze,
        good=_printed_tile,
        under_good="clear and glossy",
        under_bad="milky and dull",
        alternative=(
            "A milky film dulls the bad tile; where a wet finger has wiped across, the full colour shows through."
        ),
    ),
    "sticky-surface": Scene(
        bad=_sticky,
        good=_printed_board,
        under_good="hard when cold",
        under_bad="soft and tacky",
        alternative=(
            "The face of the bad board has taken finger marks, and strings of soft coating hang from a gloved "
            "finger that touched it."
        ),
    ),
    "coating-peels": Scene(
        bad=_peels,
        good=_printed_board,
        under_bad="coat lifts off",
        alternative=(
            "The coat of the bad board curls up from one corner and takes the picture with it; the bare brown "
            "body shows below."
        ),
    ),
    "warping": Scene(
        bad=_warped,
        good=_flat,
        under_good="lies flat",
        under_bad="corners stand up",
        alternative=(
            "Seen from the side, the bad board touches the table with its middle only; its corners stand up. The "
            "print is right."
        ),
    ),
    "cracking": Scene(
        bad=_cracked,
        good=_printed_tile,
        under_bad="cracked",
        alternative="Dark cracks branch through the bad tile, and a corner has sprung off.",
    ),
    "bare-edges": Scene(
        bad=_bare_edges,
        good=_covered,
        under_good="printed all over",
        under_bad="edges left white",
        alternative=(
            "The picture on the bad mug stops short of rim, foot and handle, where white strips are left bare."
        ),
    ),
}
