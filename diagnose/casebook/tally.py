"""What the casebook's cases add up to, as the database counts it."""

from dataclasses import dataclass
from datetime import date

from diagnose.casebook.case import Case


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """Some cases and what is known of their cost together: blanks, minutes, money."""

    cases: int
    spoilt: int
    minutes: float
    lost: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Group(Cost):
    """Cases that show the same, and one that stands for them."""

    case: Case


@dataclass(frozen=True, slots=True, kw_only=True)
class Day(Cost):
    """The cases that ended on a day (of UTC)."""

    day: date
