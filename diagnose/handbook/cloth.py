"""Strips of cloth as SVG: what a print comes to, in its own colours; words in the colour of the text around."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape

from diagnose.press.colour.conversion import hexed
from diagnose.press.colour.lab import Lab

WIDTH, EDGE, LEFT = 420, 1.0, 62.0
PANEL, GAP, LABEL = 44.0, 3.0, 14
THREAD = 3.0  # from thread to thread
FACE = 'font-family="system-ui, sans-serif"'


@dataclass(frozen=True, slots=True)
class Panel:
    """A piece of cloth: its colour as a whole, and, where threads of two colours show, those with the share of the
    first."""

    colour: Lab
    label: str = ""
    threads: tuple[Lab, Lab] | None = None
    share: float = 1.0


def strip(name: str, title: str, about: str, rows: Sequence[tuple[str, Sequence[Panel]]]) -> str:
    """Rows of panels, each row with a word at its left; the labels of the last row stand below it."""
    columns = max(len(panels) for _, panels in rows)
    width = (WIDTH - LEFT - EDGE) / columns
    marks = []
    for number, (word, panels) in enumerate(rows):
        top = EDGE + number * (PANEL + GAP)
        marks.append(_text(0, top + PANEL / 2 + 5, word))
        for place, panel in enumerate(panels):
            marks += _panel(panel, LEFT + place * width, top, width - GAP, number == len(rows) - 1)
    height = EDGE + len(rows) * (PANEL + GAP) + LABEL + 8
    return _svg(name, title, about, height, marks)


def chips(name: str, title: str, about: str, pairs: Iterable[tuple[str, Lab, Lab]]) -> str:
    """Pairs of chips edge to edge, as a grey scale shows them, with a label below each."""
    pairs = list(pairs)
    width = (WIDTH - EDGE) / len(pairs)
    marks = []
    for place, (label, one, other) in enumerate(pairs):
        left, half = EDGE + place * width, (width - 5) / 2
        marks += [_box(left, EDGE, half, PANEL, one), _box(left + half, EDGE, half, PANEL, other)]
        marks.append(_edge(left, EDGE, 2 * half, PANEL))
        marks.append(_text(left + half, EDGE + PANEL + LABEL + 3, label, anchor="middle"))
    return _svg(name, title, about, EDGE + PANEL + LABEL + 10, marks)


def _panel(panel: Panel, left: float, top: float, width: float, labelled: bool) -> list[str]:
    marks = [_box(left, top, width, PANEL, panel.colour)]
    if panel.threads:
        marks += _weave(panel, left, top, width)
    marks.append(_edge(left, top, width, PANEL))
    if labelled and panel.label:
        marks.append(_text(left + width / 2, top + PANEL + LABEL + 3, panel.label, anchor="middle"))
    return marks


def _weave(panel: Panel, left: float, top: float, width: float) -> list[str]:
    """Threads of both fibres over the colour of the whole, spread evenly by their share: the heathered look."""
    assert panel.threads is not None
    paths = ["", ""]
    first = 0.0
    for number in range(int(width // THREAD)):
        first += panel.share
        which = 0 if first >= 1.0 else 1
        first -= 1.0 - which
        paths[which] += f"M{left + THREAD * (number + 0.5):.1f} {top:.0f}v{PANEL:.0f}"
    return [
        f'<path d="{path}" stroke="{hexed(colour)}" stroke-width="{THREAD / 3:g}" opacity="0.4"/>'
        for path, colour in zip(paths, panel.threads, strict=True)
        if path
    ]


def _box(left: float, top: float, width: float, height: float, colour: Lab) -> str:
    return f'<rect x="{left:.1f}" y="{top:.1f}" width="{width:.1f}" height="{height:.1f}" fill="{hexed(colour)}"/>'


def _edge(left: float, top: float, width: float, height: float) -> str:
    """A thin line around, so that white cloth shows on a white page and black on a black one."""
    place = f'x="{left:.1f}" y="{top:.1f}" width="{width:.1f}" height="{height:.1f}"'
    return f'<rect {place} fill="none" stroke="currentColor" stroke-opacity="0.45"/>'


def _text(x: float, y: float, words: str, *, anchor: str = "start") -> str:
    place = f'x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}"'
    return f'<text {place} font-size="{LABEL}" fill="currentColor">{escape(words)}</text>'


def _svg(name: str, title: str, about: str, height: float, marks: Iterable[str]) -> str:
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {height:g}" role="img" {FACE} class="strip" '
        f'aria-labelledby="{name}-title {name}-about">'
    )
    told = f'<title id="{name}-title">{escape(title)}</title><desc id="{name}-about">{escape(about)}</desc>'
    return "".join([head, told, *marks, "</svg>"])
