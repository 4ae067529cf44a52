"""Options that several commands share. Imported by every command: keep it light."""

import click

BOOK_VARIABLE = "PRESSLORE_CASEBOOK"
BOOK = click.option("--book", default="", metavar="WHERE", help="The casebook: a file, or the address of a server.")
