"""``presslore cases``: the casebook, every spoiled press that was looked into and how it ended."""

import sys
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, TypeVar

import click

from diagnose.casebook.case import to_plain
from diagnose.cli import exits
from diagnose.cli.asking.flags import known_id
from diagnose.cli.cases.adding import add
from diagnose.cli.cases.checking import check
from diagnose.cli.cases.moving import backup, export, import_, restore
from diagnose.cli.cases.pages import case_line, case_page
from diagnose.cli.cases.reporting import report
from diagnose.cli.completion import ids
from diagnose.cli.options import BOOK, shop_option
from diagnose.cli.shop import shelf
from diagnose.cli.shop.bookcase import existing, found
from diagnose.cli.terminal.screen import print_json, screen_for
from diagnose.speech.saying import say

Command = TypeVar("Command", bound=Callable[..., Any])
JSON = click.option("--json", "as_json", is_flag=True, help="Print JSON.")


def chosen(command: Command) -> Command:
    """The options that choose among the cases."""
    since = click.option(
        "--since", type=click.DateTime(["%Y-%m-%d"]), help="Only those that ended on this day or later."
    )
    press = click.option("--press", default=None, metavar="PRESS", help="Only those of this press.")
    return since(press(command))


def begun(since: datetime | None) -> datetime | None:
    """The moment that a day begins, in UTC."""
    return since.replace(tzinfo=UTC) if since else None


@click.group(epilog="\b\nExamples:\n  presslore cases list\n  presslore cases report")
def cases() -> None:
    """Look after the casebook, where every case is kept.

    The casebook is what --book names (a file, or postgresql://USER@HOST/DATABASE), else what $PRESSLORE_CASEBOOK
    names, else casebook.sqlite3 in the folder of your shop.yaml, else a file in your own data folder.
    """


@cases.command("list", epilog="\b\nExamples:\n  presslore cases list\n  presslore cases list --item mug --most 50")
@chosen
@click.option("--item", default=None, shell_complete=ids("items"), help="Only those of this item, by id.")
@click.option("--most", default=20, show_default=True, type=click.IntRange(1), help="How many to show.")
@JSON
@BOOK
@shop_option
def list_(
    since: datetime | None,
    press: str | None,
    item: str | None,
    most: int,
    as_json: bool,
    book: str,
    shop: Path | None,
) -> int:
    """List the cases, the newest first."""
    knowledge, screen = shelf.knowledge(shop), screen_for(sys.stdout)
    if item:
        known_id(item, knowledge.items, "item")
    opened = existing(book, shop)
    if opened is None:
        if as_json:
            print_json([])
        return exits.GOOD
    with opened:
        kept = opened.newest(most, begun(since), press, item)
        if as_json:
            print_json([to_plain(case) for case in kept])
            return exits.GOOD
        for case in kept:
            case_line(screen, knowledge, case)
        screen.line(say("of-all-cases", shown=len(kept), all=opened.count()), "dim")
    return exits.GOOD


@cases.command(epilog="\b\nExamples:\n  presslore cases show last\n  presslore cases show last --json")
@click.argument("case_id", metavar="ID")
@JSON
@BOOK
@shop_option
def show(case_id: str, as_json: bool, book: str, shop: Path | None) -> int:
    """Show one case, and what was most likely behind it.

    ID is an id, its beginning or end as the list shows it, or the word last.
    """
    opened = existing(book, shop)
    if opened is None:
        return exits.PROBLEMS
    with opened:
        case = found(opened, case_id)
    if as_json:
        print_json(to_plain(case))
    else:
        case_page(screen_for(sys.stdout), shelf.at(shop), case)
    return exits.GOOD


for command in (add, export, import_, backup, restore, check, report):
    cases.add_command(command)
