"""What everything that is defined by an id has in common, and the chances in it."""

from dataclasses import dataclass

from diagnose.knowledge.conditions import Condition
from diagnose.problems import Place

SHIPPED = "shipped"
THIS_SHOP = "this shop"
SETTLED, TRIAL = "settled", "trial"


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """A chance that takes the usual one's place where a condition on the job holds."""

    condition: Condition
    turns_up: Chance


def from_a_bundle(origin: str) -> bool:
    """Whether something came from another shop: it neither ships nor is this shop's own."""
    return origin not in (SHIPPED, THIS_SHOP)
