"""Charts as SVG, drawn by our own code: lines and words in the colour of the text around them, marks in tones that
stand out from a light and from a dark ground alike. Each carries its title and what it says in words."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from html import escape
from math import ceil

from diagnose.casebook.report.report import CauseShare
from diagnose.casebook.report.run_chart import Run, Week
from diagnose.characters import stripped
from diagnose.speech.saying import say

WIDTH = 640
BAR, LINE, SHIFTED = "#2a8ba0", "#c8681c", "#b8478f"  # 3 : 1 and more on white and on near black
LABEL = 13  # size of letters
FACE = 'font-family="system-ui, sans-serif"'
MOST_BARS, MOST_DATES = 10, 5
LONGEST_LABEL = 66  # letters
TOP, ROW = 22, 38
BARS, PANEL = 380, (480, 596)  # how far the bars go, and where the line runs from 0 to 1


@dataclass(frozen=True, slots=True)
class Words:
    """``name`` tells the charts of one page apart; ``title`` and ``about`` are for who cannot see it."""

    name: str
    title: str
    about: str


def pareto(shares: Sequence[CauseShare], told: Callable[[float], str], words: Words) -> str:
    """The causes as bars, the greatest on top; beside them the line of the share that all up to each come to.
    ``told`` writes an amount."""
    shown = shares[:MOST_BARS]
    height = TOP + ROW * len(shown) + 8
    greatest = max((share.amount for share in shown), default=0.0) or 1.0
    marks = [text(WIDTH, 12, say("share-of-all-up-to-here"), anchor="end", size=11)]
    edge = 'stroke="currentColor" stroke-opacity="0.25"'
    marks += [f'<path d="M{x} {TOP}V{height - 8}" {edge}/>' for x in PANEL]
    points = []
    for place, share in enumerate(shown):
        y = TOP + ROW * place
        width = max(1.0, BARS * share.amount / greatest)
        marks.append(text(0, y + 12, _short(share.title)))
        marks.append(f'<rect x="0" y="{y + 17}" width="{width:.1f}" height="13" rx="2" fill="{BAR}"/>')
        marks.append(text(width + 6, y + 28, told(share.amount), size=11))
        marks.append(text(WIDTH, y + 28, f"{share.up_to * 100:.0f} %", anchor="end", size=11))
        points.append((PANEL[0] + (PANEL[1] - PANEL[0]) * share.up_to, y + 23.5))
    marks += _line(points, LINE)
    marks += [f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3" fill="{LINE}"/>' for x, y in points]
    return svg(height, words, marks)


def weeks(run: Run, words: Words) -> str:
    """Spoilt pieces by week, with the median; rows of weeks that speak of a shift stand out."""
    left, right, top, bottom = 34, WIDTH - 8, 14, 170
    greatest = max([week.spoilt for week in run.weeks] + [run.median, 1.0])
    steps = max(1, len(run.weeks) - 1)
    at = [
        (left + (right - left) * place / steps, bottom - (bottom - top) * week.spoilt / greatest)
        for place, week in enumerate(run.weeks)
    ]
    middle = bottom - (bottom - top) * run.median / greatest
    shifted = {place for shift in run.shifts for place in range(shift.first, shift.last + 1)}
    marks = [
        f'<path d="M{left} {top}V{bottom}H{right}" fill="none" stroke="currentColor" stroke-opacity="0.5"/>',
        *_scale(greatest, left, top, bottom),
        f'<path d="M{left} {middle:.1f}H{right}" stroke="{LINE}" stroke-width="2" stroke-dasharray="6 4"/>',
        *_line(at, BAR),
        *(_dot(x, y, SHIFTED if place in shifted else BAR, place in shifted) for place, (x, y) in enumerate(at)),
        *_dates(run.weeks, at, bottom),
    ]
    return svg(bottom + 24, words, marks)


def _scale(greatest: float, left: int, top: int, bottom: int) -> Iterator[str]:
    step = ceil(greatest / 4)
    for value in range(0, int(greatest) + 1, step):
        y = bottom - (bottom - top) * value / greatest
        yield text(left - 6, y + 4, f"{value}", anchor="end", size=11)


def _dates(shown: Sequence[Week], at: Sequence[tuple[float, float]], bottom: int) -> Iterator[str]:
    """The Mondays of some weeks, as many as there is room for."""
    every = max(1, ceil(len(shown) / MOST_DATES))
    for place in range(0, len(shown), every):
        x = at[place][0]
        anchor = "start" if place == 0 else "end" if x > WIDTH - 60 else "middle"
        yield text(x, bottom + 18, f"{shown[place].begins:%Y-%m-%d}", anchor=anchor, size=11)


def _line(points: Sequence[tuple[float, float]], colour: str) -> list[str]:
    if len(points) < 2:
        return []
    path = " ".join(f"{x:.1f},{y:.1f}" for x, y in points)
    return [f'<polyline points="{path}" fill="none" stroke="{colour}" stroke-width="2"/>']


def _dot(x: float, y: float, colour: str, marked: bool) -> str:
    """A week; one that belongs to a shift is larger and a square, so that it is not told by its colour alone."""
    if marked:
        return f'<rect x="{x - 5:.1f}" y="{y - 5:.1f}" width="10" height="10" fill="{colour}"/>'
    return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3.5" fill="{colour}"/>'


def text(x: float, y: float, words: str, *, anchor: str = "start", size: int = LABEL) -> str:
    """Words at a place, in the colour of the text around."""
    place = f'x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}"'
    return f'<text {place} font-size="{size}" fill="currentColor">{escape(stripped(words))}</text>'


def _short(words: str) -> str:
    return words if len(words) <= LONGEST_LABEL else f"{words[: LONGEST_LABEL - 1].rstrip()}…"


def svg(height: float, words: Words, marks: Sequence[str], width: int = WIDTH, widest: int = WIDTH) -> str:
    """The whole picture, drawn ``width`` wide and shown in ``widest`` pixels at most."""
    name = escape(words.name)
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height:g}" role="img" {FACE} '
        f'aria-labelledby="{name}-title {name}-about" style="width: 100%; max-width: {widest}px; height: auto">'
    )
    title, about = escape(stripped(words.title)), escape(stripped(words.about))
    told = f'<title id="{name}-title">{title}</title><desc id="{name}-about">{about}</desc>'
    return "".join([head, told, *marks, "</svg>"])
