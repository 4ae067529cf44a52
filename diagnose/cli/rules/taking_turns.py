"""Changes of a shop's files by several commands at once: each is made on what stands there when it is written."""

from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from diagnose.files.locks import locked
from diagnose.files.writing import changed_meanwhile
from diagnose.knowledge.folders import PARTS
from diagnose.problems import PressloreError

T = TypeVar("T")
TRIES = 8
PATIENCE = 120.0  # seconds that a command which was overtaken waits for its turn


def looked_at(folder: Path, look: Callable[[], T], wrong: Callable[[T], object]) -> T:
    """What is seen in the shop's folder. Where something is wrong with it, it is looked at again while nobody writes:
    of two files that are changed together, the first may have been seen new and the second old."""
    seen = look()
    parts = [folder / part for part in PARTS if (folder / part).is_dir()]
    if wrong(seen) and parts:
        with locked(parts, PATIENCE):
            seen = look()
    return seen


def in_turn(folder: Path, change: Callable[[], T]) -> T:
    """What a change of the shop's files returns. It reads them, and writes them if they are still so. Where somebody
    was faster, it is made anew on what stands there then, one after the other with all others that were overtaken.
    Raises PressloreError where it cannot be made, or where others are faster every time."""
    try:
        return change()
    except PressloreError as error:
        if not changed_meanwhile(error):
            raise
    with locked([folder], PATIENCE):
        for left in reversed(range(TRIES)):
            try:
                return change()
            except PressloreError as error:
                if not left or not changed_meanwhile(error):
                    raise
    raise AssertionError("the last try returns or raises")
