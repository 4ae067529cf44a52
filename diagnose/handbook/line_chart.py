"""Lines over a number, as SVG in the colour of the text around them: each line by its own tone and its own dashes,
their names below. Drawn narrow, so that the letters stay large on a phone."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from diagnose.casebook.report.charts import Words, svg, text

TONES = ("#2a8ba0", "#c8681c", "#b8478f", "#6f8420")  # 3 : 1 and more on white and on near black
DASHES = ("", "9 4", "2 4", "12 4 2 4")
WIDTH, WIDEST = 420, 540  # drawn, and the most pixels it is shown in
LEFT, RIGHT, TOP, BOTTOM, FOOT = 38, 408, 26, 236, 58
NAMES, ROW = 190, 20  # width and height of what a line is called


@dataclass(frozen=True, slots=True)
class ChartLine:
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


def line_chart(lines: Sequence[ChartLine], across: Axis, up: Axis, words: Words) -> str:
    """The chart. A line of more than there are tones takes the first again."""
    marks = [*_grid(across, up)]
    for number, line in enumerate(lines):
        tone, dash = TONES[number % len(TONES)], DASHES[number % len(DASHES)]
        at = [(across.place(x, LEFT, RIGHT), up.place(y, BOTTOM, TOP)) for x, y in line.points]
        path = " ".join(f"{x:.1f},{y:.1f}" for x, y in at)
        look = f'fill="none" stroke="{tone}" stroke-width="2.5" stroke-dasharray="{dash}"'
        x, y = LEFT + NAMES * (number % 2), BOTTOM + FOOT + ROW * (number // 2)
        marks.append(f'<polyline points="{path}" {look}/>')
        marks.append(f'<path d="M{x} {y}h30" {look}/>{text(x + 36, y + 4, line.name)}')
    return svg(BOTTOM + FOOT + ROW * ((len(lines) + 1) // 2), words, marks, WIDTH, WIDEST)


def _grid(across: Axis, up: Axis) -> Iterator[str]:
    for mark in up.marks:
        y = up.place(mark, BOTTOM, TOP)
        yield f'<path d="M{LEFT} {y:.1f}H{RIGHT}" stroke="currentColor" stroke-opacity="0.18"/>'
        yield text(LEFT - 6, y + 4, f"{mark:g}", anchor="end")
    for mark in across.marks:
        yield text(across.place(mark, LEFT, RIGHT), BOTTOM + 18, f"{mark:g}", anchor="middle")
    yield f'<path d="M{LEFT} {TOP}V{BOTTOM}H{RIGHT}" fill="none" stroke="currentColor" stroke-opacity="0.5"/>'
    yield text(0, TOP - 12, up.name)
    yield text((LEFT + RIGHT) / 2, BOTTOM + 34, across.name, anchor="middle")
