"""Names and descriptions by their features: what a text says, weighed against everything that can be meant.

A feature weighs more the fewer owners use it (as in BM25, Robertson and Zaragoza 2009). A whole name that is
found, such as "second copy", weighs more than its words apart.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from diagnose.reasoning.words.units import Unit

ONE_MENTION = 0.4
OVER_AVERAGE = 1.2
NAME, LOOKS = 1.0, 0.25


@dataclass(frozen=True, slots=True)
class Name:
    """One name of an owner: the weight of each of its units, their sum, and the words it was written with."""

    owner: int
    weights: tuple[float, ...]
    total: float


@dataclass(frozen=True, slots=True)
class Index:
    """``gains``: feature -> (owner, gain). ``places``: feature -> (name, unit in it, surety)."""

    owners: tuple[str, ...]
    names: tuple[Name, ...]
    gains: dict[str, list[tuple[int, float]]]
    places: dict[str, list[tuple[int, int, float]]]

    @classmethod
    def of(cls, entries: Sequence[tuple[str, Iterable[list[Unit]], list[Unit]]]) -> "Index":
        """An index of (id, units of each name, units of the description)."""
        mentions: dict[str, dict[int, float]] = {}
        named: list[tuple[int, list[Unit]]] = []
        for owner, (_, names, looks) in enumerate(entries):
            for name in names:
                _count(mentions, owner, name, NAME)
                named.append((owner, name))
            _count(mentions, owner, looks, LOOKS)
        weights = _weights(mentions, len(entries))
        gains = {feature: _gains(weights[feature], by, len(entries)) for feature, by in mentions.items()}
        places: dict[str, list[tuple[int, int, float]]] = {}
        finished = []
        for number, (owner, name) in enumerate(named):
            for unit_number, unit in enumerate(name):
                for feature, surety in unit.features:
                    places.setdefault(feature, []).append((number, unit_number, surety))
            each = tuple(_weight(unit, weights) for unit in name)
            finished.append(Name(owner, each, sum(each)))
        return cls(tuple(owner for owner, _, _ in entries), tuple(finished), gains, places)


def _count(mentions: dict[str, dict[int, float]], owner: int, units: list[Unit], field: float) -> None:
    for unit in units:
        for feature, _ in unit.features:
            by = mentions.setdefault(feature, {})
            by[owner] = by.get(owner, 0.0) + field


def _weights(mentions: dict[str, dict[int, float]], owners: int) -> dict[str, float]:
    weights = {}
    for feature, by in mentions.items():
        used = sum(min(1.0, count) for count in by.values())
        weights[feature] = math.log(1.0 + (owners - used + 0.5) / (used + 0.5))
    return weights


def _weight(unit: Unit, weights: dict[str, float]) -> float:
    """A word that shares its meaning with others weighs half by itself, half by what it means."""
    own = weights[unit.features[0][0]]
    shared = [weights[feature] for feature, _ in unit.features[1:]]
    return (own + min(shared)) / 2 if shared else own


def _gains(weight: float, by: dict[int, float], owners: int) -> list[tuple[int, float]]:
    """How much a feature speaks for each owner: by its weight, and by how much oftener than usual it is used."""
    usual = 3.0 * sum(by.values()) / owners
    return [
        (owner, weight * count / (count + ONE_MENTION) + OVER_AVERAGE * math.log1p(count / usual))
        for owner, count in by.items()
    ]
