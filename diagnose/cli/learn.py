"""``presslore learn``: what the casebook teaches, whether it predicts better, and keeping it."""

import json
import sys
from pathlib import Path

import click

from diagnose.cli import exits, shelf
from diagnose.cli.bookcase import existing, place
from diagnose.cli.options import BOOK, shop_option
from diagnose.cli.screen import screen_for
from diagnose.knowledge.loading import inspect, load, shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.problems import PressloreError


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
    opened = existing(place(book, shop))
    if opened is None:
        return exits.PROBLEMS if keep else exits.GOOD
    from diagnose.casebook.learning.lesson import take_lesson
    from diagnose.cli.learn_pages import lesson_page, plain

    knowledge = _knowledge(folder)
    with opened:
        lesson = take_lesson(opened, knowledge)
    written = _apply(lesson, _needed(folder)) if keep else None
    screen = screen_for(sys.stdout)
    if as_json:
        print(json.dumps(plain(lesson, written), indent=2, ensure_ascii=not screen.unicode))
        return exits.GOOD
    lesson_page(screen, knowledge, lesson, everything)
    _told(keep, written, bool(lesson.changes or lesson.minutes))
    return exits.GOOD


def _needed(folder: Path | None) -> Path:
    if folder is None:
        raise PressloreError("there is no shop folder to write into: name one with --shop, or presslore shop new DIR")
    return folder


def _knowledge(folder: Path | None) -> Knowledge:
    if folder is None or not any((folder / part).is_dir() for part in ("kb", "rules")):
        return shelf.knowledge()
    return load(shipped_folder(), folder)


def _apply(lesson: object, folder: Path) -> Path | None:
    """Write the numbers; where they would not be understood afterwards, take them back and say why."""
    from diagnose.casebook.learning import keeping
    from diagnose.casebook.learning.lesson import Lesson

    assert isinstance(lesson, Lesson)
    written = keeping.apply(lesson, folder)
    if written is not None:
        known, problems = inspect(shipped_folder(), folder)
        mine = [problem for problem in problems if problem.place.file.endswith(keeping.FILE.name)]
        if known is None and mine:
            keeping.undo(folder)
            raise PressloreError(mine)
    return written


def _undo(folder: Path) -> int:
    from diagnose.casebook.learning import keeping

    path = keeping.undo(folder)
    screen_for(sys.stdout).line(f"Taken back: {path} is as it was before the last --apply.")
    return exits.GOOD


def _told(keep: bool, written: Path | None, changed: bool) -> None:
    screen = screen_for(sys.stdout)
    screen.line()
    if written is not None:
        screen.line(f"Written to {written}. To take it back: presslore learn --undo", "good")
    elif keep:
        screen.line("Nothing to write: the shop's folder says just this already.")
    elif changed:
        screen.line("Nothing was changed. To use these numbers: presslore learn --apply", "dim")
