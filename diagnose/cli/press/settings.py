"""``presslore settings``: how an item is pressed, and where to begin with one that nobody here has pressed."""

import sys
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import click

from diagnose.cli import exits
from diagnose.cli.asking import typed
from diagnose.cli.completion import ids
from diagnose.cli.lookup.item_named import STUFF, NamedGoods, goods_named, tell_barred, tell_not_found
from diagnose.cli.options import shop_option
from diagnose.cli.shop import leaving_out, shelf
from diagnose.cli.shop.shelf import Shelf
from diagnose.cli.terminal.screen import print_json, screen_for
from diagnose.knowledge.conditions import FactValue
from diagnose.knowledge.model import Item, Knowledge
from diagnose.knowledge.preparing import Statement
from diagnose.speech.saying import say

EXAMPLES = """\b
Examples:
  presslore settings 65/35 tea towel
  presslore settings mug --why
  presslore settings --like ceramic-tile --thickness 9mm
  presslore settings --layer ceramic:6mm --layer fibreboard:3mm"""


@click.command(epilog=EXAMPLES)
@click.argument("item", nargs=-1, metavar="[ITEM]...", shell_complete=ids("items"))
@click.option("--like", default="", metavar="ITEM", shell_complete=ids("items"), help="New goods: what they are like.")
@click.option("--thickness", type=typed.LENGTH, metavar="LENGTH", help="New goods: how thick, such as 8mm.")
@click.option("--polyester", type=typed.SHARE, metavar="SHARE", help="New goods: how much is polyester, such as 80%.")
@click.option(
    "--layer",
    "layers",
    multiple=True,
    metavar="STUFF:LENGTH",
    help="New goods: a layer, the printed face first, such as ceramic:6mm. Give it once for each layer.",
)
@click.option("--why", is_flag=True, help="Say why each part is done so.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@shop_option
def settings(
    item: tuple[str, ...],
    like: str,
    thickness: float | None,
    polyester: float | None,
    layers: tuple[str, ...],
    why: bool,
    as_json: bool,
    shop: Path | None,
) -> int:
    """Say how an item is pressed.

    ITEM is an item in your own words or by id. You get a window for heat and time, the pressure, how the goods are
    made ready, laid, covered and held, and how the sheet comes off. For goods that nobody here has pressed, --like or
    --layer gives a starting point that is reckoned, and the three or four pieces to press to find the rest.
    """
    new = like or layers or thickness is not None or polyester is not None
    words = " ".join((*item, *([like] if like else [])))
    if like and item:
        raise click.UsageError("an item and --like at once: name the item, or what the new goods are like")
    if not words and not layers:
        raise click.UsageError("name an item, or say what new goods are like: --like ITEM or --layer STUFF:LENGTH")
    own = shelf.at(shop)
    leaving_out.tell(own)
    goods = goods_named(own.knowledge, words) if words else NamedGoods()
    if words and goods.item is None:
        tell_not_found(words, goods.refused)
        return exits.NOT_UNDERSTOOD
    told = goods if polyester is None else replace(goods, facts={**goods.facts, STUFF: round(100.0 * polyester, 6)})
    if goods.item and (against := _against(own.knowledge, told)):
        return _barred(own.knowledge, told, against, as_json=as_json)
    if not new:
        assert goods.item is not None
        return _known(own, goods.item, goods.facts, why=why, as_json=as_json)
    pile = tuple(_layer(each, own.knowledge) for each in layers)
    return _new(own, goods.item, pile, thickness, polyester, as_json=as_json)


def _against(knowledge: Knowledge, goods: NamedGoods) -> tuple[Statement, ...]:
    from diagnose.foresight.settings import barred

    assert goods.item is not None
    return barred(knowledge, {**goods.item.facts, **goods.facts})


def _barred(knowledge: Knowledge, goods: NamedGoods, against: tuple[Statement, ...], *, as_json: bool) -> int:
    """Goods that are not pressed get no settings, but the reason."""
    if as_json:
        from diagnose.cli.press import settings_pages as pages

        assert goods.item is not None
        print_json(pages.barred_to_plain(goods.item, against))
    else:
        tell_barred(knowledge, goods, against)
    return exits.PROBLEMS


def _known(own: Shelf, item: Item, told: Mapping[str, FactValue], *, why: bool, as_json: bool) -> int:
    from diagnose.cli.press import settings_pages as pages
    from diagnose.foresight.settings import recipe

    found = recipe(item, own.knowledge, told)
    if found is None:
        screen_for(sys.stderr).line(say("nothing-says-how", item=item.title))
        return exits.PROBLEMS
    if as_json:
        print_json(pages.to_plain(found))
    else:
        pages.page(screen_for(sys.stdout), own, found, why=why)
    return exits.GOOD


def _new(
    own: Shelf,
    like: Item | None,
    layers: tuple[tuple[str, float], ...],
    thickness: float | None,
    polyester: float | None,
    *,
    as_json: bool,
) -> int:
    from diagnose.cli.press import ladder_pages as pages
    from diagnose.foresight.ladder import Goods, ladder, nearest
    from diagnose.foresight.pressing import NoBody
    from diagnose.press.pressing import Unreachable

    try:
        found = like or nearest(layers, own.knowledge)
        goods = Goods(like=found, thickness=thickness, polyester=polyester, layers=layers)
        made = ladder(goods, own.knowledge)
    except (NoBody, Unreachable) as missing:
        screen_for(sys.stderr).line(say("no-starting-point", missing=missing))
        return exits.PROBLEMS
    if as_json:
        print_json(pages.to_plain(own, made))
    else:
        pages.page(screen_for(sys.stdout), own, made)
    return exits.GOOD


def _layer(written: str, knowledge: Knowledge) -> tuple[str, float]:
    from diagnose.press.quantities import Unclear, length
    from diagnose.reasoning.words import nearest

    stuff, mark, thick = written.partition(":")
    if not mark:
        raise click.UsageError(f"--layer {written}: expected STUFF:LENGTH, such as ceramic:6mm")
    if stuff.strip() not in knowledge.materials:
        near = nearest(list(knowledge.materials), stuff)
        hint = f" Did you mean {near}?" if near else ""
        known = ", ".join(knowledge.materials)
        raise click.UsageError(f"--layer {written}: no such stuff is known.{hint} Known: {known}")
    try:
        return stuff.strip(), length(thick)
    except Unclear as unclear:
        raise click.UsageError(f"--layer {written}: {unclear}") from None
