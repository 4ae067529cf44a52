"""What the words deny: "no ghost", "not blurred", "nothing doubled" must never be taken as seen.

A lack can be a fault as well ("not sharp", "no colour at all"): then the denied words stand in its names.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from diagnose.reasoning.words.groups import NOT
from diagnose.reasoning.words.index import Index
from diagnose.reasoning.words.scoring import WordEvidence, evidence
from diagnose.reasoning.words.stems import stem
from diagnose.reasoning.words.units import REACH, Unit

LEAST = 7.0  # what must speak for the thing denied where its name is not there as such
A_NAME = 0.75  # how nearly words must be a name
NOTHING = stem("nothing")
LACKS = tuple(f"{NOT} {stem(word)}" for word in ("any", "sign", "trace", "hint", "single", "evidence"))


@dataclass(frozen=True, slots=True)
class Denial:
    """What is denied, by its number (None: nothing that is known), and the numbers of the units that deny it."""

    owner: int | None
    units: tuple[int, ...]


def denials(index: Index, units: Sequence[Unit]) -> list[Denial]:
    """What runs of denied units would speak for, had they not been denied. Runs that tell a fault by what is
    lacking are left out."""
    found = []
    for run in _runs(units):
        affirmed = evidence(index, [_affirmed(units[number]) for number in run])
        owner, near = affirmed.closest()
        lack = _lack(index, units, run)
        if lack >= A_NAME and lack >= near:
            continue
        if near >= A_NAME:
            found.append(Denial(owner, run))
            continue
        owner, score = _best(affirmed)
        said = _best(evidence(index, [units[number] for number in run]))[1]
        if score < LEAST or score <= said:
            if said < LEAST:
                found.append(Denial(None, run))
        else:
            found.append(Denial(owner, run))
    found += _of_lacks(index, units)
    return found


def _of_lacks(index: Index, units: Sequence[Unit]) -> Iterator[Denial]:
    """Denials such as "nothing doubled" and "no sign of a ghost", unless the whole is itself the name of a fault."""
    for number, unit in enumerate(units):
        if unit.denied or not _lacks(unit):
            continue
        last = number + 1
        while last < len(units) and last <= number + REACH and units[last].clause == unit.clause:
            last += 1
        run = tuple(range(number, last))
        owner, near = evidence(index, units[number + 1 : last]).closest()
        if near >= A_NAME and near > _lack(index, units, run):
            yield Denial(owner, run)


def _lacks(unit: Unit) -> bool:
    """Whether a unit is "nothing" or a phrase such as "no sign of"."""
    said = unit.features[0][0]
    return said == NOTHING or any(f"{said} ".startswith(f"{lack} ") for lack in LACKS)


def _lack(index: Index, units: Sequence[Unit], run: Sequence[int]) -> float:
    """How nearly a run as it stands, alone or with the rest of its clause, is the name of a fault."""
    alone = evidence(index, [units[number] for number in run]).closest()[1]
    clause = [number for number, unit in enumerate(units) if unit.clause == units[run[0]].clause]
    within = evidence(index, [units[number] for number in clause])
    return max(alone, within.closest(through=[clause.index(number) for number in run])[1])


def _runs(units: Sequence[Unit]) -> list[tuple[int, ...]]:
    """Units denied by the same word, one after the other."""
    runs: list[tuple[int, ...]] = []
    for number, unit in enumerate(units):
        if not unit.denied:
            continue
        if runs and runs[-1][-1] == number - 1 and units[number - 1].denied == unit.denied:
            runs[-1] += (number,)
        else:
            runs.append((number,))
    return runs


def _affirmed(unit: Unit) -> Unit:
    features = tuple((feature.removeprefix(NOT), surety) for feature, surety in unit.features)
    return replace(unit, denied=0, features=features)


def _best(seen: WordEvidence) -> tuple[int, float]:
    scores = seen.scores()
    if not scores:
        return 0, 0.0
    owner = min(scores, key=lambda number: (-scores[number], seen.index.owners[number]))
    return owner, scores[owner]
