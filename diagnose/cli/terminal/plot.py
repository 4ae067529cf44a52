"""A plot in plain letters: lines over time that fit the screen, and that any terminal can show."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from diagnose.cli.terminal.screen import Screen

ROWS = 10
LEAST_COLUMNS = 16


@dataclass(frozen=True, slots=True)
class PlotLine:
    """A line of (time, value) with the letter it is drawn in and its name. The first one drawn lies on top."""

    letter: str
    name: str
    points: Sequence[tuple[float, float]]


def plot(screen: Screen, lines: Sequence[PlotLine], unit: str, time_unit: str = "s") -> None:
    """Draw lines that begin and end at the same times, values up and time across."""
    end = lines[0].points[-1][0]
    least = min(value for line in lines for _, value in line.points)
    most = max(value for line in lines for _, value in line.points)
    least, most = 10.0 * (least // 10.0), 10.0 * -(-most // 10.0)
    left = len(f"{most:.0f} ")
    columns = max(LEAST_COLUMNS, screen.width - left - 2)
    grid = [[" "] * columns for _ in range(ROWS + 1)]
    for line in reversed(lines):
        for column in range(columns):
            value = at(line.points, end * column / (columns - 1))
            row = round(ROWS * (most - value) / (most - least or 1.0))
            grid[row][column] = line.letter
    for row, letters in enumerate(grid):
        degrees = most - (most - least) * row / ROWS
        label = f"{degrees:.0f}" if row % 5 == 0 else ""
        screen.whole(f"{label.rjust(left - 1)} |{''.join(letters).rstrip()}")
    screen.whole(f"{' ' * left}+{'-' * columns}")
    last = f"{end:.0f} {time_unit}"
    screen.whole(f"{' ' * left} 0{last.rjust(columns - 1)}")
    screen.line(f"{unit}; {', '.join(f'{line.letter} {line.name}' for line in lines)}", "dim")


def at(points: Sequence[tuple[float, float]], time: float) -> float:
    """The value at a time, straight between points."""
    for (before, low), (after, high) in pairwise(points):
        if time <= after:
            return low + (high - low) * (time - before) / (after - before)
    return points[-1][1]
