"""``presslore care``: what the customer is told about looking after a piece, on the screen or as cards to print."""

import re
import sys
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

import click

from diagnose.cli import exits
from diagnose.cli.completion import ids
from diagnose.cli.lookup import cards
from diagnose.cli.lookup.item_named import goods_named, tell_not_found
from diagnose.cli.options import shop_option
from diagnose.cli.shop import leaving_out, shelf
from diagnose.cli.terminal.screen import Screen, screen_for
from diagnose.knowledge.care import FOOTING, by_kind, items_of, message, note_on
from diagnose.knowledge.model import SHIPPED, CareNote, Item, Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.speech.saying import say

WEB_ADDRESS = re.compile(r"https?://[!-~]+")


@click.command(
    epilog="\b\nExamples:\n  presslore care\n  presslore care tea towel\n"
    "  presslore care mug --html --address https://handbook.example/ > mug-care.html"
)
@click.argument("item", nargs=-1, metavar="[ITEM]...", shell_complete=ids("items"))
@click.option("--html/--text", "as_html", default=False, help="Cards to print as HTML, or text (the default).")
@click.option("--message", "as_message", is_flag=True, help="A few words for a message to the customer.")
@click.option("--paper", type=click.Choice(["a4", "letter"]), default="a4", show_default=True, help="The sheet.")
@click.option("--address", default="", metavar="URL", help="Where the handbook is, for the code on the card.")
@shop_option
def care(item: tuple[str, ...], as_html: bool, as_message: bool, paper: str, address: str, shop: Path | None) -> int:
    """Say what to tell the customer about washing, heat, light and limits.

    ITEM is an item in your own words or by id, or the id of a care note; without it, the notes are listed. --html
    prints a page to standard output: four cards on a sheet with the shop's name, address and a code that leads to
    the note in its handbook, all from shop.yaml (name, address, handbook). --message is the note in a sentence or two.
    """
    screen = screen_for(sys.stdout)
    if address and not WEB_ADDRESS.fullmatch(address):
        raise click.UsageError(f"--address {address}: expected a web address such as https://handbook.example/")
    own = shelf.at(shop)
    leaving_out.tell(own)
    knowledge = own.knowledge
    if not item:
        screen.columns((note.id, cards.titled(note)) for note in knowledge.care.values())
        return exits.GOOD
    found = _found(knowledge, " ".join(item))
    if found is None:
        return exits.NOT_UNDERSTOOD
    note, piece = found
    if as_message:
        screen.line(message(note, piece))
    elif as_html:
        _print_cards(note, piece, replace(own.shop, handbook=address or own.shop.handbook), paper)
    else:
        _print_note(screen, knowledge, note, piece)
    return exits.GOOD


def _found(knowledge: Knowledge, words: str) -> tuple[CareNote, Item | None] | None:
    """The care note that the words name, and the item where they name one; says so and gives None where they do
    not, or where the item has no note."""
    note = knowledge.care.get(words.strip())
    if note and words.strip() not in knowledge.items:
        return note, None
    goods = goods_named(knowledge, words)
    item = goods.as_listed
    if item is None:
        tell_not_found(words, goods.refused)
        return None
    note = note_on(knowledge, item.id)
    if note is None:
        err = screen_for(sys.stderr)
        err.line(say("there-is-no-care-note", title=item.title))
        return None
    return note, item


def _print_note(screen: Screen, knowledge: Knowledge, note: CareNote, piece: Item | None) -> None:
    own = "" if note.origin == SHIPPED else f" [{note.origin}]"
    screen.line(f"{piece.title if piece else note.title}{own}", "title")
    if piece is None:
        screen.line(say("care-note-for", items="; ".join(item.title for item in items_of(knowledge, note))), "dim")
    elif piece.title != note.title:
        screen.line(say("care-note", title=note.title, id=note.id), "dim")
    for title, statements in by_kind(note, piece):
        screen.hang("-", f"{title}: {' '.join(statement.text for statement in statements)}")
    screen.line(FOOTING)
    screen.line(say("care-in-a-message", text=message(note, piece)))
    screen.line()
    screen.line(say("if-a-customer-comes-back"), "title")
    screen.line(f"“{note.tell}”")
    screen.line(say("basis", basis=_basis(knowledge, note, piece)), "dim")


def _basis(knowledge: Knowledge, note: CareNote, piece: Item | None) -> str:
    """What the statements rest on: each word given, with the kinds that rest on it."""
    kinds: dict[str, list[str]] = {}
    for title, statements in by_kind(note, piece):
        for word in (word for statement in statements for word in statement.basis):
            kinds.setdefault(word, []).append(title.lower())
    return "; ".join(f"{cards.basis(knowledge, [word])} ({_each_once(about)})" for word, about in kinds.items())


def _each_once(words: Iterable[str]) -> str:
    return ", ".join(dict.fromkeys(words))


def _print_cards(note: CareNote, piece: Item | None, shop: Shop, paper: str) -> None:
    """The page, in letters that any stream can carry; what is missing on the cards is said on standard error."""
    from diagnose.handbook.care.cards import Card, sheet

    err = screen_for(sys.stderr)
    if not shop.handbook:
        err.line(say("no-code-on-the-cards"))
    if not shop.name:
        err.line(say("no-name-on-the-cards"))
    page = sheet(Card(note=note, item=piece, shop=shop), paper)
    screen_for(sys.stdout).document([page.encode("ascii", "xmlcharrefreplace").decode("ascii")])
