"""``presslore cases add``: a case that was solved without the dialogue, from flags or from prompts."""

import sys
from datetime import UTC, datetime, timedelta
from math import isnan
from pathlib import Path
from typing import Any

import click

from diagnose.casebook.case import BY_HAND, EARLIEST, MOST, MOST_MONEY, Case, fit, new_id, now, press_name
from diagnose.cli import exits
from diagnose.cli.cases.pages import case_line
from diagnose.cli.completion import ids
from diagnose.cli.options import BOOK, FIGURE_FLAGS, figure_options, shop_option
from diagnose.cli.shop import leaving_out, shelf
from diagnose.cli.shop.bookcase import opened, short
from diagnose.cli.shop.shelf import Shelf
from diagnose.cli.terminal.screen import both_terminals, screen_for
from diagnose.speech.saying import say


class _Amount(click.FloatRange):
    """A number from 0 on; ``nan`` is none."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> float:
        number: float = super().convert(value, param, ctx)
        if isnan(number):
            self.fail(f"{value!r} is no number", param, ctx)
        return number


AMOUNT = _Amount(0, MOST)


@click.command(
    epilog="\b\nExamples:\n  presslore cases add\n"
    '  presslore cases add --item mug --saw "edges are blurred" --cured-by tape-two-edges --minutes 20\n'
    "  presslore cases add --saw ghosting --tried tape-two-edges --cured-by peel-in-one-stroke"
)
@click.option("--item", default="", shell_complete=ids("items"), help="What was pressed, in your own words or by id.")
@click.option("--fact", "facts", multiple=True, metavar="FACT=VALUE", shell_complete=ids("facts"), help="A fact of it.")
@click.option("--saw", multiple=True, shell_complete=ids("defects"), help="What was wrong, in your own words or by id.")
@click.option("--not-seen", multiple=True, shell_complete=ids("defects"), help="What was looked for and not there.")
@click.option(
    "--answer", "answers", multiple=True, metavar="CHECK=OUTCOME", shell_complete=ids("answers"),
    help="The outcome of a check.",
)  # fmt: skip
@figure_options
@click.option("--tried", multiple=True, metavar="FIX", shell_complete=ids("fixes"), help="A fix that did not help.")
@click.option("--cured-by", default="", metavar="FIX", shell_complete=ids("fixes"), help="The fix that cured it.")
@click.option("--cured", is_flag=True, help="It was cured, nobody knows by what.")
@click.option("--handed-over", is_flag=True, help="Help was called.")
@click.option("--press", default="", help="The press, by its name in your shop.yaml.")
@click.option("--minutes", type=AMOUNT, help="How long it took, all in all.")
@click.option("--spoilt", type=click.IntRange(0, int(MOST)), help="How many pieces were spoilt.")
@click.option("--lost", type=_Amount(0, MOST_MONEY), help="What it cost (default: reckoned by the shop's rates).")
@click.option("--date", type=click.DateTime(["%Y-%m-%d"]), help="The day it ended (default: today).")
@BOOK
@shop_option
def add(book: str, shop: Path | None, date: datetime | None, **told: Any) -> int:
    """Write down a case that was solved without the dialogue.

    In a terminal, and without flags that say what was wrong, it asks.
    """
    from diagnose.cli.cases.asking import asked, said
    from diagnose.reasoning.words import lexicon

    told["measured"] = {name: text for name in FIGURE_FLAGS if (text := told.pop(name))}
    stock, screen = shelf.at(shop), screen_for(sys.stdout)
    leaving_out.tell(stock)
    knowledge = stock.knowledge
    ended = _ended(date)
    if both_terminals() and not told["saw"]:
        told = asked(screen, stock, lexicon(knowledge), told)
    session = said(stock, lexicon(knowledge), told)
    case = _case(stock, session, told, ended)
    with opened(book, shop) as kept:
        kept.add([case])
    case_line(screen, knowledge, case)
    screen.line(say("case-kept-and-shown", id=short(case)), "dim")
    return exits.GOOD


def _ended(date: datetime | None) -> datetime:
    """This moment, or noon of another day. Raises click.UsageError for a day to come or one too long gone."""
    at = now()
    if date is None or date.date() == at.date():
        return at
    ended = date.replace(hour=12, tzinfo=UTC)
    if date.year < EARLIEST:
        raise click.UsageError(f"--date {date.date()}: expected a day from {EARLIEST} on")
    if ended > at + timedelta(days=1):
        raise click.UsageError(f"--date {date.date()}: expected a day that has been")
    return ended


def _case(stock: Shelf, session: Any, told: dict[str, Any], ended: datetime) -> Case:
    from diagnose.casebook.costing import reckon

    bill = reckon(session, stock.knowledge, stock.shop.rates, told["minutes"], told["spoilt"])
    return fit(
        Case(
            id=new_id(datetime.now(UTC)),
            ended=ended,
            session=session,
            press=session.press or press_name(told["press"]),
            minutes=told["minutes"],
            spoilt=bill.spoilt,
            lost=bill.lost if told["lost"] is None else told["lost"],
            knowledge=stock.knowledge.version,
            source=BY_HAND,
        )
    )
