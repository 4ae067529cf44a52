"""Lines over a number, as SVG in the colour of the text around them: each line by its own tone and its own dashes, with
its name at its end."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape

from diagnose.casebook.charts import FACE, LABEL, WIDTH, Words

TONES = ("#2a8ba0", "#c8681c", "#b8478f", "#6f8420")  # 3 : 1 and more on white and on near black
DASHES = ("", "9 4", "2 4", "12 4 2 4")
LEFT, TOP, BOTTOM, FOOT = 44, 26, 270, 44
NAMES = 158  # room at the right for what a line is called
CLOSEST = 16.0  # between two names


@dataclass(frozen=True, slots=True)
class Line:
    """A name and the points, in the numbers of the axes."""

    name: str
    points: Sequence[tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Axis:
    """What it tells, and where it is marked; it reaches from the first mark to the last."""

    name: str
    marks: Sequence[float]

    def place(self, value: float, start: float, end: float) -> float:
        """Where a value lies between two places."""
        low, high = self.marks[0], self.marks[-1]
        return start + (end - start) * (value - low) / (high - low)


def line_chart(lines: Sequence[Line], across: Axis, up: Axis, words: Words) -> str:
    """The chart. A line of more than there are tones takes the first again."""
    right = WIDTH - NAMES
    marks = [*_grid(across, up, right)]
    ends = []
    for number, line in enumerate(lines):
        tone, dash = TONES[number % len(TONES)], DASHES[number % len(DASHES)]
        at = [(across.place(x, LEFT, right), up.place(y, BOTTOM, TOP)) for x, y in line.points]
        path = " ".join(f"{x:.1f},{y:.1f}" for x, y in at)
        marks.append(
            f'<polyline points="{path}" fill="none" stroke="{tone}" stroke-width="2.5" stroke-dasharray="{dash}"/>'
        )
        ends.append((at[-1], line.name, tone, dash))
    marks += _names(ends, right)
    return _svg(BOTTOM + FOOT, words, marks)


def _grid(across: Axis, up: Axis, right: float) -> Iterator[str]:
    for mark in up.marks:
        y = up.place(mark, BOTTOM, TOP)
        yield f'<path d="M{LEFT} {y:.1f}H{right}" stroke="currentColor" stroke-opacity="0.18"/>'
        yield _text(LEFT - 6, y + 4, f"{mark:g}", "end")
    for mark in across.marks:
        yield _text(across.place(mark, LEFT, right), BOTTOM + 18, f"{mark:g}", "middle")
    yield f'<path d="M{LEFT} {TOP}V{BOTTOM}H{right}" fill="none" stroke="currentColor" stroke-opacity="0.5"/>'
    yield _text(LEFT - 38, TOP - 12, up.name)
    yield _text((LEFT + right) / 2, BOTTOM + 36, across.name, "middle")


def _names(ends: Sequence[tuple[tuple[float, float], str, str, str]], right: float) -> Iterator[str]:
    """What each line is called, in a column at the right in the order of their ends, each with a piece of its line."""
    y = TOP - CLOSEST
    for (_, end), name, tone, dash in sorted(ends, key=lambda each: each[0][1]):
        y = max(y + CLOSEST, end)
        line = f'stroke="{tone}" stroke-width="2.5" stroke-dasharray="{dash}"'
        yield f'<path d="M{right + 8} {y:.1f}H{right + 34}" {line}/>'
        yield _text(right + 40, y + 4, name)


def _text(x: float, y: float, words: str, anchor: str = "start") -> str:
    place = f'x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}"'
    return f'<text {place} font-size="{LABEL}" fill="currentColor">{escape(words)}</text>'


def _svg(height: float, words: Words, marks: Sequence[str]) -> str:
    name = escape(words.name)
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {height:g}" role="img" {FACE} '
        f'aria-labelledby="{name}-title {name}-about" style="width: 100%; max-width: {WIDTH}px; height: auto">'
    )
    told = f'<title id="{name}-title">{escape(words.title)}</title><desc id="{name}-about">{escape(words.about)}</desc>'
    return "".join([head, told, *marks, "</svg>"])
