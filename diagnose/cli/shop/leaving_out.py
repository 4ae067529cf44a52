"""What is said where files of the shop had to be left out."""

import sys

from diagnose.cli.shop.shelf import Shelf
from diagnose.cli.terminal.screen import Screen, screen_for
from diagnose.problems import and_more
from diagnose.speech.saying import say


def tell(shelf: Shelf, screen: Screen | None = None) -> None:
    """Every problem on standard error, each with its place, and then the line that sums them up. A dialogue's
    ``screen`` gets that line alone."""
    if not shelf.places:
        return
    if screen is not None:
        screen.line(in_a_line(shelf), "caution")
        return
    err = screen_for(sys.stderr)
    for problem in shelf.problems:
        err.whole(str(problem))
    if shelf.more:
        err.line(and_more(shelf.more))
    err.line(in_a_line(shelf), "caution")


def in_a_line(shelf: Shelf) -> str:
    """``1 file of this shop is left out: rules/ghosting.yaml; presslore rules check tells why.``"""
    files = shelf.files_left_out
    many = f"{len(files)} files of this shop are" if len(files) != 1 else "1 file of this shop is"
    shown = ", ".join(files[:3]) + (", ..." if len(files) > 3 else "")
    return say("files-left-out", many=many, shown=shown)
