"""``presslore shop``: laying out a shop's own folder, and what of it is in force."""

import sys
from pathlib import Path

import click

from diagnose.cli import exits
from diagnose.cli.options import shop_option
from diagnose.cli.shop import leaving_out, shelf
from diagnose.cli.shop.new_shop import ToldShop, write
from diagnose.cli.shop.own import in_force
from diagnose.cli.terminal.screen import Screen, both_terminals, screen_for
from diagnose.knowledge.shop import Press
from diagnose.problems import PressloreError
from diagnose.speech.saying import say

UNITS = {"temperature": ("C", "F"), "pressure": ("bar", "psi", "kPa")}
NAME_LONGEST, CURRENCY_LONGEST = 60, 8


@click.group(epilog="\b\nExamples:\n  presslore shop new my-shop\n  presslore shop show")
def shop() -> None:
    """The shop's own folder: its prices, presses and rules."""


@shop.command(epilog='\b\nExample: presslore shop new harbour --name "The harbour workshop" --currency EUR')
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.option("--name", help="What the shop is called on summaries and care cards.")
@click.option("--currency", help="What stands before amounts of money: EUR.")
@click.option("--temperature", type=click.Choice(UNITS["temperature"]), help="The degrees shown first (C).")
@click.option("--pressure", type=click.Choice(UNITS["pressure"]), help="The unit of pressure shown first (bar).")
def new(folder: Path, name: str | None, currency: str | None, temperature: str | None, pressure: str | None) -> int:
    """Lay out a folder for a shop: prices, presses, rules.

    DIR must be new or empty. In a terminal, what no option says is asked; elsewhere it keeps its default.
    """
    asked = _asked(
        {"name": name, "currency": currency, "temperature": temperature, "pressure": pressure},
        {"name": folder.absolute().name[:NAME_LONGEST], "currency": "", "temperature": "C", "pressure": "bar"},
    )
    told = ToldShop(**asked)
    if not told.name.strip() or len(told.name) > NAME_LONGEST:
        raise click.UsageError(f"--name: expected 1 to {NAME_LONGEST} characters")
    if len(told.currency) > CURRENCY_LONGEST:
        raise click.UsageError(f"--currency: expected at most {CURRENCY_LONGEST} characters, such as EUR")
    write(folder, told)
    screen = screen_for(sys.stdout)
    screen.line(say("shop-laid-out", folder=folder))
    screen.line(say("write-your-presses-next"))
    return exits.GOOD


def _asked(given: dict[str, str | None], usual: dict[str, str]) -> dict[str, str]:
    """What was given by options; the rest is asked where somebody is there, else as usual."""
    questions = {
        "name": say("what-is-the-shop-called"),
        "currency": say("what-stands-before-amounts"),
        "temperature": "Degrees: C or F?",
        "pressure": say("pressure-bar-psi-or-kpa"),
    }
    somebody = both_terminals()
    answers = {}
    for key, value in given.items():
        if value is None and somebody:
            kind = click.Choice(UNITS[key], case_sensitive=False) if key in UNITS else None
            value = click.prompt(questions[key], default=usual[key], type=kind, show_choices=False)
        answers[key] = usual[key] if value is None else value
    return answers


@shop.command(epilog="\b\nExamples:\n  presslore shop show\n  presslore shop show --shop my-shop --json")
@shop_option
@click.option("--json", "as_json", is_flag=True, help="Print it as JSON.")
def show(shop: Path | None, as_json: bool) -> int:
    """Show what is in force, and where it came from."""
    found, screen = shelf.at(shop), screen_for(sys.stdout)
    if found.folder is None:
        raise PressloreError(
            "No shop is in force here: what ships is used as it is. presslore shop new DIR lays one out; name it by "
            f"--shop or ${shelf.SHOP_VARIABLE}, or work in its folder."
        )
    if as_json:
        screen.json(in_force(found))
    else:
        _show(screen, found)
    leaving_out.tell(found)
    return exits.PROBLEMS if found.places else exits.GOOD


def _show(screen: Screen, found: shelf.Shelf) -> None:
    own, told = found.shop, in_force(found)
    screen.line(own.name or say("a-shop-without-a-name"), "title")
    screen.line(say("folder", told=told["folder"]))
    rates = own.rates
    money = f"{own.currency} {rates.minute:g}".strip()
    screen.line(
        say("units-and-costs", temperature=own.temperature, pressure=own.pressure, money=money, blank=rates.blank)
    )
    if own.tolerance is not None:
        screen.line(say("a-print-passes-within", tolerance=own.tolerance))
    screen.line()
    screen.line("Presses", "title")
    for press in own.presses.values():
        _press(screen, press, found)
    if not own.presses:
        screen.line(say("no-press-named"), "dim")
    screen.line()
    for origin in told["bundles"]:
        screen.hang("-", say("in-force-beside-its-own", origin=origin))
    screen.line(say("shop-and-taken-over-what-ships") if told["bundles"] else say("shop-over-what-ships"), "title")
    for kind, numbers in told["own"].items():
        said = ", ".join(f"{len(ids)} {word}: {' '.join(ids)}" for word, ids in numbers.items() if ids)
        screen.hang("-", f"{kind}: {said}")
    if not told["own"]:
        screen.line(say("nothing-added-replaced-or-retired"), "dim")


def _press(screen: Screen, press: Press, found: shelf.Shelf) -> None:
    screen.hang("-", f"{press.title} [{press.id}]")
    for each in press.known:
        title = found.knowledge.causes[each.cause].title
        word = each.turns_up.word or f"{each.turns_up.value:.0%}"
        screen.hang("-", f"{each.told}; {title}: {word}", indent=2)
