"""How strongly a run of units speaks for each owner: word by word, and by the whole names found in it."""

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

from diagnose.reasoning.words.index import SAID, Index, pairs_of
from diagnose.reasoning.words.units import Unit

MOST_TIMES = 2  # a word said oftener adds nothing
LEAST_SHARE = 0.3  # of a name, below which it is not taken for found
WHOLE, WHOLE_BONUS = 0.8, 1.0
WORD_FOR_WORD, COVERED, LEAST_NAME = 0.98, 0.75, 0.3  # of a name, of the text, and its weight at least
FURTHER = (0.5, 0.3, 0.2)  # what the best, second and third name of an owner count for
Parts: TypeAlias = list[tuple[int, int, float, float]]  # (unit of the text, unit of the name, surety, weight)


@dataclass(frozen=True, slots=True)
class WordEvidence:
    """``gains``: for each unit of the text, owner -> gain; ``pair_gains``: the same for each unit with the one
    after it. ``found``: the names of which enough is there. ``idle``: units that need be in
    no name, having been said twice before or telling something else."""

    index: Index
    units: Sequence[Unit]
    gains: Sequence[dict[int, float]]
    pair_gains: Sequence[dict[int, float]]
    found: dict[int, Parts]
    idle: Collection[int] = ()

    def scores(self, first: int = 0, last: int | None = None) -> dict[int, float]:
        """Owner -> score for the units from first up to (without) last. Owners without evidence are left out."""
        last = len(self.units) if last is None else last
        totals: dict[int, float] = {}
        for gains in (*self.gains[first:last], *self.pair_gains[first : max(first, last - 1)]):
            for owner, gain in gains.items():
                totals[owner] = totals.get(owner, 0.0) + gain
        for owner, values in self._names_within(first, last).items():
            values.sort(reverse=True)
            totals[owner] = totals.get(owner, 0.0) + sum(
                share * value for share, value in zip(FURTHER, values, strict=False)
            )
        return totals

    def is_name(self, owner: int, first: int, last: int) -> bool:
        """Whether a name of an owner that tells something is there word for word, with next to nothing beside it."""
        names = [name for name in self.found if self.index.owner[name] == owner]
        telling = [name for name in names if self.index.totals[name] >= LEAST_NAME]
        near = (near for _, near in self._nearness(telling, first, last))
        return any(share >= WORD_FOR_WORD and covered >= COVERED for share, covered in near)

    def value_of_best(self, owner: int, first: int, last: int) -> float:
        """What the best name of an owner between first and last counts for."""
        return max(self._names_within(first, last).get(owner, ()), default=0.0)

    def because(self, owner: int, first: int = 0, last: int | None = None) -> list[int]:
        """The units from first up to last that speak for an owner."""
        last = len(self.units) if last is None else last
        return [number for number in range(first, last) if self.gains[number].get(owner)]

    def closeness(self, owner: int, first: int, last: int) -> float:
        """How nearly the units from first up to last are one name of an owner, no less and no more: 0 to 1."""
        names = [name for name in self.found if self.index.owner[name] == owner]
        return max((min(near) for _, near in self._nearness(names, first, last)), default=0.0)

    def closest(self, first: int = 0, last: int | None = None, through: Collection[int] = ()) -> tuple[int, float]:
        """The owner with the name that the units from first up to last are nearest to, and how near; ties by id.
        ``through``: units of which one must be in the name."""
        last = len(self.units) if last is None else last
        names = self.found
        if through:
            names = {name: parts for name, parts in names.items() if any(part[0] in through for part in parts)}
        best: dict[int, float] = {}
        for name, near in self._nearness(names, first, last):
            owner = self.index.owner[name]
            best[owner] = max(best.get(owner, 0.0), min(near))
        owner = min(best, key=lambda number: (-best[number], self.index.owners[number]), default=0)
        return owner, best.get(owner, 0.0)

    def _nearness(self, names: Iterable[int], first: int, last: int) -> Iterator[tuple[int, tuple[float, float]]]:
        """Of each name: how much of it is there, and how much of the units from first up to last it covers."""
        run = [self._unit_weight(number) for number in range(first, last)]
        total = sum(run) or 1.0
        for name in names:
            within = self._within(name, first, last)
            if within:
                covered = sum(run[number - first] for number in {part[0] for part in within})
                yield name, (_share(self.index, name, within), covered / total)

    def _within(self, name: int, first: int, last: int) -> Parts:
        parts = self.found[name]
        return parts if last - first == len(self.units) else [part for part in parts if first <= part[0] < last]

    def _unit_weight(self, number: int) -> float:
        if number in self.idle:
            return 0.0
        return self.index.unit_weight([feature for feature, _ in self.units[number].features])

    def _names_within(self, first: int, last: int) -> dict[int, list[float]]:
        """Owner -> the value of every name of which enough is found between first and last."""
        values: dict[int, list[float]] = {}
        for name in self.found:
            value = self._value(name, self._within(name, first, last))
            if value:
                values.setdefault(self.index.owner[name], []).append(value)
        return values

    def _value(self, name: int, parts: Parts) -> float:
        share = _share(self.index, name, parts)
        if share <= LEAST_SHARE:
            return 0.0
        bonus = WHOLE_BONUS if share >= WHOLE else 0.0
        return (self.index.totals[name] + bonus) * share**3


def evidence(index: Index, units: Sequence[Unit]) -> WordEvidence:
    """Looks every unit up once."""
    gains: list[dict[int, float]] = []
    said: dict[str, int] = {}
    repeated: set[int] = set()
    for number, unit in enumerate(units):
        best: dict[int, float] = {}
        said[unit.features[0][0]] = times = said.get(unit.features[0][0], 0) + 1
        if times > MOST_TIMES:
            repeated.add(number)
        else:
            for feature, surety in unit.features:
                for owner, gain in index.gains(feature):
                    best[owner] = max(best.get(owner, 0.0), gain * surety)
        gains.append(best)
    pairs = [
        {} if number in repeated or number + 1 in repeated else _pair_gains(index, *both)
        for number, both in enumerate(pairwise(units))
    ]
    return WordEvidence(index, units, gains, pairs, _found(index, units, repeated), repeated)


def _found(index: Index, units: Sequence[Unit], repeated: Collection[int]) -> dict[int, Parts]:
    """The names of which enough is there. First whatever may be enough at most, then what is."""
    looked_up = [
        (number, surety, index.at(feature))
        for number, unit in enumerate(units)
        if number not in repeated
        for feature, surety in unit.features
    ]
    most: dict[int, float] = {}
    for _, surety, places in looked_up:
        for name, _, weight in places:
            most[name] = most.get(name, 0.0) + weight * surety
    likely = {
        name
        for name, weight in most.items()
        if weight > LEAST_SHARE * index.totals[name] and index.fields[name] == SAID
    }
    parts: dict[int, Parts] = {}
    for number, surety, places in looked_up:
        for name, place, weight in places:
            if name in likely:
                parts.setdefault(name, []).append((number, place, surety, weight))
    return {name: each for name, each in parts.items() if _share(index, name, each) > LEAST_SHARE}


def _pair_gains(index: Index, one: Unit, other: Unit) -> dict[int, float]:
    best: dict[int, float] = {}
    if one.clause != other.clause:
        return best
    for pair in pairs_of(one.features, other.features):
        for owner, gain in index.pair_gains(pair):
            best[owner] = max(best.get(owner, 0.0), gain)
    return best


def _share(index: Index, name: int, parts: Parts) -> float:
    """How much of a name is there, by weight."""
    best: dict[int, float] = {}
    for _, place, surety, weight in parts:
        if surety * weight > best.get(place, 0.0):
            best[place] = surety * weight
    return sum(best.values()) / (index.totals[name] or 1.0)
