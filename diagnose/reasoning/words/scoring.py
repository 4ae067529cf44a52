"""How strongly a run of units speaks for each owner: word by word, and by the whole names found in it."""

from collections.abc import Sequence
from dataclasses import dataclass

from diagnose.reasoning.words.index import Index
from diagnose.reasoning.words.units import Unit

AGAIN = 0.9
SHARPNESS = 3.0
WHOLE = 0.8
WHOLE_BONUS = 1.0
FURTHER = (0.5, 0.3, 0.2)
WORDS_SHARE = 1.0


@dataclass(frozen=True, slots=True)
class Evidence:
    """What each unit of a text brings: ``gains`` by owner, and ``hits`` as (name, unit in it, surety)."""

    index: Index
    units: Sequence[Unit]
    gains: Sequence[dict[int, float]]
    hits: Sequence[Sequence[tuple[int, int, float]]]

    def scores(self, first: int = 0, last: int | None = None) -> dict[int, float]:
        """Owner -> score for the units from first up to (without) last. Owners without evidence are left out."""
        run = range(first, len(self.units) if last is None else last)
        totals: dict[int, float] = {}
        for number in run:
            for owner, gain in self.gains[number].items():
                totals[owner] = totals.get(owner, 0.0) + WORDS_SHARE * gain
        for owner, values in self._names_found(run).items():
            values.sort(reverse=True)
            totals[owner] = totals.get(owner, 0.0) + sum(s * v for s, v in zip(FURTHER, values, strict=False))
        return totals

    def _names_found(self, run: range) -> dict[int, list[float]]:
        """Owner -> the value of every name of which at least a part is in the run."""
        parts: dict[int, dict[int, float]] = {}
        for number in run:
            for name, place, surety in self.hits[number]:
                found = parts.setdefault(name, {})
                if surety > found.get(place, 0.0):
                    found[place] = surety
        values: dict[int, list[float]] = {}
        for number, found in parts.items():
            name = self.index.names[number]
            share = sum(name.weights[place] * surety for place, surety in found.items()) / (name.total or 1.0)
            if share > 0.3:
                bonus = WHOLE_BONUS if share >= WHOLE else 0.0
                values.setdefault(name.owner, []).append((name.total + bonus) * share**SHARPNESS)
        return values


def evidence(index: Index, units: Sequence[Unit]) -> Evidence:
    """Looks every unit up once. A feature said again counts for half."""
    gains, hits = [], []
    said: set[str] = set()
    for unit in units:
        share = AGAIN if any(feature in said for feature, _ in unit.features) else 1.0
        said.update(feature for feature, _ in unit.features)
        best: dict[int, float] = {}
        found: dict[tuple[int, int], float] = {}
        for feature, surety in unit.features:
            for owner, gain in index.gains.get(feature, ()):
                best[owner] = max(best.get(owner, 0.0), gain * surety * share)
            for name, place, _ in index.places.get(feature, ()):
                found[name, place] = max(found.get((name, place), 0.0), surety)
        gains.append(best)
        hits.append([(name, place, surety) for (name, place), surety in found.items()])
    return Evidence(index, units, gains, hits)
