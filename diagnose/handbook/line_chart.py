"""Lines over a number, as SVG in the colour of the text around them: each line by its own tone and its own dashes,
their names below. Drawn narrow, so that the letters stay large on a phone."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from diagnose.casebook.report.charts import LABEL, Words, svg, text

TONES = ("#2a8ba0", "#c8681c", "#b8478f", "#6f8420")  # 3 : 1 and more on white and on near black
DASHES = ("", "9 4", "2 4", "12 4 2 4")
WIDTH, WIDEST = 420, 540  # drawn, and the most pixels it is shown in
LEFT, RIGHT, TOP, BOTTOM, FOOT = 38, 408, 26, 236, 58
NAMES, ROW = 190, 20  # width and height of what a line is called
SMALL = 11  # of words in place of numbers, which must find room beside the axis, and of names that are long
LONG = 50  # letters
EDGE = {1: 4, 2: LEFT}  # where the names begin, by their columns


@dataclass(frozen=True, slots=True)
class ChartLine:
    """A name and the points, in the numbers of the axes. ``also``: what else runs along the same line."""

    name: str
    points: Sequence[tuple[float, float]]
    also: Sequence[str] = ()


@dataclass(frozen=True, slots=True)
class Axis:
    """What it tells, and where it is marked; it reaches from the first mark to the last. ``labels``: what stands at the
    marks, where that is not their number."""

    name: str
    marks: Sequence[float]
    labels: Sequence[str] = ()

    @property
    def marked(self) -> Iterator[tuple[float, str]]:
        """Each mark with what stands at it."""
        return zip(self.marks, self.labels or [f"{mark:g}".replace("-", "−") for mark in self.marks], strict=True)

    def place(self, value: float, start: float, end: float) -> float:
        """Where a value lies between two places."""
        low, high = self.marks[0], self.marks[-1]
        return start + (end - start) * (value - low) / (high - low)


def line_chart(lines: Sequence[ChartLine], across: Axis, up: Axis, words: Words, columns: int = 2) -> str:
    """The chart, the names below it in so many columns: two for short ones, one for long. A line of more than there are
    tones takes the first again."""
    marks, place = [*_grid(across, up)], 0
    for number, line in enumerate(lines):
        tone, dash = TONES[number % len(TONES)], DASHES[number % len(DASHES)]
        at = [(across.place(x, LEFT, RIGHT), up.place(y, BOTTOM, TOP)) for x, y in line.points]
        path = " ".join(f"{x:.1f},{y:.1f}" for x, y in at)
        look = f'fill="none" stroke="{tone}" stroke-width="2.5" stroke-dasharray="{dash}"'
        marks.append(f'<polyline points="{path}" {look}/>')
        for name in (line.name, *line.also):
            x, y = EDGE[columns] + NAMES * (place % columns), BOTTOM + FOOT + ROW * (place // columns)
            marks.append(
                f'<path d="M{x} {y}h30" {look}/>{text(x + 36, y + 4, name, size=SMALL if len(name) > LONG else LABEL)}'
            )
            place += 1
    return svg(BOTTOM + FOOT + ROW * -(-place // columns), words, marks, WIDTH, WIDEST)


def _grid(across: Axis, up: Axis) -> Iterator[str]:
    for mark, label in up.marked:
        y = up.place(mark, BOTTOM, TOP)
        yield f'<path d="M{LEFT} {y:.1f}H{RIGHT}" stroke="currentColor" stroke-opacity="0.18"/>'
        yield text(LEFT - 6, y + 4, label, anchor="end", size=SMALL if up.labels else LABEL)
    for mark, label in across.marked:
        yield text(across.place(mark, LEFT, RIGHT), BOTTOM + 18, label, anchor="middle")
    yield f'<path d="M{LEFT} {TOP}V{BOTTOM}H{RIGHT}" fill="none" stroke="currentColor" stroke-opacity="0.5"/>'
    yield text(0, TOP - 12, up.name)
    yield text((LEFT + RIGHT) / 2, BOTTOM + 34, across.name, anchor="middle")
