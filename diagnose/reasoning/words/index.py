"""Names by their features: what a text says is weighed against everything that can be meant.

A feature weighs more the fewer owners use it (the weighting of BM25: Robertson and Zaragoza 2009). Everything is
kept in rows of numbers as text, and read when it is first asked for, since a text touches little of it.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from diagnose.reasoning.words.groups import GROUP
from diagnose.reasoning.words.units import Features

ONE_MENTION = 0.4
OVER_AVERAGE = 1.6
FEW = 0.4  # mentions taken for chance: a word said once of one owner tells little
OF_PAIR, PAIR_ONCE, PAIR_OFTEN = 1.0, 0.3, 0.1
LEAST_PAIRS = 2  # a pair of units found once tells nothing
SAID, LOOKS = 1.0, 0.25


FEATURES = ";"  # between the features of a kind of unit
DIGITS = 6
Place = tuple[int, int, float]  # a name, a unit in it, and what that unit weighs


@dataclass(frozen=True, slots=True)
class Index:
    """``owners``: ids. Of each name: the number of its owner, its field (SAID or LOOKS), its units as numbers of
    ``kinds``, and what they weigh together. Of each kind of unit: its features with semicolons between, what it
    weighs, and where it is found: names and units in them. ``of_feature``: the kinds with that feature. ``pairs``:
    two units side by side -> owners and how often."""

    owners: Sequence[str]
    owner: Sequence[int]
    fields: Sequence[float]
    units: Sequence[str]
    totals: Sequence[float]
    kinds: Sequence[str]
    kind_weights: Sequence[float]
    places: Sequence[str]
    of_feature: Mapping[str, str]
    pairs: Mapping[str, str]
    _places: dict[str, list[Place]] = field(default_factory=dict)
    _mentions: dict[str, dict[int, float]] = field(default_factory=dict)
    _weights: dict[str, float] = field(default_factory=dict)
    _gains: dict[str, list[tuple[int, float]]] = field(default_factory=dict)
    _pair_gains: dict[str, list[tuple[int, float]]] = field(default_factory=dict)

    @classmethod
    def of(cls, owners: Sequence[str], names: Iterable[tuple[int, float, Sequence[Features]]]) -> "Index":
        """An index of names, each given as (number of its owner, field, features of its units)."""
        named = list(names)
        kinds: dict[Features, int] = {}
        rows = [[kinds.setdefault(features, len(kinds)) for features in units] for _, _, units in named]
        places: list[list[str]] = [[] for _ in kinds]
        for number, row in enumerate(rows):
            for place, kind in enumerate(row):
                places[kind].append(f"{number} {place}")
        of_feature: dict[str, list[str]] = {}
        for features, kind in kinds.items():
            for feature, _ in features:
                of_feature.setdefault(feature, []).append(str(kind))
        index = cls(
            owners=tuple(owners),
            owner=[owner for owner, _, _ in named],
            fields=[name_field for _, name_field, _ in named],
            units=[" ".join(map(str, row)) for row in rows],
            totals=[],
            kinds=[FEATURES.join(feature for feature, _ in features) for features in kinds],
            kind_weights=[0.0] * len(kinds),
            places=[" ".join(found) for found in places],
            of_feature={feature: " ".join(found) for feature, found in of_feature.items()},
            pairs=_pairs(named),
        )
        weights = [round(index.unit_weight(kind.split(FEATURES)), DIGITS) for kind in index.kinds]
        totals = [round(sum(weights[kind] for kind in row), DIGITS) for row in rows]
        return replace(index, kind_weights=weights, totals=totals, _places={}, _mentions={}, _weights={})

    def at(self, feature: str) -> list[Place]:
        """The units of this feature: their names, their numbers in them, and what they weigh."""
        found = self._places.get(feature)
        if found is None:
            found = []
            for kind in map(int, self.of_feature.get(feature, "").split()):
                weight = self.kind_weights[kind]
                found += [(name, place, weight) for name, place in _read(self.places[kind])]
            self._places[feature] = found
        return found

    def mentions(self, feature: str) -> dict[int, float]:
        """How often each owner is said to be so; a description counts for less than a name."""
        found = self._mentions.get(feature)
        if found is None:
            found = {}
            for name, _, _ in self.at(feature):
                found[self.owner[name]] = found.get(self.owner[name], 0.0) + self.fields[name]
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
            usual = 3.0 * sum(mentions.values()) / len(self.owners) + FEW
            found = [
                (owner, weight * count / (count + ONE_MENTION) + OVER_AVERAGE * math.log1p(count / usual))
                for owner, count in mentions.items()
            ]
            self._gains[feature] = found
        return found

    def pair_gains(self, pair: str) -> list[tuple[int, float]]:
        """How much two units side by side speak for each owner of whose names they are part."""
        found = self._pair_gains.get(pair)
        if found is None:
            counts = _read(self.pairs.get(pair, ""))
            usual = PAIR_ONCE + PAIR_OFTEN * sum(count for _, count in counts)
            found = [(owner, OF_PAIR * math.log1p(count / usual)) for owner, count in counts]
            self._pair_gains[pair] = found
        return found

    def name(self, number: int) -> list[tuple[list[str], float]]:
        """The features of each unit of a name, and what it weighs."""
        kinds = map(int, self.units[number].split())
        return [(self.kinds[kind].split(FEATURES), self.kind_weights[kind]) for kind in kinds]

    def unit_weight(self, features: Sequence[str]) -> float:
        """A word that shares its meaning with others weighs half by itself, half by what it means."""
        own = self.weight(features[0])
        if len(features) == 1:
            return own
        return (own + min(self.weight(feature) for feature in features[1:])) / 2


def _pairs(named: Iterable[tuple[int, float, Sequence[Features]]]) -> dict[str, str]:
    pairs: dict[str, dict[int, int]] = {}
    for owner, name_field, units in named:
        for one, other in pairwise(units) if name_field == SAID else ():
            for pair in pairs_of(one, other):
                counts = pairs.setdefault(pair, {})
                counts[owner] = counts.get(owner, 0) + 1
    return {
        pair: " ".join(f"{owner} {count}" for owner, count in counts.items())
        for pair, counts in pairs.items()
        if sum(counts.values()) >= LEAST_PAIRS
    }


def pairs_of(one: Features, other: Features) -> list[str]:
    """What two units side by side are known by: their groups, or the words themselves where they have none."""
    return [f"{first}|{second}" for first in _meanings(one) for second in _meanings(other)]


def _meanings(features: Features) -> list[str]:
    return [feature for feature, _ in features if GROUP in feature] or [features[0][0]]


def _read(row: str) -> list[tuple[int, int]]:
    numbers = list(map(int, row.split()))
    return list(zip(numbers[::2], numbers[1::2], strict=True))
