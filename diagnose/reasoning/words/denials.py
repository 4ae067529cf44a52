"""What the words deny: "no ghost", "not blurred" must not be taken as seen."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from diagnose.reasoning.words.groups import NOT
from diagnose.reasoning.words.index import Index
from diagnose.reasoning.words.scoring import Evidence, evidence
from diagnose.reasoning.words.units import Unit

LEAST = 4.0
A_NAME = 0.75


@dataclass(frozen=True, slots=True)
class Denial:
    """The defect denied, by its number, and the numbers of the units that deny it."""

    owner: int
    units: tuple[int, ...]


def denials(index: Index, units: Sequence[Unit]) -> list[Denial]:
    """The defects that runs of denied units would speak for, had they not been denied. A run that is no name of
    one, and speaks more strongly as it stands ("does not reach the edge"), denies nothing."""
    found = []
    for run in _runs(units):
        as_said = [units[number] for number in run]
        affirmed = evidence(index, [_affirmed(unit) for unit in as_said])
        owner, score = _best(affirmed)
        if score < LEAST:
            continue
        if affirmed.closeness(owner, 0, len(run)) >= A_NAME or score > _best(evidence(index, as_said))[1]:
            found.append(Denial(owner, run))
    return found


def _runs(units: Sequence[Unit]) -> list[tuple[int, ...]]:
    runs: list[tuple[int, ...]] = []
    for number, unit in enumerate(units):
        if not unit.denied:
            continue
        if runs and runs[-1][-1] == number - 1 and units[number - 1].clause == unit.clause:
            runs[-1] += (number,)
        else:
            runs.append((number,))
    return runs


def _affirmed(unit: Unit) -> Unit:
    features = tuple((feature.removeprefix(NOT), surety) for feature, surety in unit.features)
    return replace(unit, denied=False, features=features)


def _best(seen: Evidence) -> tuple[int, float]:
    scores = seen.scores()
    if not scores:
        return 0, 0.0
    owner = min(scores, key=lambda number: (-scores[number], seen.index.owners[number]))
    return owner, scores[owner]
