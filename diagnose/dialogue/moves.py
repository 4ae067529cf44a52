"""What a person can say in a session: one small frozen value a move."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

from diagnose.knowledge.conditions import FactValue


@dataclass(frozen=True, slots=True)
class Pressed:
    """The item ("" where it is none of the known kinds), what is known of the job, and the id of the shop's press
    ("" where it is not said)."""

    item: str
    facts: Mapping[str, FactValue] = field(default_factory=dict)
    press: str = ""


@dataclass(frozen=True, slots=True)
class Saw:
    """Defects that are there."""

    defects: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class DidNotSee:
    """Defects that were looked for and are not there."""

    defects: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Answered:
    """The outcome of a check. ``again``: from another look, because the first did not go with the rest."""

    check: str
    outcome: str
    again: bool = False


@dataclass(frozen=True, slots=True)
class Measured:
    """Figures that were measured, by their names in ``diagnose.foresight.figures``, held in °C, seconds and metres.
    ``check``: the check that asked for them, which is then closed ("" where they came by themselves)."""

    figures: Mapping[str, float]
    check: str = ""


@dataclass(frozen=True, slots=True)
class Named:
    """A cause that the person names: what they hold to be behind it. Taken as evidence, and not as the answer."""

    cause: str


@dataclass(frozen=True, slots=True)
class LastGood:
    """What the shop knows of the last piece of this item on this press that came out well: the day (``2026-11-12``),
    figures as in ``Measured``, and goods in words (``paper``: ``the green box``)."""

    on: str
    figures: Mapping[str, float] = field(default_factory=dict)
    used: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class FoundLately:
    """A cause found on this press in one of the last cases: the day, and how many times as likely it counts."""

    cause: str
    on: str
    times: float


@dataclass(frozen=True, slots=True)
class Used:
    """What was used for this piece, in words: ``paper``: ``the green box``."""

    used: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class CannotTell:
    """A check the person cannot answer: no evidence, and not asked again."""

    check: str


@dataclass(frozen=True, slots=True)
class TriedFix:
    """A fix that did not cure all. ``change`` is ``better``, ``same`` or "" (not said); ``gone`` names the
    defects it did make go away."""

    fix: str
    change: str = ""
    gone: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CannotDo:
    """A fix the person cannot do now: no evidence, and not proposed again."""

    fix: str


@dataclass(frozen=True, slots=True)
class Cured:
    """The print is good. ``fix`` is what did it ("" where nothing in particular)."""

    fix: str = ""


@dataclass(frozen=True, slots=True)
class HandedOver:
    """Help is called for."""


Move: TypeAlias = (
    Pressed
    | Saw
    | DidNotSee
    | Answered
    | Measured
    | Named
    | LastGood
    | FoundLately
    | Used
    | CannotTell
    | TriedFix
    | CannotDo
    | Cured
    | HandedOver
)
