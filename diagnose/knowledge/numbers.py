"""Single numbers by the ids of what they belong to, as a shop's cases teach them."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from diagnose.knowledge.conditions import ALWAYS, Condition
from diagnose.knowledge.entry import Chance, Shape
from diagnose.problems import Place


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnedCause:
    """``turns_up`` and ``shapes`` take the place of the cause's own; None leaves them."""

    turns_up: Chance | None = None
    shapes: tuple[Shape, ...] | None = None
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnedRule:
    """How surely the rule for a cause and a defect brings it on. ``condition``: the rule's own, where there are several
    for the two."""

    cause: str
    defect: str
    brings: Chance
    condition: Condition = ALWAYS
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnedCheck:
    """``shows``: by outcome and cause."""

    shows: Mapping[str, Mapping[str, Chance]]
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnedFix:
    """``cures``: by cause."""

    cures: Mapping[str, Chance]
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnedMinutes:
    """How long a check or fix takes."""

    minutes: float
    place: Place


@dataclass(frozen=True, slots=True)
class Learned:
    """What was learnt, by id. ``minutes``: by check or fix."""

    causes: Mapping[str, LearnedCause] = field(default_factory=dict)
    rules: tuple[LearnedRule, ...] = ()
    checks: Mapping[str, LearnedCheck] = field(default_factory=dict)
    fixes: Mapping[str, LearnedFix] = field(default_factory=dict)
    minutes: Mapping[str, LearnedMinutes] = field(default_factory=dict)
