"""``presslore cases report``: what the cases add up to, as tables on the screen, as a page, or as JSON."""

import sys
from datetime import UTC, datetime
from pathlib import Path

import click

from diagnose.casebook.report import words
from diagnose.casebook.report.page import PAGE, page
from diagnose.casebook.report.report import Report
from diagnose.casebook.report.report import report as reported
from diagnose.casebook.report.run_chart import Week
from diagnose.casebook.report.tables import Table, tables
from diagnose.cli import exits
from diagnose.cli.cases.moving import FORCE
from diagnose.cli.options import BOOK, shop_option
from diagnose.cli.shop import leaving_out, shelf
from diagnose.cli.shop.bookcase import existing
from diagnose.cli.terminal.screen import Screen, screen_for
from diagnose.files.kinds import write_out
from diagnose.speech.saying import say

LAST_WEEKS = 26  # on the screen
WIDEST_BAR = 40
ROOMY = 60  # columns


@click.command(
    epilog="\b\nExamples:\n  presslore cases report\n  presslore cases report --since 2026-01-01 --press left\n"
    "  presslore cases report --html report.html"
)
@click.option("--since", type=click.DateTime(["%Y-%m-%d"]), help="Only cases that ended on this day or later.")
@click.option("--press", default=None, metavar="PRESS", help="Only those of this press.")
@click.option("--html", "file", type=click.Path(dir_okay=False, path_type=Path), help="Write a page with charts.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@FORCE
@BOOK
@shop_option
def report(
    since: datetime | None,
    press: str | None,
    file: Path | None,
    as_json: bool,
    force: bool,
    book: str,
    shop: Path | None,
) -> int:
    """Say what the cases add up to.

    Which causes were behind them and what each cost, spoilt pieces by week, which fix really cured what, and the
    dearest cases that nobody has explained.
    """
    kept = existing(book, shop)
    if kept is None:
        return exits.GOOD
    stock, screen = shelf.at(shop), screen_for(sys.stdout)
    leaving_out.tell(stock)
    begins = since.replace(tzinfo=UTC) if since else None
    with kept:
        found = reported(kept.groups(begins, press), kept.days(begins, press), stock.knowledge, stock.shop)
    if as_json:
        screen.json(found.to_plain())
    if file is not None:
        text = page(found, stock.shop.name, stock.shop.currency)
        write_out(file, text.encode(errors="replace"), PAGE, force=force)
        screen_for(sys.stderr).line(say("page-written-to", file=file))
    elif not as_json:
        _show(screen, found, stock.shop.currency)
    return exits.GOOD


def _show(screen: Screen, found: Report, currency: str) -> None:
    if not found.cases:
        screen.line(say("no-case-yet"))
        return
    screen.line(words.sums(found, currency))
    if note := words.left_out(found):
        screen.line(note, "caution")
    for table in tables(found, currency):
        if not table.rows:
            continue
        screen.line()
        screen.line(table.title, "title")
        screen.line(table.about, "dim")
        if table.name == "weeks":
            _weeks(screen, found.run.weeks[-LAST_WEEKS:])
        else:
            _rows(screen, table)


def _rows(screen: Screen, table: Table) -> None:
    """Figures in columns, and the words of the last column beside them."""
    *figures, _ = zip(table.head, *table.rows, strict=True)
    gap = "  " if screen.width >= ROOMY else " "
    widths = [max(map(len, column)) for column in figures]
    for number, row in enumerate((table.head, *table.rows)):
        mark = gap.join(cell.rjust(width) for cell, width in zip(row, widths, strict=False))
        screen.hang(f"{mark} ", row[-1], style="dim" if number == 0 else "")


def _weeks(screen: Screen, weeks: tuple[Week, ...]) -> None:
    """A bar for each week, as long as the screen has room for."""
    most = max(week.spoilt for week in weeks)
    figures = len(f"{most}")
    room = min(WIDEST_BAR, most, screen.width - 14 - figures)
    for week in weeks:
        bar = ("▇" if screen.unicode else "#") * round(week.spoilt * room / (most or 1))
        screen.whole(f"{week.begins}  {week.spoilt:>{figures}} {bar}".rstrip())
