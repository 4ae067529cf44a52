"""The curves of a measure: how many times as often its figures show with a cause as without it, from far under to far
over. Causes that speak over about the same reach stand in one chart."""

from collections.abc import Iterator, Sequence
from math import ceil, floor, log10

from diagnose.casebook.report.charts import Words
from diagnose.foresight.likelihood import MOST, ratio
from diagnose.handbook.book import Handbook
from diagnose.handbook.line_chart import TONES, Axis, ChartLine, line_chart
from diagnose.knowledge.measures import PERCENT, Measure, held
from diagnose.speech.readings import AXES
from diagnose.speech.saying import say

POINTS = 160
AROUND = 1.5  # of the outermost mark is drawn
LEAST_DRAWN = -90.0  # %
TIMES = (1 / MOST, 0.1, 1.0, 10.0, MOST)
UP = (f"1/{MOST:g}", "1/10", "1", "10", f"{MOST:g}")
TICKS = (1.0, 2.0, 2.5, 5.0, 10.0)
MANY = 6  # ticks, about


def curves(book: Handbook, measure: Measure) -> Iterator[str]:
    """The charts of a measure."""
    for number, causes in enumerate(_charts(measure), 1):
        yield f'<div class="chart">{_chart(book, measure, causes, number)}</div>'
        yield ""


def _charts(measure: Measure) -> Iterator[Sequence[Sequence[str]]]:
    """The causes of each chart, those that speak alike together: at most as many lines as there are tones."""
    alike: dict[object, list[str]] = {}
    for cause, says in measure.speaks.items():
        alike.setdefault(says, []).append(cause)
    for group in _by_reach(measure, list(alike.values())):
        lines = sorted(group, key=lambda line: bool(measure.speaks[line[0]].over)) if len(group) > len(TONES) else group
        yield from (lines[start : start + len(TONES)] for start in range(0, len(lines), len(TONES)))


def _by_reach(measure: Measure, lines: list[list[str]]) -> list[list[list[str]]]:
    """Lines that begin to speak where the others have long said all stand apart, or the others would be crowded."""
    groups: list[list[list[str]]] = []
    reach = 0.0
    for line in sorted(lines, key=lambda one: max(_sizes(measure, one[0]))):
        if not groups or min(_sizes(measure, line[0])) > AROUND * reach:
            groups.append([])
        groups[-1].append(line)
        reach = max(_sizes(measure, line[0]))
    return groups


def _sizes(measure: Measure, cause: str) -> list[float]:
    return [abs(mark.at) for mark in measure.speaks[cause].marks]


def _chart(book: Handbook, measure: Measure, lines: Sequence[Sequence[str]], number: int) -> str:
    fahrenheit = measure.unit == "°C" and book.shop.temperature == "F"
    scale = 1.8 if fahrenheit else 1.0
    least, most = _ends(measure, [line[0] for line in lines])
    ticks = _ticks(scale * least, scale * most, 1.0 if measure.unit == "sheets" else 0.0)
    drawn = []
    for line in lines:
        names = [book.title("causes", cause) for cause in line]
        drawn.append(ChartLine(names[0], [*_points(measure, line[0], ticks, scale)], names[1:]))
    words = Words(f"{measure.id}-{number}", measure.title, say("curves-about", title=measure.title))
    up = Axis(say("curves"), [log10(times) for times in TIMES], UP)
    return line_chart(drawn, Axis(_across(measure, book.shop.temperature), ticks), up, words, columns=1)


def _points(measure: Measure, cause: str, ticks: Sequence[float], scale: float) -> Iterator[tuple[float, float]]:
    for place in range(POINTS + 1):
        at = ticks[0] + (ticks[-1] - ticks[0]) * place / POINTS
        yield at, log10(ratio(held(measure.id, at / scale), measure, cause))


def _ends(measure: Measure, causes: Sequence[str]) -> tuple[float, float]:
    """From where to where figures are worth drawing, in the unit that they are written in."""
    least = most = 0.0
    for cause in causes:
        says = measure.speaks[cause]
        for at in [mark.at for mark in says.marks]:
            least, most = min(least, AROUND * at), max(most, (2 * AROUND if says.under else AROUND) * at)
        if says.either:
            least = -most
    if measure.unit == PERCENT:
        least = max(least, LEAST_DRAWN)
    side = 0.25 * (most - least)
    return (least if least < 0.0 or measure.unit in ("sheets", "H*") else -side), (most if most > 0.0 else side)


def _ticks(least: float, most: float, least_step: float) -> list[float]:
    """Round numbers that take in both ends, about as many as fit."""
    rough = (most - least) / MANY
    power = 10.0 ** floor(log10(rough))
    step = max(least_step, power * next(tick for tick in TICKS if tick * power >= rough))
    return [step * place for place in range(floor(least / step), ceil(most / step) + 1)]


def _across(measure: Measure, unit: str) -> str:
    if measure.id in AXES:
        return say("off-steps", axis=AXES[measure.id])
    if measure.unit == "°C":
        return say("off-degrees", unit=unit)
    return say("off-percent") if measure.unit == PERCENT else say("off-sheets")
