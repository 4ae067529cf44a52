"""``presslore ready``: a job before it goes under the platen."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from diagnose.cli import exits
from diagnose.cli.asking import typed
from diagnose.cli.completion import ids
from diagnose.cli.lookup.item_named import tell_not_found
from diagnose.cli.options import shop_option
from diagnose.cli.shop import leaving_out, shelf
from diagnose.cli.terminal.screen import both_terminals, print_json, screen_for

if TYPE_CHECKING:
    from diagnose.cli.ready.told import ToldJob

EXAMPLES = """\b
Examples:
  presslore ready
  presslore ready --item "black cotton t-shirt"
  presslore ready --item "tea towel" --set 180C --dwell 45s --not-so held
  presslore ready --job fete.yaml --json"""


@click.command(epilog=EXAMPLES)
@click.option("--item", metavar="WORDS", shell_complete=ids("items"), help="What is to be pressed, or its id.")
@click.option("--colour", metavar="WORD", help="The bare goods: white, light, mid, dark or black.")
@click.option("--polyester", type=typed.SHARE, metavar="SHARE", help="How much of the cloth is polyester: 65%.")
@click.option("--coated/--uncoated", default=None, help="Hard goods: with or without a coating made for dye.")
@click.option(
    "--fact", "facts", multiple=True, metavar="FACT=VALUE", shell_complete=ids("facts"), help="A fact of the job."
)
@click.option("--set", type=typed.TEMPERATURE, metavar="HEAT", help="The heat on the display: 196C, 385F.")
@click.option("--dwell", type=typed.DWELL, metavar="TIME", help="How long the press stays closed: 60s, 1:00.")
@click.option("--probe", type=typed.TEMPERATURE, metavar="HEAT", help="What a probe reads on the platen by that.")
@click.option("--pressure", metavar="WORD|P", help="light, light to medium, medium, heavy; or over the goods: 30kPa.")
@click.option("--sheets", type=click.IntRange(0, 20), metavar="N", help="Cover sheets between platen and transfer.")
@click.option("--thickness", type=typed.LENGTH, metavar="LENGTH", help="How thick the goods are: 6mm.")
@click.option("--not-so", multiple=True, metavar="ID", shell_complete=ids("ready"), help="What is not so: mirrored.")
@click.option("--unsure", multiple=True, metavar="ID", shell_complete=ids("ready"), help="What you are not sure of.")
@click.option("--so", multiple=True, metavar="ID", shell_complete=ids("ready"), help="What is so.")
@click.option("--rest-so", is_flag=True, default=None, help="All that is not named is so.")
@click.option("--pieces", type=click.IntRange(1, 100_000), metavar="N", help="How many pieces are to be pressed.")
@click.option(
    "--spoilt", type=typed.SHARE, metavar="SHARE", help="How many usual presses go wrong (else shop.yaml's, or 5%)."
)
@click.option("--press", metavar="ID", help="The press, as shop.yaml calls it.")
@click.option("--job", type=click.Path(path_type=Path, dir_okay=False), metavar="FILE", help="A job file (YAML).")
@click.option("--list", "listing", is_flag=True, help="List the statements to name with --so, --not-so and --unsure.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON, and ask nothing.")
@shop_option
def ready(job: Path | None, listing: bool, as_json: bool, shop: Path | None, **flags: Any) -> int:
    """Look a job over before it goes under the platen.

    In a terminal it asks three things: the goods, what is set, and what of a short list is not so; Enter is the usual
    answer. Then it says whether to press, what is likely to go wrong and from what, and what to change first. Flags or
    a job file (presslore schema job) answer beforehand.

    Ends with 0 for go and go with care, with 1 for stop.
    """
    own = shelf.at(shop)
    leaving_out.tell(own)
    screen = screen_for(sys.stdout)
    if listing and as_json:
        screen.json([{"id": one.id, "holds": one.holds} for one in own.knowledge.ready.values()])
        return exits.GOOD
    if listing:
        screen.columns((one.id, one.holds) for one in own.knowledge.ready.values())
        return exits.GOOD
    told, somebody = _told(job, flags), both_terminals() and not as_json and job is None
    if not (told.item or told.facts or somebody):
        raise click.UsageError("nothing is said of the job: name the goods with --item, or give a file with --job")
    return _answer(own, told, asking=somebody and not (told.item and _more(told)), as_json=as_json)


def _told(job: Path | None, flags: dict[str, Any]) -> ToldJob:
    """What the file says, with the flags laid over it."""
    from diagnose.cli.ready.told import ToldJob, from_file, read_job

    given = {name: value for name, value in flags.items() if value not in (None, ())}
    return ToldJob.of({**(from_file(read_job(job)) if job else {}), **given})


def _more(told: ToldJob) -> bool:
    """Whether more was told than the goods, so that nobody wants to be asked."""
    return bool(told.rest_so or told.so or told.not_so or told.unsure or told.set is not None)


def _answer(own: shelf.Shelf, told: ToldJob, *, asking: bool, as_json: bool) -> int:
    from diagnose.cli.ready import pages
    from diagnose.cli.ready.asking import ask_all
    from diagnose.cli.ready.told import understand
    from diagnose.foresight.ready import STOP, readiness

    screen = screen_for(sys.stdout)
    understood = understand(told, own)
    if understood.not_understood and not as_json:
        tell_not_found(understood.not_understood, understood.refused)
        return exits.NOT_UNDERSTOOD
    if asking:
        try:
            told = ask_all(screen, own, told)
        except EOFError:
            raise click.Abort from None
        understood = understand(told, own)
    found = readiness(understood.job, own.knowledge, own.shop.rates)
    if as_json:
        print_json(pages.to_plain(own, found, understood.not_understood))
    else:
        pages.page(screen, own, found, warned=asking)
    if understood.not_understood:
        return exits.NOT_UNDERSTOOD
    return exits.PROBLEMS if found.verdict == STOP else exits.GOOD
