"""``presslore pressure``: from the gauge to the platen."""

import sys
from dataclasses import dataclass
from typing import Any

import click

from diagnose.cli import exits
from diagnose.cli.asking import typed
from diagnose.cli.terminal.screen import Screen, print_json, screen_for
from diagnose.press import pressure as air
from diagnose.press import quantities
from diagnose.press.heat.layers import USUAL_PRESSURE
from diagnose.press.quantities import PRESSURE, PSI
from diagnose.speech.saying import say

UNITS = {"kpa": "kPa", "bar": "bar", "psi": "psi", "mpa": "MPa", "pa": "Pa"}


@dataclass(frozen=True, slots=True)
class ReadGauge:
    """What a gauge shows, and the unit that the person reads it in."""

    kilopascals: float
    unit: str


class TypedGauge(typed.Quantity):
    """A pressure that keeps the unit it was typed in."""

    def __init__(self) -> None:
        super().__init__("pressure", _gauge)


def _gauge(text: str) -> ReadGauge:
    read = quantities.pressure(text)
    return ReadGauge(read, next(unit for unit in sorted(UNITS, key=len, reverse=True) if unit in text.lower()))


@click.command(
    epilog="\b\nExamples:\n  presslore pressure --gauge 6bar --bore 80mm --platen 40x50cm\n"
    "  presslore pressure --gauge 60psi --bore 63mm --cylinders 2 --platen 16x20in --item 20x20cm"
)
@click.option("--gauge", type=TypedGauge(), required=True, metavar="P", help="What the gauge shows: 6bar, 60psi.")
@click.option("--bore", type=typed.LENGTH, required=True, metavar="LENGTH", help="The cylinder's inner width: 80mm.")
@click.option("--cylinders", type=click.IntRange(1, 20), default=1, show_default=True, metavar="N")
@click.option("--platen", type=typed.AREA, required=True, metavar="SIDES", help="The platen's sides: 40x50cm.")
@click.option("--item", type=typed.AREA, default=None, metavar="SIDES", help="The item's sides, if smaller: 20x20cm.")
@click.option("--json", "as_json", is_flag=True, help="The answer as JSON.")
def pressure(as_json: bool, **given: Any) -> int:
    """Say what the gauge's air comes to on the platen and the item.

    For presses closed by air. Friction in the cylinder and the platen's own weight are left out.
    """
    worked = _worked(given)
    if as_json:
        print_json(worked)
    else:
        _page(screen_for(sys.stdout), worked, given["gauge"].unit)
    return exits.GOOD


def _worked(given: dict[str, Any]) -> dict[str, float | None]:
    """The figures by name: newtons, kPa, metres. No gauge is named that no compressor reaches: what the most that is
    reached comes to stands in its place, and the side of the square over which that would be medium."""
    bore, count = given["bore"], given["cylinders"]
    push = air.force(air.Cylinders(gauge=given["gauge"].kilopascals, bore=bore, count=count))
    carries = air.meeting(given["platen"], given["item"])
    medium = air.gauge_for(USUAL_PRESSURE, carries, bore, count)
    most = air.force(air.Cylinders(gauge=air.REACHED, bore=bore, count=count))
    reached = medium <= air.REACHED
    return {
        "push_n": round(push, 1),
        "platen_kpa": round(air.over(push, given["platen"]), 2),
        "item_kpa": round(air.over(push, carries), 2) if given["item"] else None,
        "gauge_for_medium_kpa": round(medium, 1) if reached else None,
        "most_kpa": None if reached else round(air.over(most, carries), 2),
        "medium_over_m": None if reached else round(air.square_for(most, USUAL_PRESSURE), 3),
    }


def _page(screen: Screen, worked: dict[str, float | None], unit: str) -> None:
    push, platen, item = (worked[key] or 0.0 for key in ("push_n", "platen_kpa", "item_kpa"))
    screen.line(say("mind-the-platen"), "caution")
    screen.hang("-", say("the-air-pushes", newton=push, kilogram=push / 9.81))
    screen.hang("-", say("over-the-platen", pressure=_shown(platen), word=_word(platen)))
    if item:
        screen.hang("-", say("over-the-item", pressure=_shown(item), word=_word(item)))
    screen.hang("-", _medium(worked, unit))
    screen.line(say("the-gauge-shows-air"))
    screen.line(say("basis-of-pressure"), "dim")


def _medium(worked: dict[str, float | None], unit: str) -> str:
    """What to set for a medium pressure, in the unit of the gauge, or what to do where no air gives it."""
    where = "platen" if worked["item_kpa"] is None else "item"
    gauge, most, side = (worked[key] or 0.0 for key in ("gauge_for_medium_kpa", "most_kpa", "medium_over_m"))
    wanted = _shown(USUAL_PRESSURE)
    if gauge:
        return say("gauge-for-medium", wanted=wanted, where=where, gauge=_in_unit(gauge, unit))
    return say(
        "gauge-not-reached",
        wanted=wanted,
        where=where,
        reached=_in_unit(air.REACHED, unit),
        most=_shown(most),
        word=_word(most),
        side=f"{100 * side:.0f} × {100 * side:.0f} cm ({side / 0.0254:.0f} × {side / 0.0254:.0f} in)",
    )


def _in_unit(kilopascals: float, unit: str) -> str:
    shown = kilopascals / PRESSURE.units[unit][0]
    return f"{shown:.0f} {UNITS[unit]}" if shown >= 10.0 else f"{shown:.2g} {UNITS[unit]}"


def _shown(kilopascals: float) -> str:
    return f"{kilopascals:.1f} kPa ({kilopascals / 100:.2f} bar, {kilopascals / PSI:.1f} psi)"


def _word(kilopascals: float) -> str:
    """The trade's word for a pressure over the item."""
    if kilopascals < 17.0:
        return "light"
    if kilopascals < 25.0:
        return "light to medium"
    if kilopascals < 42.0:
        return "medium"
    return "firm" if kilopascals < 80.0 else "very firm: more than contact needs"
