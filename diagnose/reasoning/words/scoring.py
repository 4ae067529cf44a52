"""How strongly a run of units speaks for each owner: word by word, and by the whole names found in it."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

from diagnose.reasoning.words.index import SAID, Index
from diagnose.reasoning.words.units import Unit

MOST_TIMES = 2  # a word said oftener adds nothing
LEAST_SHARE = 0.3  # of a name, below which it is not taken for found
WHOLE, WHOLE_BONUS = 0.8, 1.0
FURTHER = (0.5, 0.3, 0.2)  # what the best, second and third name of an owner count for
Parts: TypeAlias = list[tuple[int, int, float]]  # (unit of the text, unit of the name, surety)


@dataclass(frozen=True, slots=True)
class Evidence:
    """``gains``: for each unit of the text, owner -> gain. ``found``: the names of which enough is there."""

    index: Index
    units: Sequence[Unit]
    gains: Sequence[dict[int, float]]
    found: dict[int, Parts]

    def scores(self, first: int = 0, last: int | None = None) -> dict[int, float]:
        """Owner -> score for the units from first up to (without) last. Owners without evidence are left out."""
        last = len(self.units) if last is None else last
        totals: dict[int, float] = {}
        for gains in self.gains[first:last]:
            for owner, gain in gains.items():
                totals[owner] = totals.get(owner, 0.0) + gain
        for owner, values in self._names_within(first, last).items():
            values.sort(reverse=True)
            totals[owner] = totals.get(owner, 0.0) + sum(
                share * value for share, value in zip(FURTHER, values, strict=False)
            )
        return totals

    def because(self, owner: int, first: int = 0, last: int | None = None) -> list[int]:
        """The units from first up to last that speak for an owner."""
        last = len(self.units) if last is None else last
        return [number for number in range(first, last) if self.gains[number].get(owner)]

    def closeness(self, owner: int, first: int, last: int) -> float:
        """How nearly the units from first up to last are one name of an owner, no less and no more: 0 to 1."""
        run = {number: self._unit_weight(number) for number in range(first, last)}
        total = sum(run.values()) or 1.0
        best = 0.0
        for name, parts in self.found.items():
            if self.index.owner[name] == owner:
                within = [part for part in parts if first <= part[0] < last]
                covered = sum(run[number] for number in {part[0] for part in within})
                best = max(best, min(_share(self.index, name, within), covered / total))
        return best

    def _unit_weight(self, number: int) -> float:
        features = self.units[number].features
        return min((self.index.weight(feature) for feature, _ in features), default=0.0)

    def _names_within(self, first: int, last: int) -> dict[int, list[float]]:
        """Owner -> the value of every name of which enough is found between first and last."""
        values: dict[int, list[float]] = {}
        for name, parts in self.found.items():
            value = self._value(name, [part for part in parts if first <= part[0] < last])
            if value:
                values.setdefault(self.index.owner[name], []).append(value)
        return values

    def _value(self, name: int, parts: Parts) -> float:
        share = _share(self.index, name, parts)
        if share <= LEAST_SHARE:
            return 0.0
        bonus = WHOLE_BONUS if share >= WHOLE else 0.0
        return (self.index.name(name)[1] + bonus) * share**3


def evidence(index: Index, units: Sequence[Unit]) -> Evidence:
    """Looks every unit up once."""
    gains: list[dict[int, float]] = []
    parts: dict[int, Parts] = {}
    said: dict[str, int] = {}
    for number, unit in enumerate(units):
        best: dict[int, float] = {}
        said[unit.features[0][0]] = times = said.get(unit.features[0][0], 0) + 1
        if times > MOST_TIMES:
            gains.append(best)
            continue
        for feature, surety in unit.features:
            for owner, gain in index.gains(feature):
                best[owner] = max(best.get(owner, 0.0), gain * surety)
            for name, place in index.places.get(feature, ()):
                if index.field_[name] == SAID:
                    parts.setdefault(name, []).append((number, place, surety))
        gains.append(best)
    found = {name: each for name, each in parts.items() if _share(index, name, each) > LEAST_SHARE}
    return Evidence(index, units, gains, found)


def _share(index: Index, name: int, parts: Parts) -> float:
    """How much of a name is there, by weight."""
    best: dict[int, float] = {}
    for _, place, surety in parts:
        if surety > best.get(place, 0.0):
            best[place] = surety
    weights, total = index.name(name)
    return sum(weights[place] * surety for place, surety in best.items()) / (total or 1.0)
