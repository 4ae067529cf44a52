"""What a job gets in the press by its settings, and what to set instead."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from diagnose.foresight.pressing import body_of, usual_settings
from diagnose.knowledge.model import Item, Knowledge
from diagnose.press.dye.dose import GHOSTS, SOFTENS
from diagnose.press.pressing import (
    HOTTEST,
    Body,
    PressSettings,
    Result,
    Unreachable,
    dose_of,
    dwell_for,
    press,
    temperature_for,
    track,
)

PROBE_SPREAD = 1.0  # K: a surface probe, held well. An assumption.
STEADY = 5.0  # K below where it ends
NEAR = (0.75, 1.5)  # times the wanted dose that pass for as wanted: about what an item's own window spans


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatJob:
    """What was asked. None: as is usual for the item. °C, seconds, metres; ``probe``: what a probe on the platen reads
    while the display shows the set heat; ``instead``: another set heat to tell the dwell for."""

    temperature: float | None = None
    dwell: float | None = None
    probe: float | None = None
    sheets: int | None = None
    through_back: bool | None = None
    thickness: float | None = None
    pressure: float | None = None
    pre_press: float = 0.0
    instead: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Other:
    """Another heat on the display: the dwell (s) that gives what this job got, and the one that gives what the item
    wants. None: not within an hour."""

    temperature: float
    same: float | None
    wanted: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Heating:
    """What the job got. ``track``: (s, °C at the dye, °C of the platen); ``steady``: s until the dye is nearly as hot
    as it gets; ``dwell`` and ``temperature``: what to set for what the item wants, the other left as it is (None: no
    such setting); ``instead``: the dwell at another heat; ``sheets_leave``: the dose as a multiple of what it
    would be under the usual cover sheets (None: these are as many)."""

    item: Item
    body: Body
    settings: PressSettings
    usual: PressSettings
    result: Result
    track: tuple[tuple[float, float, float], ...]
    steady: float
    dwell: float | None
    temperature: float | None
    instead: Other | None
    sheets_leave: float | None

    @property
    def as_wanted(self) -> bool:
        return NEAR[0] <= self.result.over <= NEAR[1]

    @property
    def softens(self) -> bool:
        """So far over that edges soften."""
        return self.result.over >= SOFTENS

    @property
    def wanders(self) -> bool:
        """So far over that dye comes loose again and leaves a faint copy."""
        return self.result.over >= GHOSTS

    @property
    def too_hot(self) -> bool:
        """Whether the platen, as it truly stood or as is asked about, is past what polyester bears."""
        other = self.instead.temperature if self.instead else self.settings.temperature
        return max(other, self.settings.temperature) + self.settings.offset > HOTTEST


def foresee(item: Item, knowledge: Knowledge, job: HeatJob) -> Heating:
    """What the item gets by the job.

    Raises:
        NoBody: the knowledge does not say what it is made of.
    """
    usual, settings = usual_settings(item), settings_of(item, job)
    body = body_of(item, knowledge, thickness=job.thickness, through_back=job.through_back)
    moments, stack = track(body, settings)
    at_dye = [moment.at_dye(stack) for moment in moments]
    return Heating(
        item=item,
        body=body,
        settings=settings,
        usual=usual,
        result=(result := press(body, settings)),
        track=tuple(
            (moment.time, degrees, moment.temperatures[0]) for moment, degrees in zip(moments, at_dye, strict=True)
        ),
        steady=_steady([moment.time for moment in moments], at_dye),
        dwell=_dwell(body, settings, 1.0),
        temperature=_temperature(body, settings),
        instead=_other(body, settings, job.instead, result.over) if job.instead is not None else None,
        sheets_leave=_sheets_leave(body, settings, usual.cover_sheets, result.dose),
    )


def settings_of(item: Item, job: HeatJob) -> PressSettings:
    """The job's settings, with what is usual for the item where it says nothing."""
    usual = usual_settings(item)
    set_heat = usual.temperature if job.temperature is None else job.temperature
    made = replace(
        usual,
        temperature=set_heat,
        dwell=usual.dwell if job.dwell is None else job.dwell,
        pressure=usual.pressure if job.pressure is None else job.pressure,
        cover_sheets=usual.cover_sheets if job.sheets is None else job.sheets,
        pre_press=job.pre_press,
    )
    return made if job.probe is None else replace(made, offset=job.probe - set_heat, offset_spread=PROBE_SPREAD)


def _steady(times: Sequence[float], at_dye: Sequence[float]) -> float:
    """The first time from which the dye stays within ``STEADY`` of its last temperature, straight lines between."""
    goal = at_dye[-1] - STEADY
    for place in range(len(times) - 1, 0, -1):
        if at_dye[place - 1] < goal <= at_dye[place]:
            part = (goal - at_dye[place - 1]) / (at_dye[place] - at_dye[place - 1])
            return times[place - 1] + part * (times[place] - times[place - 1])
    return 0.0


def _sheets_leave(body: Body, settings: PressSettings, usual: int, got: float) -> float | None:
    if settings.cover_sheets == usual:
        return None
    return got / dose_of(body, replace(settings, cover_sheets=usual))


def _other(body: Body, settings: PressSettings, temperature: float, over: float) -> Other:
    there = replace(settings, temperature=temperature)
    return Other(temperature=temperature, same=_dwell(body, there, over), wanted=_dwell(body, there, 1.0))


def _dwell(body: Body, settings: PressSettings, over: float) -> float | None:
    try:
        return dwell_for(body, settings, over)
    except Unreachable:
        return None


def _temperature(body: Body, settings: PressSettings) -> float | None:
    try:
        return temperature_for(body, settings)
    except Unreachable:
        return None
