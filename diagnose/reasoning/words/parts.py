"""Several defects in one text: which run of clauses speaks of which defect.

Every way of dividing the text into runs is weighed: each run counts what speaks for the defect it fits best,
less a price for naming a defect at all. So a clause that merely adds to its neighbour stays with it, and one
that speaks of something else gets a defect of its own.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from diagnose.reasoning.words.scoring import WordEvidence

PRICE = 7.0  # of naming one more defect
PRICE_OF_A_NAME = 4.0  # where one clause is nothing but a name of the defect
CLOSE = 0.75  # how nearly it must be one
EXACTLY = 0.98  # and how nearly where nothing else is to be weighed
FOR_A_NAME = 4.0  # what a clause counts more that is exactly a name
LEAST = 2.6  # score below which a run is taken to say nothing
MOST_CLAUSES = 12


@dataclass(frozen=True, slots=True)
class TextPart:
    """The units from first up to (without) last, the defect they speak of by its number, and the score."""

    first: int
    last: int
    owner: int
    score: float


def divide(evidence: WordEvidence, without: Collection[int] = ()) -> list[TextPart]:
    """The best division of a text; at most one part for each defect, runs that say nothing left out. The owners
    in ``without`` are not considered."""
    starts = _clause_starts(evidence)
    best: list[tuple[float, list[TextPart]]] = [(0.0, [])]
    for end in range(1, len(starts)):
        choices = [best[end - 1]]
        for begin in range(end):
            part = best_part(evidence, starts[begin], starts[end], without)
            if part is not None:
                value, parts = best[begin]
                choices.append((value + part.score - _price(evidence, part), [*parts, part]))
        best.append(max(choices, key=lambda choice: (choice[0], -len(choice[1]))))
    parts = best[-1][1] or _all_in_one(evidence, without)
    return _one_each(parts)


def _clause_starts(evidence: WordEvidence) -> list[int]:
    """The number of the first unit of each clause, and at the end that of all units. Past 12 clauses no more
    are told apart."""
    starts = [
        number
        for number, unit in enumerate(evidence.units)
        if not number or unit.clause != evidence.units[number - 1].clause
    ]
    return [*starts[:MOST_CLAUSES], len(evidence.units)]


def best_part(evidence: WordEvidence, first: int, last: int, without: Collection[int] = ()) -> TextPart | None:
    """The defect that a run of units speaks of, if it says enough of any: where the run is exactly a name, that
    name's."""
    owner, near = evidence.closest(first, last)
    if near >= EXACTLY and owner not in without:
        return TextPart(first, last, owner, evidence.scores(first, last).get(owner, 0.0) + FOR_A_NAME)
    scores = {owner: value for owner, value in evidence.scores(first, last).items() if owner not in without}
    if not scores:
        return None
    names = evidence.index.owners
    owner = min(scores, key=lambda number: (-scores[number], names[number]))
    return TextPart(first, last, owner, scores[owner]) if scores[owner] >= LEAST else None


def _price(evidence: WordEvidence, part: TextPart) -> float:
    one_clause = evidence.units[part.first].clause == evidence.units[part.last - 1].clause
    if one_clause and evidence.closeness(part.owner, part.first, part.last) >= CLOSE:
        return PRICE_OF_A_NAME
    return PRICE


def _all_in_one(evidence: WordEvidence, without: Collection[int]) -> list[TextPart]:
    """A text too faint to pay the price of a defect may still speak of one, if of any."""
    part = best_part(evidence, 0, len(evidence.units), without)
    return [part] if part else []


def _one_each(parts: Sequence[TextPart]) -> list[TextPart]:
    """Of several parts about one defect, the one that says the most; then the best first."""
    by: dict[int, TextPart] = {}
    for part in parts:
        if part.owner not in by or part.score > by[part.owner].score:
            by[part.owner] = part
    return sorted(by.values(), key=lambda part: (-part.score, part.first))
