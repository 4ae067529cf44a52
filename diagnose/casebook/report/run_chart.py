"""A run chart: spoilt pieces week by week with their median, and whether something has shifted.

The rule is common practice among those who keep such charts: eight weeks in a row on one side of the median are more
than chance. Weeks that lie on the median are passed over: they neither count nor break a row.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from statistics import median

IN_A_ROW = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Week:
    """``begins``: its Monday."""

    begins: date
    spoilt: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Shift:
    """A row of weeks on one side of the median: the places of its first and last week, and the side."""

    first: int
    last: int
    above: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """All weeks from the first case to the last, those without a case included."""

    weeks: tuple[Week, ...]
    median: float
    shifts: tuple[Shift, ...]


def run_chart(spoilt: Mapping[date, int]) -> Run:
    """The run chart of the pieces spoilt by day."""
    if not spoilt:
        return Run(weeks=(), median=0.0, shifts=())
    by_week: dict[date, int] = {}
    for day, pieces in spoilt.items():
        monday = day - timedelta(days=day.weekday())
        by_week[monday] = by_week.get(monday, 0) + pieces
    first, last = min(by_week), max(by_week)
    mondays = [first + timedelta(weeks=number) for number in range((last - first).days // 7 + 1)]
    weeks = tuple(Week(begins=monday, spoilt=by_week.get(monday, 0)) for monday in mondays)
    middle = float(median(week.spoilt for week in weeks))
    return Run(weeks=weeks, median=middle, shifts=tuple(shifts([week.spoilt for week in weeks], middle)))


def shifts(values: Sequence[float], middle: float) -> list[Shift]:
    """The rows of IN_A_ROW or more values on one side of the middle."""
    found: list[Shift] = []
    row: list[int] = []
    for place, value in enumerate([*values, None]):
        if value == middle:
            continue
        if row and (value is None or (value > middle) != (values[row[0]] > middle)):
            if len(row) >= IN_A_ROW:
                found.append(Shift(first=row[0], last=row[-1], above=values[row[0]] > middle))
            row = []
        row.append(place)
    return found
