"""What everything that is defined by an id has in common: ids, the chances in it, how its form in a file is told."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Annotated, Any, TypeAlias

from diagnose.knowledge.conditions import Condition, FactValue
from diagnose.problems import Place

SHIPPED = "shipped"
THIS_SHOP = "this shop"
SETTLED, TRIAL = "settled", "trial"

CauseId: TypeAlias = Annotated[str, "causes"]
CheckId: TypeAlias = Annotated[str, "checks"]
FixId: TypeAlias = Annotated[str, "fixes"]
DefectId: TypeAlias = Annotated[str, "defects"]
ItemId: TypeAlias = Annotated[str, "items"]
CautionId: TypeAlias = Annotated[str, "cautions"]
TermId: TypeAlias = Annotated[str, "glossary"]
MaterialId: TypeAlias = Annotated[str, "materials"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """What everything defined by an id has in common. ``basis`` holds source ids or a plain phrase."""

    id: str
    title: str
    basis: tuple[str, ...] = ()
    place: Place
    origin: str = SHIPPED


@dataclass(frozen=True, slots=True)
class Chance:
    """A probability from 0 to 1, and the word of the scale it was written with ("" for a plain number)."""

    value: float
    word: str = ""


NEVER = Chance(0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """A chance that takes the usual one's place where a condition on the job holds."""

    condition: Condition
    turns_up: Chance


def from_a_bundle(origin: str) -> bool:
    """Whether something came from another shop: it neither ships nor is this shop's own."""
    return origin not in (SHIPPED, THIS_SHOP)


def stands(*path: str, unit: float = 1.0, gathers: Sequence[str] = ()) -> dict[str, Any]:
    """The metadata of a field that stands under other keys than its own name: a ``path`` of them, where it is empty
    the keys of the whole itself. ``unit``: what a number is multiplied with. ``gathers``: the keys of the whole that a
    mapping is made of."""
    return {"path": path, "unit": unit, "gathers": tuple(gathers)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Instead:
    """Another value that a fact of an item has now and then, among jobs at the bench, and how often."""

    value: FactValue = field(metadata=stands("is"))
    turns_up: Chance
