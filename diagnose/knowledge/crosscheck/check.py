"""What a cross-check is: a code, a function that finds faults, and when it makes sense to run it."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import IntEnum
from typing import TypeAlias

from diagnose.knowledge.layer import Layer
from diagnose.problems import Place


class Needs(IntEnum):
    """How complete the knowledge must be for a check's verdict to be true."""

    ENTRIES = 0  # judges each entry alone
    IDS = 1  # every file could be parsed, so that all ids are known
    EVERYTHING = 2  # nothing is missing, broken or loose


@dataclass(frozen=True, slots=True)
class Found:
    """A fault found by a cross-check."""

    place: Place
    wrong: str
    expected: str = ""
    hint: str | Callable[[], str] = ""


Finder: TypeAlias = Callable[[Layer], Iterator[Found]]


@dataclass(frozen=True, slots=True)
class CrossCheck:
    """``code`` stays the same for ever; ``loose`` marks faults that leave loose ends in the knowledge."""

    code: str
    find: Finder
    needs: Needs = Needs.ENTRIES
    loose: bool = False
