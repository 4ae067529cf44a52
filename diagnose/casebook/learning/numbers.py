"""All the numbers that can be learnt, as arrays, and what each of them is about."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from diagnose.knowledge.model import Check, Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.reasoning.factors import IMPROVES
from diagnose.reasoning.network import MOST, scaled

Floats: TypeAlias = NDArray[np.float64]
Ints: TypeAlias = NDArray[np.integer[Any]]
Bools: TypeAlias = NDArray[np.bool_]
Levels: TypeAlias = tuple[float, ...]

NO_SHOP = Shop()
USUAL = -1  # in place of the number of a shape: the cause's usual chance
KNOWN = -2  # what the shop says of one of its presses: taken as it is, and not learnt


@dataclass(frozen=True, slots=True)
class Numbers:
    """``turns_up``: (T,). ``links``: (L + 1, levels), the chance that a cause picks each level of a finding above the
    quiet one; rules have one level. The last row is no parameter: how surely a cure is noticed. ``cures``: (C,)."""

    turns_up: Floats
    links: Floats
    cures: Floats


@dataclass(frozen=True, slots=True)
class TurnUp:
    """How often a cause turns up: its usual chance, that of one of its shapes, or what is known of a press; and of
    which jobs: those of a ``family`` of items, or of a family on one ``press`` ("" for any)."""

    cause: str
    shape: int = USUAL
    family: str = ""
    press: str = ""


@dataclass(frozen=True, slots=True)
class Link:
    """A rule, by its place among the defect's (``rule``), or what a check shows of a cause (``rule`` is -1)."""

    finding: str
    cause: str
    rule: int = -1


@dataclass(frozen=True, slots=True)
class Cure:
    fix: str
    cause: str


@dataclass(frozen=True, slots=True)
class Parameters:
    """What each number is about, in the order of the arrays, and the shipped numbers."""

    turns_up: tuple[TurnUp, ...]
    links: tuple[Link, ...]
    cures: tuple[Cure, ...]
    shipped: Numbers
    at: Mapping[TurnUp | Link | Cure, int] = field(repr=False)

    @classmethod
    def of(
        cls, turns_up: Mapping[TurnUp, float], links: Mapping[Link, Levels], cures: Mapping[Cure, float]
    ) -> "Parameters":
        groups: tuple[Mapping[TurnUp | Link | Cure, object], ...] = (turns_up, links, cures)  # type: ignore[assignment]
        at = {key: place for group in groups for place, key in enumerate(group)}
        width = max((len(levels) for levels in links.values()), default=1)
        table = np.zeros((len(links) + 1, width))
        for place, levels in enumerate(links.values()):
            table[place, : len(levels)] = levels
        table[-1, 0] = IMPROVES
        shipped = Numbers(np.array([*turns_up.values()], float), table, np.array([*cures.values()], float))
        return cls(tuple(turns_up), tuple(links), tuple(cures), shipped, at)


def parameters(knowledge: Knowledge, shop: Shop = NO_SHOP) -> Parameters:
    """All the numbers that can be learnt, and those that the shop knows of its presses. A leak is not one of them."""
    turns_up = {TurnUp(c.id): c.turns_up.value for c in knowledge.causes.values()}
    turns_up |= {
        TurnUp(c.id, place): shape.turns_up.value
        for c in knowledge.causes.values()
        for place, shape in enumerate(c.shapes)
    }
    turns_up |= {
        TurnUp(known.cause, KNOWN, press=press.id): min(known.turns_up.value, MOST)
        for press in shop.presses.values()
        for known in press.known
    }
    links: dict[Link, Levels] = {
        Link(d.id, rule.cause, place): (min(rule.brings.value, MOST),)
        for d in knowledge.defects.values()
        for place, rule in enumerate(d.rules)
    }
    for check in knowledge.checks.values():
        links |= shown(check)
    cures = {Cure(f.id, cause): chance.value for f in knowledge.fixes.values() for cause, chance in f.cures.items()}
    return Parameters.of(turns_up, links, cures)


def shown(check: Check) -> dict[Link, Levels]:
    """What a check shows of each cause, level by level."""
    loud = check.outcomes[1:]
    causes = dict.fromkeys(cause for outcome in loud for cause in outcome.shows)
    return {
        Link(check.id, cause): scaled([o.shows[cause].value if cause in o.shows else 0.0 for o in loud])
        for cause in causes
    }
