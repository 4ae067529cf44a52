"""``presslore pressure``: from the gauge to the platen."""

import sys
from typing import Any

import click

from diagnose.cli import exits
from diagnose.cli.asking import typed
from diagnose.cli.terminal.screen import Screen, print_json, screen_for
from diagnose.press import pressure as air
from diagnose.press.heat.layers import USUAL_PRESSURE
from diagnose.press.quantities import PSI
from diagnose.speech.saying import say


@click.command(
    epilog="\b\nExamples:\n  presslore pressure --gauge 6bar --bore 80mm --platen 40x50cm\n"
    "  presslore pressure --gauge 60psi --bore 63mm --cylinders 2 --platen 16x20in --item 20x20cm"
)
@click.option("--gauge", type=typed.PRESSURE, required=True, metavar="P", help="What the gauge shows: 6bar, 60psi.")
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
        _page(screen_for(sys.stdout), worked)
    return exits.GOOD


def _worked(given: dict[str, Any]) -> dict[str, float | None]:
    """The figures by name: newtons, kPa."""
    push = air.force(air.Cylinders(gauge=given["gauge"], bore=given["bore"], count=given["cylinders"]))
    carries = air.meeting(given["platen"], given["item"])
    return {
        "push_n": round(push, 1),
        "platen_kpa": round(air.over(push, given["platen"]), 2),
        "item_kpa": round(air.over(push, carries), 2) if given["item"] else None,
        "gauge_for_medium_kpa": round(
            air.gauge_for(USUAL_PRESSURE, carries, given["bore"], given["cylinders"]), 1
        ),
    }  # fmt: skip


def _page(screen: Screen, worked: dict[str, float | None]) -> None:
    push, platen, item, gauge = (
        worked[key] or 0.0 for key in ("push_n", "platen_kpa", "item_kpa", "gauge_for_medium_kpa")
    )
    screen.line(say("mind-the-platen"), "caution")
    screen.hang("-", say("the-air-pushes", newton=push, kilogram=push / 9.81))
    screen.hang("-", say("over-the-platen", pressure=_shown(platen), word=_word(platen)))
    if item:
        screen.hang("-", say("over-the-item", pressure=_shown(item), word=_word(item)))
    where = "over the item" if item else "over the platen"
    screen.hang("-", f"For a medium {USUAL_PRESSURE:.0f} kPa {where}: {gauge / 100:.2g} bar on the gauge.")
    screen.line(say("the-gauge-shows-air"))
    screen.line(say("basis-of-pressure"), "dim")


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
