"""``presslore cases check``: whether every case stands in the casebook as it was written."""

from __future__ import annotations

import sys
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from diagnose.casebook.store.address import masked, shown
from diagnose.cli import exits
from diagnose.cli.options import BOOK, shop_option
from diagnose.cli.shop.bookcase import existing, place
from diagnose.cli.terminal.screen import print_json, screen_for
from diagnose.problems import PressloreError
from diagnose.speech.saying import say

if TYPE_CHECKING:
    from diagnose.casebook.store.checking import RowFault


@click.command(epilog="\b\nExample: presslore cases check")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
@BOOK
@shop_option
def check(as_json: bool, book: str, shop: Path | None) -> int:
    """Look the casebook over, and name each row not as it was written.

    A failing disk or a stray byte shows here before anybody learns from it.
    """
    from diagnose.casebook.store.checking import DAMAGED

    where = shown(place(book, shop))
    try:
        number, faults = _looked_over(book, shop)
    except PressloreError as error:
        if not as_json:
            raise
        print_json(_plain(where, None, [{"table": "", "row": "", "wrong": masked(str(error)), "code": DAMAGED}]))
        return exits.PROBLEMS
    if as_json:
        print_json(_plain(where, number, [asdict(fault) for fault in faults]))
    else:
        _show(number, faults)
    return exits.PROBLEMS if faults or number is None else exits.GOOD


def _looked_over(book: str, shop: Path | None) -> tuple[int | None, list[RowFault]]:
    """How many cases there are, None where there is no casebook, and what is wrong."""
    kept = existing(book, shop, looking=True)
    if kept is None:
        return None, []
    with kept:
        faults = kept.faults()
        try:
            return kept.count(), faults
        except PressloreError:  # too damaged to be counted, as the faults say
            if not faults:
                raise
            return 0, faults


def _show(number: int | None, faults: list[RowFault]) -> None:
    screen = screen_for(sys.stdout)
    if faults:
        for fault in faults:
            screen.line(str(fault), "bad")
        screen.line(say("put-the-newest-backup-back"))
    elif number is not None:
        screen.line(f"{number} case{'' if number == 1 else 's'}, each as it was written.")


def _plain(where: str, number: int | None, faults: list[dict[str, str]]) -> dict[str, Any]:
    return {"book": where, "sound": number is not None and not faults, "cases": number, "faults": faults}
