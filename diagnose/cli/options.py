"""Options that several commands share. Light to import: the first question waits for it."""

from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import click

F = TypeVar("F", bound=Callable[..., Any])
BOOK_VARIABLE = "PRESSLORE_CASEBOOK"
BOOK = click.option("--book", default="", metavar="WHERE", help="The casebook: a file, or the address of a server.")


def shop_option(command: F) -> F:
    """The option that names the shop; the command gets it as ``shop``, None where it was not given."""
    about = "The shop's folder or shop.yaml (else $PRESSLORE_SHOP, else a shop.yaml here or above)."
    return click.option("--shop", type=click.Path(path_type=Path), help=about)(command)
