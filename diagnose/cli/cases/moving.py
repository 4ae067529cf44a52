"""``presslore cases export|import|backup|restore``: cases out of the casebook and in again, and copies of it."""

import sys
from collections.abc import Iterable, Iterator
from datetime import UTC, datetime
from pathlib import Path

import click

from diagnose.casebook.case import now
from diagnose.casebook.store.address import is_server
from diagnose.casebook.store.aside import SIDECARS
from diagnose.casebook.store.exporting import LINES, TABLE, json_lines, table
from diagnose.cli import exits
from diagnose.cli.options import BOOK, shop_option
from diagnose.cli.shop.bookcase import BOOK_FILE, existing, left_out, opened, place
from diagnose.cli.terminal.screen import progress, screen_for
from diagnose.files.kinds import FileKind, refuse, write_out
from diagnose.problems import PressloreError
from diagnose.speech.saying import say

FORMATS = {"jsonl": (json_lines, LINES), "csv": (table, TABLE)}
FILE = click.Path(dir_okay=False, path_type=Path)
FORCE = click.option("--force", is_flag=True, help="Take the place of a file that is there.")


@click.command(
    epilog="\b\nExamples:\n  presslore cases export --out cases.jsonl\n"
    "  presslore cases export --format csv --out cases.csv"
)
@click.option(
    "--format", "form", type=click.Choice(list(FORMATS)), default="jsonl", show_default=True,
    help="jsonl comes back with import; csv is for a spreadsheet.",
)  # fmt: skip
@click.option("--out", type=FILE, help="Write to a file (default: print).")
@click.option("--since", type=click.DateTime(["%Y-%m-%d"]), help="Only cases that ended on this day or later.")
@FORCE
@BOOK
@shop_option
def export(form: str, out: Path | None, since: datetime | None, force: bool, book: str, shop: Path | None) -> int:
    """Write the cases out, for another shop or for a spreadsheet."""
    kept = existing(book, shop)
    if kept is None:
        return exits.GOOD
    with kept:
        written, kind = FORMATS[form]
        lines = written(kept.cases(since.replace(tzinfo=UTC) if since else None))
        if out is None:
            screen_for(sys.stdout).document(lines)
        else:
            number = _write(lines, out, kind, force) - (form == "csv")
            screen_for(sys.stderr).line(say("cases-written-to", cases=_cases(number), file=out))
    return exits.GOOD


def _write(lines: Iterable[str], out: Path, kind: FileKind, force: bool) -> int:
    """Write a file whole or not at all; returns the number of lines. Raises PressloreError."""
    number = 0

    def counted() -> Iterator[bytes]:
        nonlocal number
        for number, line in enumerate(lines, 1):  # noqa: B007 - the last one is the number of lines
            yield line.encode()

    write_out(out, counted(), kind, force=force)
    return number


@click.command("import", epilog="\b\nExample: presslore cases import their-cases.jsonl")
@click.argument("files", nargs=-1, required=True, type=click.Path(exists=True, dir_okay=False, path_type=Path))
@BOOK
@shop_option
def import_(files: tuple[Path, ...], book: str, shop: Path | None) -> int:
    """Take cases in that were exported, here or in another shop.

    FILES hold a case on each line, or are whole casebooks. All of them are taken in or none: where a line is wrong,
    every wrong line is named and the casebook stays as it was. A case that is there already is left alone.
    """
    from diagnose.casebook.store.importing import read_files

    read = 0

    def counted() -> Iterable[object]:
        nonlocal read
        for case in read_files(files, left_out, far):
            read += 1
            yield case

    with opened(book, shop) as kept, progress(say("taking-in")) as far:
        new = kept.add(counted())  # type: ignore[arg-type]
    there = f"; {read - new} were there already" if read > new else ""
    screen_for(sys.stdout).line(say("cases-read-and-new", cases=_cases(read), new=new, there=there))
    return exits.GOOD


@click.command(epilog="\b\nExamples:\n  presslore cases backup\n  presslore cases backup stick/friday.sqlite3")
@click.argument("file", required=False, type=FILE)
@FORCE
@BOOK
@shop_option
def backup(file: Path | None, force: bool, book: str, shop: Path | None) -> int:
    """Copy the whole casebook into a file, while others go on with it.

    Every row of the copy is looked over before it takes its name. Without FILE it is named after today.
    """
    from diagnose.casebook.store.backup import back_up

    kept = existing(book, shop)
    if kept is None:
        return exits.PROBLEMS
    target = file or Path(f"casebook-{now():%Y-%m-%d}.sqlite3")
    with kept:
        if target.name == BOOK_FILE and target.exists():
            raise PressloreError(f"{target}: this is a casebook, and is left alone: name another file")
        refuse(target, BACKUP, force=force)
        number = back_up(kept, target, force=force)
    screen_for(sys.stdout).line(say("copied-to", cases=_cases(number), target=target))
    return exits.GOOD


@click.command(epilog="\b\nExample: presslore cases restore monday.sqlite3 --force")
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--force", is_flag=True, help="Take the place of the casebook that is there; it is kept.")
@BOOK
@shop_option
def restore(file: Path, force: bool, book: str, shop: Path | None) -> int:
    """Put a backup in the place of the casebook.

    The casebook that was there is kept beside it under another name.
    """
    from diagnose.casebook.store.backup import restore as put_back

    where = place(book, shop)
    if is_server(where):
        raise PressloreError(
            f"a casebook on a server is restored by the server; to put the cases of a copy into it: "
            f"presslore cases import {file}"
        )
    old = put_back(file, Path(where), force=force)
    screen = screen_for(sys.stdout)
    screen.line(say("restored", where=where))
    if old is not None:
        what = say("what-lay-beside-it") if old.name.endswith(SIDECARS) else say("the-casebook-that-was-there")
        screen.line(say("kept-beside", what=what, file=old))
    return exits.GOOD


def _holds_cases(file: Path) -> bool:
    """Whether a database is a casebook, by its tables."""
    import sqlite3
    from contextlib import closing
    from urllib.parse import quote

    try:
        with closing(sqlite3.connect(f"file:{quote(str(file.absolute()))}?mode=ro", uri=True)) as connection:
            names = {name for (name,) in connection.execute("SELECT name FROM sqlite_schema WHERE type = 'table'")}
    except sqlite3.Error:
        return False
    return names >= {"book", "cases", "pattern"}


BACKUP = FileKind(name="a backup of a casebook", begins=(b"SQLite format 3\0",), also=_holds_cases)


def _cases(number: int) -> str:
    return f"{number} case{'' if number == 1 else 's'}"
