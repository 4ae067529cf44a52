"""What is worn: stretch cloth, garments printed all over, and films on cotton."""

from diagnose.handbook.pictures.artwork import postcard
from diagnose.handbook.pictures.bench import Canvas
from diagnose.handbook.pictures.colour import DAY, LINEN, WHITE, Rgb
from diagnose.handbook.pictures.effects import soft
from diagnose.handbook.pictures.goods import piece
from diagnose.handbook.pictures.marks import at, box, group, line, oval, shape
from diagnose.handbook.pictures.prints import cloth_poster
from diagnose.handbook.pictures.scene import Scene

PULLED = "M22 38Q156 84 290 38V208Q156 162 22 208Z"
SHIRT = "M108 12Q156 42 204 12L284 54 256 112 224 96V238H88V96L56 112 28 54Z"
COTTON = Rgb(52, 58, 70)
FILM = (96, 84, 120, 104)  # left, top, width and height of a film on a shirt


def _stretched(bench: Canvas, *between: str) -> str:
    """Cloth pulled apart by both sides, and what opens between its threads."""
    pull = line("M18 123H4M10 115l-8 8 8 8M294 123h14M302 115l8 8-8 8", "#14202b", 4)
    return piece(bench, "pulled", PULLED, LINEN, cloth_poster(bench), *between) + pull


def _grins(bench: Canvas) -> str:
    wide = line("".join(f"M{x} 30V216" for x in range(92, 224, 11)), LINEN, 4.6)
    narrow = line("".join(f"M{x} 30V216" for x in (*range(36, 90, 11), *range(226, 284, 11))), LINEN, 2.2)
    rows = line("".join(f"M22 {y}H290" for y in range(52, 204, 12)), DAY.sea, 1.2, opacity=0.5)
    return _stretched(bench, wide, narrow, rows)


def _closed(bench: Canvas) -> str:
    return _stretched(bench)


def _shirt(bench: Canvas, *layers: str, ground: Rgb = LINEN) -> str:
    """A shirt with its seams."""
    seams = line("M88 96L84 26M224 96L228 26M104 14Q156 52 208 14", "#14202b", 1.6, opacity=0.55)
    return piece(bench, "shirt", SHIRT, ground, *layers, seams)


def _all_over(bench: Canvas) -> str:
    return _shirt(bench, cloth_poster(bench))


def _folds(bench: Canvas) -> str:
    wedges = shape(
        "M88 97L132 116 112 128 88 132ZM224 97L178 114 200 128 224 132ZM88 152L116 160 88 172ZM224 168L198 178 224 186Z"
        "M84 30L98 70 88 92 84 84ZM228 30L215 70 224 92 228 84Z",
        LINEN,
    )
    tucks = line(
        "M132 116L90 98M178 114L222 98M116 160L88 154M198 178L224 170M98 70L85 30M215 70L227 30", "#4c5661", 2.4
    )
    return _shirt(bench, cloth_poster(bench), wedges, tucks)


def _film(bench: Canvas) -> str:
    left, top, wide, high = FILM
    picture = at(left + 4, top + 6, postcard(DAY.on(WHITE)), scale=0.56)
    return bench.once("film", box(left, top, wide, high, WHITE, rx=3), picture)


def _on_cotton(bench: Canvas, *layers: str) -> str:
    return _shirt(bench, *layers, ground=COTTON)


def _holds(bench: Canvas) -> str:
    return _on_cotton(bench, _film(bench))


def _lifts(bench: Canvas) -> str:
    bare = shape("M218 136V190H152Z", COTTON)
    shadow = soft(bench, 4.0, shape("M218 140Q188 132 166 136Q160 158 158 192Z", "#000", opacity=0.6))
    flap = "M217 135Q186 118 162 118Q150 150 151 189Q180 160 217 135Z"
    back = bench.fade("back", "#1f2a33", (0.1, 0), (0.55, 0.16), (0.95, 0.42), x2="0.8", y2="0.9")
    curled = shape(flap, "#f4f6f7", stroke="#14202b", stroke_width=1.8) + shape(flap, back)
    return _on_cotton(bench, _film(bench), bare, shadow, curled)


def _cracks(bench: Canvas) -> str:
    course = (
        "M96 104L118 112 130 98 152 110 176 102 196 112 216 104M96 138L114 132 134 144 156 134 178 146 198 136 216 142"
        "M96 168L116 162 138 174 160 164 184 172 216 164M112 84L118 112 114 132 116 162 108 188M150 84L152 110 156 134 "
        "160 164 152 188M190 84L196 112 198 136 184 172 192 188M134 144L138 174M178 146L176 102"
    )
    islands = shape("M134 144l20-8 4 26-20 10ZM178 146l18-8-10 32Z", COTTON)
    return _on_cotton(bench, _film(bench), islands, line(course, COTTON, 3.4))


def _over_the_edge(course: str) -> str:
    """A printed cloth that reaches over the edge of a table, from the side."""
    bands = line(course, DAY.sky, 15) + line(course, DAY.sail, 15, stroke_dasharray="26 40", stroke_linecap="butt")
    table = box(2, 122, 138, 22, "#8a6d48") + box(112, 144, 18, 94, "#755a39") + line("M2 122H140", "#4f3b22", 3)
    return group(line(course, "#14202b", 20), line(course, LINEN, 17), bands, table)


def _drapes(bench: Canvas) -> str:
    return _over_the_edge("M18 112H132Q160 112 164 138Q170 168 158 196T166 226")


def _stands_out(bench: Canvas) -> str:
    floor = oval(226, 232, 66, 6, "#20160a", opacity=0.3)
    return floor + _over_the_edge("M18 112H150L296 118")


SCENES = {
    "white-when-stretched": Scene(
        bad=_grins,
        good=_closed,
        under_good="full when pulled",
        under_bad="white when pulled",
        alternative=(
            "Both cloths are pulled from the sides. In the bad one white lines open between the coloured threads, most "
            "of all in the middle."
        ),
    ),
    "white-at-folds": Scene(
        bad=_folds,
        good=_all_over,
        under_good="printed all over",
        under_bad="white in folds",
        alternative=(
            "White wedges and streaks stand in the bad shirt under the arms, at the side seams and the neck, where the "
            "cloth was tucked."
        ),
    ),
    "film-peels": Scene(
        bad=_lifts,
        good=_holds,
        under_good="film holds",
        under_bad="film lifts off",
        alternative=(
            "On the bad dark shirt a corner of the white film has rolled up and taken its part of the picture with it; "
            "bare cotton shows below."
        ),
    ),
    "film-cracks": Scene(
        bad=_cracks,
        good=_holds,
        under_good="film is whole",
        under_bad="film is cracked",
        alternative=(
            "The film on the bad shirt is broken into islands by a net of cracks, and dark cotton shows between them."
        ),
    ),
    "stiff-hand": Scene(
        bad=_stands_out,
        good=_drapes,
        under_good="falls softly",
        under_bad="stiff as a plank",
        alternative=(
            "Seen from the side, the good cloth falls over the table's edge in a soft curve, while the bad one stands "
            "straight out into the air."
        ),
    ),
}
