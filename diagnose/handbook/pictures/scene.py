"""A scene: what stands in the two halves of a picture, and the frame round them."""

from collections.abc import Callable
from dataclasses import dataclass
from xml.sax.saxutils import escape

from diagnose.handbook.pictures.bench import Canvas
from diagnose.handbook.pictures.marks import at, box, disc, group, lettering, line, tag
from diagnose.handbook.pictures.prints import card_towel

WIDTH = 640
HEIGHT = 300
Half = Callable[[Canvas], str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """A bad piece, the good one it is held against, and words for somebody who cannot see them."""

    bad: Half
    alternative: str
    good: Half = card_towel
    under_good: str = "as it should be"
    under_bad: str = "what went wrong"


def compose(scene: Scene, defect_id: str, title: str) -> str:
    """The whole picture. Every half lies on a card of its own, so that any page may stand behind it."""
    bench = Canvas(defect_id)
    tick = line("M-6 0l4 5 8-10", "#fff", 3.5)
    cross = line("M-5-5L5 5M5-5L-5 5", "#fff", 3.5)
    halves = (
        _card(0, scene.under_good, "#1e6b3c", tick, scene.good(bench)),
        _card(326, scene.under_bad, "#a3242b", cross, scene.bad(bench)),
    )
    return tag(
        "svg",
        tag("title", escape(title), id=bench.name("title")),
        tag("desc", escape(scene.alternative), id=bench.name("desc")),
        bench.definitions(),
        *halves,
        xmlns="http://www.w3.org/2000/svg",
        width=WIDTH,
        height=HEIGHT,
        viewBox=f"0 0 {WIDTH} {HEIGHT}",
        font_family="system-ui,sans-serif",
        stroke_linecap="round",
        role="img",
        aria_labelledby=bench.name("title"),
        aria_describedby=bench.name("desc"),
    )


def _card(left: float, label: str, colour: str, mark: str, half: str) -> str:
    return at(
        left,
        0,
        box(1, 1, 312, 298, "#b7c0c8", rx=12, stroke="#6c7780", stroke_width=2),
        group(disc(26, 26, 13, colour), at(26, 26, mark)),
        lettering(label, 48, 34, 23, "#14202b", font_weight=600),
        at(0, 48, half),
    )
