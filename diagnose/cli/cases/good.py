"""``presslore good``: note what a piece was set to that came out well, or show what is noted."""

import sys
from datetime import datetime
from pathlib import Path
from typing import Any

import click

from diagnose.cli import exits
from diagnose.cli.asking.figures import measured
from diagnose.cli.asking.flags import known_id
from diagnose.cli.asking.goods import goods_used
from diagnose.cli.completion import ids
from diagnose.cli.lookup.item_named import goods_named, tell_barred, tell_not_found
from diagnose.cli.options import BOOK, FIGURE_FLAGS, shop_option
from diagnose.cli.shop import leaving_out, shelf
from diagnose.cli.shop.bookcase import place
from diagnose.cli.shop.shelf import Shelf
from diagnose.cli.terminal.screen import Screen, print_json, screen_for
from diagnose.dialogue.moves import LastGood
from diagnose.speech.heard import last_good, set_to
from diagnose.speech.saying import say

FIGURES = ("set", "dwell", "sheets")


@click.command(
    epilog="\b\nExamples:\n  presslore good tea towel --set 200C --dwell 60s --used paper='the green box'\n"
    "  presslore good mug --set 190C --dwell 180s --on 2026-11-12\n  presslore good"
)
@click.argument("item", nargs=-1, metavar="ITEM...", shell_complete=ids("items"))
@click.option("--set", default="", metavar="TEMPERATURE", help=FIGURE_FLAGS["set"][1])
@click.option("--dwell", default="", metavar="TIME", help=FIGURE_FLAGS["dwell"][1])
@click.option("--sheets", default="", metavar="NUMBER", help=FIGURE_FLAGS["sheets"][1])
@click.option("--used", multiple=True, metavar="KIND=WORDS", help="Which paper, ink, blanks or sundries were used.")
@click.option("--press", default="", metavar="ID", help="The press, as shop.yaml calls it.")
@click.option("--on", type=click.DateTime(["%Y-%m-%d"]), help="The day it was pressed (default: today).")
@click.option("--json", "as_json", is_flag=True, help="What is noted, as JSON.")
@BOOK
@shop_option
def good(item: tuple[str, ...], book: str, shop: Path | None, as_json: bool, **told: Any) -> int:
    """Note what a piece was set to that came out well.

    ITEM is an item in your own words or by id; without one, what is noted is shown. Of each item the last good one
    counts, on each press by itself. The next time such an item is spoiled on that press, diagnose shows it, says what
    differs, and looks there first. A dialogue that ends well notes its piece by itself.
    """
    own, screen = shelf.at(shop), screen_for(sys.stdout)
    leaving_out.tell(own)
    from diagnose.cli.diagnosis.recalling import good_file

    file = good_file(place(book, shop))
    if not item:
        if any(told.values()):
            raise click.UsageError("say what came out well as well: presslore good mug --set 190C")
        _show(own, screen, file, as_json=as_json)
        return exits.GOOD
    return _note(own, screen, file, " ".join(item), told)


def _note(own: Shelf, screen: Screen, file: Path, words: str, told: dict[str, Any]) -> int:
    from diagnose.casebook.good import GoodPressing, note
    from diagnose.dialogue.saving import make_folder
    from diagnose.foresight.settings import barred

    goods = goods_named(own.knowledge, words)
    if goods.item and (against := barred(own.knowledge, {**goods.item.facts, **goods.facts})):
        tell_barred(own.knowledge, goods, against)
        return exits.PROBLEMS
    if goods.item is None:
        tell_not_found(words, goods.refused)
        return exits.NOT_UNDERSTOOD
    figures = measured({name: told[name] for name in FIGURES if told[name]})
    used = goods_used(told["used"])
    if not (figures or used):
        raise click.UsageError(
            "say what it was set to or what was used: --set 200C --dwell 60s --used paper='the green box'"
        )
    one = LastGood(_day(told["on"]), dict(figures.figures) if figures else {}, used)
    make_folder(file.parent)
    note(file, GoodPressing(item=goods.item.id, press=_press(own, told["press"], goods.item.job), good=one))
    screen.line(say("good-noted", item=goods.item.title, what=set_to(one, own.shop.temperature)), "good")
    return exits.GOOD


def _press(own: Shelf, named: str, job: Any) -> str:
    if named:
        if not own.shop.presses:
            raise click.UsageError(f"--press {named}: no shop.yaml names presses; they stand in it under presses")
        return known_id(named, own.shop.presses, "press")
    press = own.shop.press_for(job)
    return press.id if press else ""


def _day(on: datetime | None) -> str:
    """The day as it is kept. Raises click.UsageError for one to come."""
    from diagnose.cli.diagnosis.recalling import today

    here = today()
    if on and f"{on:%Y-%m-%d}" > here:
        raise click.UsageError(f"--on {on:%Y-%m-%d}: expected a day that has been")
    return f"{on:%Y-%m-%d}" if on else here


def _show(own: Shelf, screen: Screen, file: Path, *, as_json: bool) -> None:
    from dataclasses import asdict

    from diagnose.casebook.good import noted

    found = noted(file)
    if as_json:
        print_json([{"item": each.item, "press": each.press, **asdict(each.good)} for each in found])
        return
    if not found:
        screen.line(say("no-good-noted"))
    for each in found:
        item, press = own.knowledge.items.get(each.item), own.shop.presses.get(each.press)
        title = item.title if item else each.item
        where = press.title if press else each.press
        what = last_good(each.good, own.shop.temperature)
        screen.hang("-", say("good-pressing", item=title, press=where, on_press="yes" if where else "no", what=what))
