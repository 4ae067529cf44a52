"""A shop's own files as plain values, looked at for what may leave the shop."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from diagnose.knowledge.crosscheck.basis import ANOTHER_SHOPS_CASES, THIS_SHOPS_CASES
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import PRESS_NAME

Values = Mapping[str, Any]
PRIVATE = frozenset({PRESS_NAME})  # facts that speak of one shop alone


@dataclass(frozen=True, slots=True)
class ShopFiles:
    """All of a shop's files, without a fault, in the order of their names, and what ships below them."""

    kb: tuple[Values, ...]
    rules: tuple[Values, ...]
    shipped: Knowledge

    def own(self, kind: str) -> dict[str, Values]:
        """The shop's own entries of a kind, by id; its versions of what ships are not among them."""
        return {key: entry for key, entry in self._all(kind) if key not in getattr(self.shipped, kind)}

    def versions(self, kind: str) -> dict[str, Values]:
        """The shop's versions of what ships, by id."""
        return {key: entry for key, entry in self._all(kind) if key in getattr(self.shipped, kind)}

    def _all(self, kind: str) -> Iterable[tuple[str, Values]]:
        return [pair for value in self.kb for pair in value.get(kind, {}).items()]


def private(entry: Values) -> bool:
    """Whether the entry holds under a condition that means nothing to another shop."""
    return bool(PRIVATE & set(entry.get("if", ())))


def for_others(values: Values) -> dict[str, Any]:
    """The values, where the cases of the shop have become another shop's."""
    said = [ANOTHER_SHOPS_CASES if one == THIS_SHOPS_CASES else one for one in bases(values)]
    different = list(dict.fromkeys(said))
    return {**values, **({"basis": different if len(different) > 1 else different[0]} if said else {})}


def bases(values: Values) -> list[str]:
    """On whose word the values stand."""
    basis = values.get("basis", [])
    return basis if isinstance(basis, list) else [basis]
