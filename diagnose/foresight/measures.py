"""From figures to measures: a gap, a ratio, a difference of colour, each in the unit its knowledge is written in.

Temperatures differ in K, times and doses in the natural logarithm of their ratio, colours in steps of CIELAB.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import log
from typing import TypeAlias

from diagnose.foresight.figures import AXES
from diagnose.foresight.pressing import NoBody, body_of, usual_settings
from diagnose.knowledge.model import Item, Knowledge
from diagnose.press.colour.difference import Difference
from diagnose.press.colour.lab import Lab
from diagnose.press.pressing import Body, PressSettings, Result, dose_of, press, track

Values: TypeAlias = Mapping[str, float]
Told: TypeAlias = Sequence[tuple[int, Values]]  # what was told at a time, with the number of fixes tried before


@dataclass(frozen=True, slots=True)
class Bench:
    """What was pressed (``whole`` says so, None where it is not known), and the knowledge about it."""

    whole: Item | None
    knowledge: Knowledge

    @property
    def item(self) -> Item:
        """The item. A formula that asks for it says ``at_item``, so that it is there."""
        if self.whole is None:
            raise ValueError("the item is not known")
        return self.whole


@dataclass(frozen=True, slots=True)
class TakenMeasure:
    """A measure's value, the figures it was worked out from, and the period they belong to."""

    measure: str
    value: float
    figures: Values
    period: int


@dataclass(frozen=True, slots=True)
class Formula:
    """How a measure follows from figures. ``own``: the figure that is its very subject; it and those it ``needs`` must
    be told, those it ``uses`` may be. ``at_item``: the items it can be worked out for, None where the item is no
    matter."""

    own: str
    work: Callable[[Values, Bench], float]
    needs: tuple[str, ...] = ()
    uses: tuple[str, ...] = ()
    at_item: Callable[[Bench], bool] | None = None

    def serves(self, bench: Bench) -> bool:
        """Whether it can be worked out for the item."""
        return self.at_item is None or (bench.whole is not None and self.at_item(bench))


def taken(told: Told, item: Item | None, knowledge: Knowledge) -> Iterator[TakenMeasure]:
    """Every measure that can be worked out of the figures told. The last figure of a kind counts; what goes with it
    (the display's figure beside the probe's) is what was in force when it was told."""
    bench = Bench(item, knowledge)
    for measure in knowledge.readings:
        formula = FORMULAS[measure]
        found = _in_force(formula, told)
        if found is not None and formula.serves(bench):
            figures, period = found
            yield TakenMeasure(measure, formula.work(figures, bench), figures, period)


def in_press(measure: str, told: Told) -> dict[str, float]:
    """What stood in the press when a measure was taken, as far as it was told: set, dwell, sheets, thickness, and
    ``offset``, by how much the platen stood over its display when it was probed."""
    last = _last_told(FORMULAS[measure].own, told)
    found = {name: _at(name, last, told) for name in ("set", "dwell", "sheets", "thickness")}
    probed = _place("probe", last, told)
    if probed is not None and (beside := _at("set", probed, told)) is not None:
        found["offset"] = told[probed][1]["probe"] - beside
    return {name: value for name, value in found.items() if value is not None}


def gone_through(told: Told, bench: Bench) -> Result | None:
    """What the item got in the press by all that was told, where that is enough: display, clock and item."""
    formula = Formula("dwell", lambda figures, bench: 0.0, ("set",), STRIP_USES, _bodied)
    found = _in_force(formula, told) if formula.serves(bench) else None
    if found is None:
        return None
    figures, _ = found
    return press(*_pressed(figures, bench))


def _in_force(formula: Formula, told: Told) -> tuple[dict[str, float], int] | None:
    last = _last_told(formula.own, told)
    if last < 0:
        return None
    figures = {name: _at(name, last, told) for name in (formula.own, *formula.needs, *formula.uses)}
    if any(figures[name] is None for name in formula.needs):
        return None
    return {name: value for name, value in figures.items() if value is not None}, told[last][0]


def _last_told(name: str, told: Told) -> int:
    """Where a figure was told last, -1 where it was not."""
    return next((at for at in range(len(told) - 1, -1, -1) if name in told[at][1]), -1)


def _at(name: str, last: int, told: Told) -> float | None:
    """The figure as it was last told by then; where it was told later only, that."""
    place = _place(name, last, told)
    return None if place is None else told[place][1][name]


def _place(name: str, last: int, told: Told) -> int | None:
    """Where a figure was told last by then; where it was told later only, there."""
    order = [*range(last, -1, -1), *range(last + 1, len(told))]
    return next((at for at in order if name in told[at][1]), None)


def beyond(value: float, window: tuple[float, float]) -> float:
    """How far a value lies outside a window: below 0 under it, above 0 over it, 0 within."""
    least, most = window
    return min(0.0, value - least) + max(0.0, value - most)


def _lab_of(name: str, figures: Values) -> Lab:
    return Lab(*(figures[f"{name}.{axis}"] for axis in AXES))


def _beside(figures: Values) -> Difference:
    return Difference(_lab_of("proof", figures), _lab_of("print", figures))


def strip_reckoned(figures: Values, bench: Bench) -> float:
    """The highest temperature (°C) that the print should see by these settings, with what was told of the platen,
    the sheets and the item."""
    moments, stack = track(*_pressed(figures, bench))
    return max(moment.at_dye(stack) for moment in moments)


def _pressed(figures: Values, bench: Bench) -> tuple[Body, PressSettings]:
    usual = usual_settings(bench.item)
    offset = figures["probe"] - figures["set"] if "probe" in figures else 0.0
    settings = replace(
        usual,
        temperature=figures["set"],
        dwell=figures.get("dwell", usual.dwell),
        offset=offset,
        offset_spread=PROBE_SPREAD if "probe" in figures else usual.offset_spread,
        cover_sheets=round(figures.get("sheets", usual.cover_sheets)),
    )
    return body_of(bench.item, bench.knowledge, thickness=figures.get("thickness")), settings


def _layers_dose(figures: Values, bench: Bench) -> float:
    usual, body = usual_settings(bench.item), body_of(bench.item, bench.knowledge)
    stack = replace(usual, cover_sheets=round(figures["sheets"]))
    return _log(dose_of(body, stack) / dose_of(body, usual))


def _thickness_dose(figures: Values, bench: Bench) -> float:
    usual = usual_settings(bench.item)
    other = body_of(bench.item, bench.knowledge, thickness=figures["thickness"])
    return _log(dose_of(other, usual) / dose_of(body_of(bench.item, bench.knowledge), usual))


def _log(quotient: float) -> float:
    return log(max(quotient, LEAST_QUOTIENT))


def _windowed(bench: Bench) -> bool:
    return bench.item.settings is not None


def _bodied(bench: Bench) -> bool:
    """Whether the knowledge says what lies in the press, so that it can be reckoned with."""
    try:
        return _windowed(bench) and bool(body_of(bench.item, bench.knowledge))
    except NoBody:
        return False


def _hard(bench: Bench) -> bool:
    return bench.item.facts.get("item.hard") is True and _bodied(bench)


def _windows(bench: Bench) -> tuple[tuple[float, float], tuple[float, float]]:
    settings = bench.item.settings
    if settings is None:
        raise ValueError("the item has no window")
    return settings.temperature, settings.dwell


def _dwell_gap(figures: Values, bench: Bench) -> float:
    least, most = _windows(bench)[1]
    return beyond(log(figures["dwell"]), (log(least), log(most)))


def _lab(name: str) -> tuple[str, ...]:
    return tuple(f"{name}.{axis}" for axis in AXES)


LEAST_QUOTIENT = 1e-9
PROBE_SPREAD = 2.0  # K: a hand-held probe, in place of a display that nobody has checked
STRIP_USES = ("dwell", "probe", "sheets", "thickness")
_PATCH = (*_lab("print"), *_lab("proof"))
FORMULAS: Mapping[str, Formula] = {
    "platen-gap": Formula("probe", lambda f, _: f["probe"] - f["set"], ("set",)),
    "set-gap": Formula("set", lambda f, bench: beyond(f["set"], _windows(bench)[0]), at_item=_windowed),
    "dwell-gap": Formula("dwell", _dwell_gap, at_item=_windowed),
    "clock-gap": Formula("watch", lambda f, _: log(f["watch"] / f["dwell"]), ("dwell",)),
    "layers": Formula("sheets", lambda f, _: f["sheets"]),
    "layers-dose": Formula("sheets", _layers_dose, at_item=_bodied),
    "thickness-dose": Formula("thickness", _thickness_dose, at_item=_hard),
    "stack-gap": Formula(
        "strip", lambda f, bench: f["strip"] - strip_reckoned(f, bench), ("set",), STRIP_USES, _bodied
    ),
    "lightness": Formula("print.l", lambda f, _: _beside(f).lightness, _PATCH),
    "chroma": Formula("print.l", lambda f, _: _beside(f).chroma, _PATCH),
    "hue": Formula("print.l", lambda f, _: abs(_beside(f).hue_distance), _PATCH),
    "yellowness": Formula("ground.b", lambda f, _: f["ground.b"] - f["blank.b"], (*_lab("ground"), *_lab("blank"))),
}
