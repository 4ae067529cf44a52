"""``presslore learn``: what the casebook teaches, whether it predicts better, and keeping it."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from diagnose.cli import exits
from diagnose.cli.options import BOOK, shop_option
from diagnose.cli.shop import shelf
from diagnose.cli.shop.bookcase import existing
from diagnose.cli.terminal.screen import print_json, progress, screen_for
from diagnose.problems import PressloreError
from diagnose.speech.saying import say

if TYPE_CHECKING:
    from diagnose.casebook.learning.lesson import Lesson


@click.command(
    epilog="\b\nExamples:\n  presslore learn\n  presslore learn --all\n  presslore learn --apply\n"
    "  presslore learn --undo\n  presslore learn --json"
)
@click.option("--all", "everything", is_flag=True, help="Show every number that would change.")
@click.option("--apply", "keep", is_flag=True, help="Write the numbers into the shop's folder: kb/learned.yaml.")
@click.option("--undo", is_flag=True, help="Take the last --apply back.")
@shop_option
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@BOOK
def learn(everything: bool, keep: bool, undo: bool, shop: Path | None, as_json: bool, book: str) -> int:
    """Learn better numbers from the casebook.

    How often each cause turns up here, how surely it brings on each defect, what checks show, how well fixes cure and
    how long steps take. It shows what would change and whether that predicts better; only --apply changes anything.
    """
    if keep and undo:
        raise click.UsageError("--apply and --undo at once: name one of them")
    folder = shelf.shop_folder(shop)
    if undo:
        return _undo(_needed(folder))
    if keep:
        _needed(folder)
    opened = existing(book, shop)
    if opened is None:
        return exits.PROBLEMS if keep else exits.GOOD
    from diagnose.casebook.learning.lesson import take_lesson
    from diagnose.cli.cases.learn_pages import lesson_page, to_plain

    known = shelf.at(shop)
    with opened, progress("Learning", shown=not as_json) as far:
        lesson = take_lesson(opened, known.knowledge, known.shop, far)
    written = _apply(lesson, _needed(folder)) if keep else None
    screen = screen_for(sys.stdout)
    if as_json:
        print_json(to_plain(lesson, written))
        return exits.GOOD
    lesson_page(screen, known.knowledge, lesson, everything)
    _told(keep, written, bool(lesson.changes or lesson.minutes))
    return exits.GOOD


def _needed(folder: Path | None) -> Path:
    if folder is None:
        raise PressloreError("there is no shop folder to write into: name one with --shop, or presslore shop new DIR")
    return folder


def _apply(lesson: Lesson, folder: Path) -> Path | None:
    """Write the numbers; where they would not serve afterwards, take them back and say why."""
    from diagnose.casebook.learning import keeping

    written = keeping.apply(lesson, folder)
    if written is not None:
        found = shelf.at(folder)
        if any(file.endswith(keeping.FILE.name) for file in found.files_left_out):
            keeping.undo(folder)
            raise PressloreError(found.problems)
    return written


def _undo(folder: Path) -> int:
    from diagnose.casebook.learning import keeping

    path = keeping.undo(folder)
    screen_for(sys.stdout).line(say("learnt-taken-back", file=path))
    return exits.GOOD


def _told(keep: bool, written: Path | None, changed: bool) -> None:
    screen = screen_for(sys.stdout)
    screen.line()
    if written is not None:
        screen.line(say("learnt-and-written", file=written), "good")
    elif keep:
        screen.line(say("nothing-new-to-write"))
    elif changed:
        screen.line(say("nothing-was-changed"), "dim")
