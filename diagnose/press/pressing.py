"""An item under the press: what was set, what it got, and how long it takes to get what it wants."""

from dataclasses import dataclass, replace
from math import exp, log, sqrt

from diagnose.press.dye.dose import dose, log_mean, share
from diagnose.press.dye.vapour import STEEPNESS, haste
from diagnose.press.heat.layers import USUAL_PLATEN, USUAL_PRESSURE, Platen, Slab, contact_resistance
from diagnose.press.heat.soaking import Moment, soak, start, steamed, step, times
from diagnose.press.heat.stack import Stack, stacked

LONGEST = 3600.0  # s
COOLEST, HOTTEST = 140.0, 220.0  # °C: below, nothing gasses off to speak of; above, polyester is near its melting
NINETY = 1.645  # standard deviations to either side hold 90 % of a normal spread
# Spreads as one standard deviation. Assumptions, but for that of the dyes.
DISPLAY_SPREAD = 3.0  # K: a display that nobody has held a probe against
STEEPNESS_SPREAD = 0.15  # share of the slope: dry transfer is told as 100 to 170 kJ/mol (from memory)
CONTACT_SPREAD, THICKNESS_SPREAD = 0.4, 0.1  # in the logarithm
WANTED_SPREAD = 0.25  # in the logarithm: the windows in which an item comes right are about so wide


class Unreachable(ValueError):
    """No dwell at these settings gives the dose."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PressSettings:
    """What was set on the press: °C on the display, seconds, kPa over the item; ``offset``: by how many K the platen
    truly stands above its display, ``offset_spread`` how sure that is; sheets between platen and transfer; seconds
    of pre-press."""

    temperature: float
    dwell: float
    pressure: float = USUAL_PRESSURE
    offset: float = 0.0
    cover_sheets: int = 1
    pre_press: float = 0.0
    offset_spread: float = DISPLAY_SPREAD


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """What lies in the press. ``item``: its layers, the printed face first; ``under``: pad and bed from the item down
    (none: the far side is in the air, as in a mug). ``reference``: settings at which the item comes right, and
    ``wanted`` the dose (s at the reference temperature) it gets by them; where None, this very body's."""

    item: tuple[Slab, ...]
    sheet: Slab
    cover: Slab
    under: tuple[Slab, ...]
    reference: PressSettings
    platen: Platen = USUAL_PLATEN
    through_back: bool = False
    wanted: float | None = None


@dataclass(frozen=True, slots=True)
class Result:
    """What a job got: the highest temperature at the dye (°C), the dose in seconds at the reference temperature, the
    share of full colour with its 90 % band, and the dose as a multiple of the wanted one."""

    peak: float
    dose: float
    share: float
    share_band: tuple[float, float]
    over: float


def press(body: Body, settings: PressSettings) -> Result:
    """What the item gets by these settings."""
    moments, stack = track(body, settings)
    at_dye = [moment.at_dye(stack) for moment in moments]
    got = dose([moment.time for moment in moments], at_dye, body.reference.temperature)
    over = got / wanted(body)
    spread = NINETY * sqrt(sum(part * part for part in spreads(body, settings, moments, stack)))
    band = (share(over * exp(-spread)), share(over * exp(spread)))
    return Result(max(at_dye), got, share(over), band, over)


def dwell_for(body: Body, settings: PressSettings, over: float = 1.0) -> float:
    """Seconds that give ``over`` times the wanted dose by these settings, whatever their own dwell.

    Raises:
        Unreachable: not within an hour.
    """
    stack, setting = stack_of(body, settings), settings.temperature + settings.offset
    reference, missing = body.reference.temperature, over * wanted(body)
    now = start(stack, setting)
    for time in times(LONGEST):
        then = step(stack, setting, now, time - now.time)
        gained = _gained(stack, now, then, reference)
        if gained >= missing:
            return now.time + _part(stack, setting, now, then, missing, reference)
        now, missing = then, missing - gained
    raise Unreachable(f"not within an hour at {settings.temperature:.0f} °C")


def temperature_for(body: Body, settings: PressSettings, over: float = 1.0) -> float:
    """°C on the display that give ``over`` times the wanted dose in the dwell of these settings.

    Raises:
        Unreachable: not between ``COOLEST`` and ``HOTTEST``, which the platen itself must not pass either.
    """
    least, most = COOLEST, HOTTEST - max(0.0, settings.offset)
    missing = over * wanted(body)
    if dose_of(body, replace(settings, temperature=most)) < missing:
        raise Unreachable(f"not in {settings.dwell:.0f} s at up to {most:.0f} °C")
    if dose_of(body, replace(settings, temperature=least)) > missing:
        raise Unreachable(f"less than {COOLEST:.0f} °C would do")
    while most - least > 0.05:
        middle = 0.5 * (least + most)
        if dose_of(body, replace(settings, temperature=middle)) < missing:
            least = middle
        else:
            most = middle
    return 0.5 * (least + most)


def dose_of(body: Body, settings: PressSettings) -> float:
    """The dose alone, in seconds at the reference temperature."""
    moments, stack = track(body, settings)
    at_dye = [moment.at_dye(stack) for moment in moments]
    return dose([moment.time for moment in moments], at_dye, body.reference.temperature)


def wanted(body: Body) -> float:
    """The dose that the item wants, in seconds at its reference temperature."""
    if body.wanted is not None:
        return body.wanted
    return dose_of(body, body.reference)


def track(body: Body, settings: PressSettings) -> tuple[list[Moment], Stack]:
    """Everything that happens in the press, and the stack it happens in."""
    stack = stack_of(body, settings)
    return soak(stack, settings.temperature + settings.offset, settings.dwell), stack


def stack_of(body: Body, settings: PressSettings, tightness: float = 1.0, swelling: float = 1.0) -> Stack:
    """The pile under the platen. ``tightness`` multiplies how well faces touch, ``swelling`` how thick the item is."""
    item = tuple(replace(layer, thickness=layer.thickness * swelling) for layer in body.item)
    if settings.pre_press > 0.0:
        item = _dried(body, settings, item)
    sheets = (body.cover,) * settings.cover_sheets
    if body.through_back:
        above, below = (*sheets, *reversed(item)), (body.sheet, *body.under)
    else:
        above, below = (*sheets, body.sheet), (*item, *body.under)
    return stacked(body.platen, above, below, contact_resistance(settings.pressure, tightness))


def spreads(body: Body, settings: PressSettings, moments: list[Moment], stack: Stack) -> list[float]:
    """How far each uncertain input may move the logarithm of the dose (one standard deviation)."""
    reference = body.reference.temperature
    clock, at_dye = [moment.time for moment in moments], [moment.at_dye(stack) for moment in moments]
    middle = log(dose(clock, at_dye, reference))
    steeper = log(dose(clock, at_dye, reference, STEEPNESS * (1.0 + STEEPNESS_SPREAD)))
    setting = settings.temperature + settings.offset
    other = (
        (stack, setting + settings.offset_spread),
        (stack_of(body, settings, tightness=exp(CONTACT_SPREAD)), setting),
        (stack_of(body, settings, swelling=exp(THICKNESS_SPREAD)), setting),
    )
    moved = [WANTED_SPREAD, steeper - middle]
    for pile, degrees in other:
        found = soak(pile, degrees, settings.dwell, stride=0.16)
        got = dose([moment.time for moment in found], [moment.at_dye(pile) for moment in found], reference)
        moved.append(log(got) - middle)
    return moved


def _dried(body: Body, settings: PressSettings, item: tuple[Slab, ...]) -> tuple[Slab, ...]:
    """The item's layers with what water a pre-press under a cover sheet leaves in them. They cool again before the
    sheet is laid."""
    above = (body.cover, *(reversed(item) if body.through_back else item))
    contact = contact_resistance(settings.pressure)
    dry = [replace(layer, material=replace(layer.material, regain=0.0)) for layer in item]
    if all(layer.material.regain == 0.0 for layer in item):
        return item
    pile = stacked(body.platen, above, body.under, contact)
    end = soak(pile, settings.temperature + settings.offset, settings.pre_press)[-1]
    whole = sum(pile.waters)
    left = sum(
        water * (1.0 - steamed(degrees)) for water, degrees in zip(pile.waters, end.temperatures[1:], strict=True)
    )
    part = left / whole if whole else 0.0
    return tuple(
        replace(bare, material=replace(bare.material, regain=layer.material.regain * part))
        for bare, layer in zip(dry, item, strict=True)
    )


def _gained(stack: Stack, now: Moment, then: Moment, reference: float) -> float:
    """The dose between two moments."""
    return (then.time - now.time) * log_mean(haste(now.at_dye(stack), reference), haste(then.at_dye(stack), reference))


def _part(stack: Stack, setting: float, now: Moment, then: Moment, missing: float, reference: float) -> float:
    """The seconds of the last step after which the missing dose is there: halving, then the secant."""
    least, most = 0.0, then.time - now.time
    for _ in range(40):
        middle = 0.5 * (least + most)
        if middle in (least, most):
            break
        if _gained(stack, now, step(stack, setting, now, middle), reference) < missing:
            least = middle
        else:
            most = middle
    return most
