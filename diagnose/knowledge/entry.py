"""What everything that is defined by an id has in common."""

from dataclasses import dataclass

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


def from_a_bundle(origin: str) -> bool:
    """Whether something came from another shop: it neither ships nor is this shop's own."""
    return origin not in (SHIPPED, THIS_SHOP)
