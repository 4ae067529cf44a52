"""Names by their features: what a text says is weighed against everything that can be meant.

A feature weighs more the fewer owners use it (the weighting of BM25: Robertson and Zaragoza 2009). Weights are
worked out when they are first asked for, since a text touches few of them.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from diagnose.reasoning.words.units import Features

ONE_MENTION = 0.4
OVER_AVERAGE = 1.6
SAID, LOOKS = 1.0, 0.25


@dataclass(frozen=True, slots=True)
class Index:
    """``owners``: ids. Of each name: its owner, its field (SAID or LOOKS) and its units' features.
    ``places``: feature -> (name, unit in it)."""

    owners: tuple[str, ...]
    owner: Sequence[int]
    field_: Sequence[float]
    units: Sequence[Sequence[Features]]
    places: dict[str, list[tuple[int, int]]]
    _mentions: dict[str, dict[int, float]] = field(default_factory=dict)
    _weights: dict[str, float] = field(default_factory=dict)
    _gains: dict[str, list[tuple[int, float]]] = field(default_factory=dict)
    _names: dict[int, tuple[tuple[float, ...], float]] = field(default_factory=dict)

    @classmethod
    def of(cls, owners: Sequence[str], names: Iterable[tuple[int, float, Sequence[Features]]]) -> "Index":
        """An index of names, each given as (number of its owner, field, features of its units)."""
        index = cls(tuple(owners), [], [], [], {})
        places = index.places
        for number, (owner, name_field, units) in enumerate(names):
            index.owner.append(owner)  # type: ignore[attr-defined]
            index.field_.append(name_field)  # type: ignore[attr-defined]
            index.units.append(units)  # type: ignore[attr-defined]
            for place, features in enumerate(units):
                for feature, _ in features:
                    if feature in places:
                        places[feature].append((number, place))
                    else:
                        places[feature] = [(number, place)]
        return index

    def mentions(self, feature: str) -> dict[int, float]:
        """How often each owner is said to be so; a description counts for less than a name."""
        found = self._mentions.get(feature)
        if found is None:
            found = {}
            for name, _ in self.places.get(feature, ()):
                found[self.owner[name]] = found.get(self.owner[name], 0.0) + self.field_[name]
            self._mentions[feature] = found
        return found

    def weight(self, feature: str) -> float:
        """How much a feature tells: more, the fewer owners use it."""
        found = self._weights.get(feature)
        if found is None:
            used = sum(min(1.0, count) for count in self.mentions(feature).values())
            found = math.log(1.0 + (len(self.owners) - used + 0.5) / (used + 0.5))
            self._weights[feature] = found
        return found

    def gains(self, feature: str) -> list[tuple[int, float]]:
        """How much a feature speaks for each owner: by its weight, and by how far it is used above average."""
        found = self._gains.get(feature)
        if found is None:
            mentions, weight = self.mentions(feature), self.weight(feature)
            usual = 3.0 * sum(mentions.values()) / len(self.owners)
            found = [
                (owner, weight * count / (count + ONE_MENTION) + OVER_AVERAGE * math.log1p(count / usual))
                for owner, count in mentions.items()
            ]
            self._gains[feature] = found
        return found

    def name(self, number: int) -> tuple[tuple[float, ...], float]:
        """The weight of each unit of a name, and their sum."""
        found = self._names.get(number)
        if found is None:
            each = tuple(self._unit_weight(features) for features in self.units[number])
            found = each, sum(each)
            self._names[number] = found
        return found

    def _unit_weight(self, features: Features) -> float:
        """A word that shares its meaning with others weighs half by itself, half by what it means."""
        own = self.weight(features[0][0])
        if len(features) == 1:
            return own
        return (own + min(self.weight(feature) for feature, _ in features[1:])) / 2
