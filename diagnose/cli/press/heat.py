"""``presslore heat``: what a job gets in the press, and what to set instead."""

import sys
from pathlib import Path
from typing import Any

import click

from diagnose.cli import exits
from diagnose.cli.asking import typed
from diagnose.cli.completion import ids
from diagnose.cli.lookup.item_named import goods_named, tell_barred, tell_not_found
from diagnose.cli.options import shop_option
from diagnose.cli.shop import leaving_out, shelf
from diagnose.cli.terminal.screen import print_json, screen_for
from diagnose.speech.saying import say

EXAMPLES = """\b
Examples:
  presslore heat tea towel --set 200C --dwell 60s --instead 190C
  presslore heat tea-towel-65-35 --set 200C --probe 192C
  presslore heat ceramic-tile --thickness 6mm --through-back
  presslore heat mug --sheets 2"""


@click.command(epilog=EXAMPLES)
@click.argument("item", nargs=-1, required=True, metavar="ITEM...", shell_complete=ids("items"))
@click.option("--set", "temperature", type=typed.TEMPERATURE, metavar="HEAT", help="The heat on the display: 200C.")
@click.option("--dwell", type=typed.DWELL, metavar="TIME", help="How long the press stays closed: 60s, 1:00.")
@click.option("--probe", type=typed.TEMPERATURE, metavar="HEAT", help="What a probe reads on the platen by that.")
@click.option("--sheets", type=click.IntRange(0, 20), metavar="N", help="Cover sheets between platen and transfer.")
@click.option("--through-back", is_flag=True, help="The heat comes through the item's back.")
@click.option("--through-sheet", is_flag=True, help="It comes through the transfer.")
@click.option("--thickness", type=typed.LENGTH, metavar="LENGTH", help="How thick the item is: 6mm.")
@click.option("--pressure", type=typed.PRESSURE, metavar="P", help="Over the item, not on the gauge: 30kPa.")
@click.option("--pre-press", type=typed.DWELL, default=0.0, metavar="TIME", help="Closed without the sheet before.")
@click.option("--instead", type=typed.TEMPERATURE, metavar="HEAT", help="Another heat: how long is it then?")
@click.option("--json", "as_json", is_flag=True, help="The answer as JSON.")
@shop_option
def heat(item: tuple[str, ...], as_json: bool, shop: Path | None, **asked: Any) -> int:
    """Say what an item got in the press, and what to set instead.

    ITEM is an item in your own words or by id. What you do not give is taken as is usual for it. The heat is reckoned
    through platen, sheets, item and pad; the dye by its vapour pressure. It is a reckoning with a band: press a test
    piece.
    """
    own = shelf.at(shop)
    leaving_out.tell(own)
    goods = goods_named(own.knowledge, " ".join(item))
    from diagnose.foresight.settings import barred

    if goods.item and (against := barred(own.knowledge, {**goods.item.facts, **goods.facts})):
        tell_barred(own.knowledge, goods, against)
        return exits.PROBLEMS
    found = goods.as_listed
    if found is None:
        tell_not_found(" ".join(item), goods.refused)
        return exits.NOT_UNDERSTOOD
    from diagnose.cli.press import heat_pages
    from diagnose.foresight.heating import HeatJob, foresee
    from diagnose.foresight.pressing import NoBody

    asked["through_back"] = _way(back=asked["through_back"], sheet=asked.pop("through_sheet"))
    try:
        heating = foresee(found, own.knowledge, HeatJob(**asked))
    except NoBody as missing:
        screen_for(sys.stderr).line(say("this-cannot-be-reckoned", missing=missing))
        return exits.PROBLEMS
    if as_json:
        print_json(heat_pages.to_plain(own, heating))
    else:
        heat_pages.page(screen_for(sys.stdout), own, heating)
    return exits.GOOD


def _way(*, back: bool, sheet: bool) -> bool | None:
    """From where the heat comes; None: as is usual for the item."""
    if back and sheet:
        raise click.UsageError("--through-back and --through-sheet: the heat comes one way, so give one of them")
    return back or (False if sheet else None)
