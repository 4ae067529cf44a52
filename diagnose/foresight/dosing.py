"""Too little or too much: how sure it is that a job's settings miss what the item takes, and what is to blame.

An item's window says what comes right. Too little is half of what the lowest corner of the window gives; too much is
twice what its highest corner gives, where edges begin to soften. Both are assumptions. The spread of the dose is the
heat model's own.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import erf, log, sqrt

from diagnose.foresight.pressing import NoBody, body_of, usual_settings
from diagnose.knowledge.model import Item, Knowledge
from diagnose.press.dye.dose import over_for
from diagnose.press.pressing import NINETY, Body, PressSettings, Result, dose_of, press, wanted

TOO_LITTLE, TOO_MUCH = 0.5, 2.0
WIDEST, NARROWEST = 1.5, 0.15  # of the spread of the logarithm of the dose
LEAST_MOVE = 0.02  # of the logarithm of the dose: what moves it less is as usual
PROBED = 1.5  # K: how sure a platen is that was measured
LITTLE: Mapping[str, str] = {
    "temperature": "set-temp-low",
    "dwell": "dwell-short",
    "offset": "platen-runs-cool",
    "cover_sheets": "stack-too-thick",
    "thickness": "heavy-item-drinks-heat",
}
MUCH: Mapping[str, str] = {"temperature": "set-temp-high", "dwell": "dwell-long", "offset": "platen-runs-hot"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Set:
    """What is set for a job, as far as it was told: °C, s, K by which the platen was measured to stand above its
    display, sheets above the transfer, metres of the item's thickness."""

    temperature: float | None = None
    dwell: float | None = None
    offset: float | None = None
    cover_sheets: int | None = None
    thickness: float | None = None

    @property
    def told(self) -> dict[str, float]:
        """What was told, by name."""
        named = {name: getattr(self, name) for name in LITTLE}
        return {name: value for name, value in named.items() if value is not None}


@dataclass(frozen=True, slots=True)
class Together:
    """How many times what is told together makes of a shortfall of the dose, and of an excess, what the worst of it
    makes alone: 1 where that stands alone, 0 where the rest makes up for it."""

    short: float = 1.0
    over: float = 1.0


@dataclass(frozen=True, slots=True)
class Dosing:
    """``little``, ``much``: the chance that the item gets too little, too much. ``causes``: the chance of each cause of
    it that the settings bear on, those that they clear included. ``result``: what the model makes of the job."""

    little: float
    much: float
    causes: Mapping[str, float]
    result: Result


def dosing(item: Item, knowledge: Knowledge, told: Set) -> Dosing | None:
    """What the settings give the item; None where nothing was told, or nothing is known of how it is pressed."""
    if not told.told or item.settings is None:
        return None
    try:
        usual, body = body_of(item, knowledge), body_of(item, knowledge, thickness=told.thickness)
    except NoBody:
        return None
    job = _settings(item, told)
    result = press(body, job)
    spread = spread_of(result)
    low, high = (_at(item, usual, corner) for corner in (0, 1))
    little = _normal((log(TOO_LITTLE) - log(result.over / low)) / spread)
    much = 1.0 - _normal((log(TOO_MUCH) - log(result.over / high)) / spread)
    moves = _moves(item, knowledge, usual, told)
    causes = _blamed(LITTLE, {name: -move for name, move in moves.items()}, little)
    for cause, chance in _blamed(MUCH, moves, much).items():
        causes[cause] = chance
    return Dosing(little, much, causes, result)


def together(item: Item, knowledge: Knowledge, told: Set) -> Together:
    """How all that is told works together; as if each stood alone where the dose cannot be reckoned."""
    if len(told.told) < 2 or item.settings is None:
        return Together()
    try:
        usual = body_of(item, knowledge)
    except NoBody:
        return Together()
    moves = list(_all_moves(item, knowledge, usual, told).values())
    whole = _moved(item, knowledge, usual, told)
    return Together(_against(-whole, [-move for move in moves]), _against(whole, moves))


def _against(whole: float, moves: list[float]) -> float:
    worst = max(moves)
    return min(float(len(moves)), max(0.0, whole / worst)) if worst > LEAST_MOVE else 1.0


def spread_of(result: Result) -> float:
    """One standard deviation of the logarithm of the dose, from the lower end of the band of colour."""
    least = max(result.share_band[0], 1e-9)
    if least >= 1.0 or result.over <= 0.0:
        return NARROWEST
    return min(WIDEST, max(NARROWEST, log(result.over / over_for(least)) / NINETY))


def _settings(item: Item, told: Set) -> PressSettings:
    """The job's settings: what was told, else as is usual for the item."""
    known = {name: value for name, value in told.told.items() if name != "thickness"}
    if "offset" in known:
        known["offset_spread"] = PROBED
    if "cover_sheets" in known:
        known["cover_sheets"] = int(known["cover_sheets"])
    return replace(usual_settings(item), **known)  # type: ignore[arg-type]


def _at(item: Item, body: Body, corner: int) -> float:
    """The multiple of the wanted dose that a corner of the item's window gives: 0 the lowest, 1 the highest."""
    assert item.settings is not None
    at = replace(usual_settings(item), temperature=item.settings.temperature[corner], dwell=item.settings.dwell[corner])
    return dose_of(body, at) / wanted(body)


def _moves(item: Item, knowledge: Knowledge, usual: Body, told: Set) -> dict[str, float]:
    """How far each thing told moves the logarithm of the dose. What lies within the item's window is not to blame where
    something else is not."""
    moves = _all_moves(item, knowledge, usual, told)
    stray = {name: move for name, move in moves.items() if not _within(item, name, told.told[name])}
    outside = {name: move for name, move in stray.items() if abs(move) >= LEAST_MOVE}
    return {name: outside.get(name, 0.0) for name in moves} if outside else moves


def _within(item: Item, name: str, value: float) -> bool:
    """Whether a heat or a time lies in the item's window."""
    windows = {"temperature": item.settings.temperature, "dwell": item.settings.dwell} if item.settings else {}
    return name in windows and windows[name][0] <= value <= windows[name][1]


def _all_moves(item: Item, knowledge: Knowledge, usual: Body, told: Set) -> dict[str, float]:
    """How far each thing told moves the logarithm of the dose, all else as usual."""
    return {name: _moved(item, knowledge, usual, Set(**{name: getattr(told, name)})) for name in told.told}


def _moved(item: Item, knowledge: Knowledge, usual: Body, told: Set) -> float:
    """How far the things told move it together."""
    body = usual if told.thickness is None else body_of(item, knowledge, thickness=told.thickness)
    return log(dose_of(body, _settings(item, told)) / wanted(body))


def _blamed(by: Mapping[str, str], moves: Mapping[str, float], chance: float) -> dict[str, float]:
    """The chance shared out among the causes, each by how far it moves the dose that way; together they make it up."""
    whole = sum(max(0.0, move) for move in moves.values())
    shares = {name: max(0.0, moves[name]) / whole if whole else 0.0 for name in moves if name in by}
    return {by[name]: 1.0 - (1.0 - chance) ** part for name, part in shares.items()}


def _normal(z: float) -> float:
    """The share of a normal spread below ``z``."""
    return 0.5 * (1.0 + erf(z / sqrt(2.0)))
