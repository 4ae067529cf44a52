"""Chances, and chances under a condition."""

from dataclasses import dataclass

from diagnose.knowledge.conditions import Condition


@dataclass(frozen=True, slots=True)
class Chance:
    """A probability from 0 to 1, and the word of the scale it was written with ("" for a plain number)."""

    value: float
    word: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """A chance that takes the usual one's place where a condition on the job holds."""

    condition: Condition
    turns_up: Chance
