"""Options that several commands share. Light to import: the first question waits for it."""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, TypeVar

import click

FIGURE_FLAGS: Mapping[str, tuple[str, str]] = {
    "set": ("TEMPERATURE", "The temperature on the display: 385F."),
    "dwell": ("TIME", "The time on the press's clock: 45s."),
    "probe": ("TEMPERATURE", "What a probe reads on the platen: 371F."),
    "watch": ("TIME", "The time by a watch, closed to bell: 38s."),
    "sheets": ("NUMBER", "Sheets between platen and transfer: 2."),
    "thickness": ("LENGTH", "How thick a hard blank is: 6mm."),
    "strip": ("TEMPERATURE", "What a strip reads where the print lies: 365F."),
    "proof_lab": ("L,A,B", "A patch on a proof that was right: 52,40,20."),
    "print_lab": ("L,A,B", "The same patch on this piece: 58,33,18."),
    "blank_lab": ("L,A,B", "The bare ground of an unpressed piece."),
    "ground_lab": ("L,A,B", "The bare ground of this piece."),
}


F = TypeVar("F", bound=Callable[..., Any])
BOOK_VARIABLE = "PRESSLORE_CASEBOOK"
BOOK = click.option("--book", default="", metavar="WHERE", help="The casebook: a file, or the address of a server.")


def shop_option(command: F) -> F:
    """The option that names the shop; the command gets it as ``shop``, None where it was not given."""
    about = "The shop's folder or shop.yaml (else $PRESSLORE_SHOP, else a shop.yaml here or above)."
    return click.option("--shop", type=click.Path(path_type=Path), help=about)(command)


def figure_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """The flags for figures measured with an instrument, as options of a command."""
    for name, (metavar, text) in reversed(list(FIGURE_FLAGS.items())):
        command = click.option(f"--{name.replace('_', '-')}", name, default="", metavar=metavar, help=text)(command)
    return command
