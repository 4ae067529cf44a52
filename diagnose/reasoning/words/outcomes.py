"""Outcomes of checks in a person's words: told unasked, or as the answer to one check."""

from collections.abc import Sequence
from dataclasses import dataclass

from diagnose.knowledge.model import Check
from diagnose.reasoning.words.lexicon import Lexicon
from diagnose.reasoning.words.scoring import Parts, evidence
from diagnose.reasoning.words.spelling import cut, taken
from diagnose.reasoning.words.stems import stem
from diagnose.reasoning.words.units import Unit

LEAST_UNITS = 2  # a name of one word ("clean", "same") says too little when nobody asked
ENOUGH_UNITS = 3  # what stands out within a longer clause
LEAST_SCORE = 7.0
WORD_FOR_WORD = 1.0
MOST = 3


@dataclass(frozen=True, slots=True)
class ToldOutcome:
    """An outcome of a check, the score, and the numbers of the words that told it."""

    check: str
    outcome: str
    score: float
    words: frozenset[int]


def outcomes_among(lexicon: Lexicon, units: Sequence[Unit]) -> list[ToldOutcome]:
    """The outcomes that the units of a text tell unasked, which must be beyond doubt: whole names, word for word
    and in a row, of three words at least, or with nothing beside them in their clause but words of the check's own
    title and question. The best first, one for each check."""
    index = lexicon.outcomes
    asked = [unit for unit in units if not unit.denied]
    seen = evidence(index, asked)
    best: dict[str, ToldOutcome] = {}
    for name, parts in seen.found.items():
        score = index.totals[name]
        row = _in_a_row(parts, len(index.name(name))) if score >= LEAST_SCORE else ()
        check, _, outcome = index.owners[index.owner[name]].partition(" ")
        if row and _stands_out(asked, row, lexicon.knowledge.checks[check]):
            words = {word for number in row for word in range(*asked[number].words)}
            told = ToldOutcome(check, outcome, round(score, 6), frozenset(words))
            if check not in best or (told.score, outcome) > (best[check].score, best[check].outcome):
                best[check] = told
    return sorted(best.values(), key=lambda told: (-told.score, told.check))[:MOST]


def _in_a_row(parts: Parts, length: int) -> Sequence[int]:
    """The units of the text that are the name from its first word to its last; none where it is not there."""
    exact = {(unit, place) for unit, place, surety, _ in parts if surety >= WORD_FOR_WORD}
    for start in sorted(unit for unit, place in exact if place == 0):
        if all((start + place, place) in exact for place in range(length)):
            return range(start, start + length)
    return ()


def _stands_out(units: Sequence[Unit], row: Sequence[int], check: Check) -> bool:
    clause = units[row[0]].clause
    if len(row) < LEAST_UNITS or units[row[-1]].clause != clause:
        return False
    if len(row) >= ENOUGH_UNITS:
        return True
    beside = {unit.features[0][0] for n, unit in enumerate(units) if unit.clause == clause and n not in row}
    return beside.issubset(map(stem, cut(f"{check.title} {check.asks}")))


def answer(lexicon: Lexicon, check_id: str, text: str) -> str:
    """The outcome of one check that a reply speaks for, by its id; "" where it speaks for none, or for two
    alike."""
    check = lexicon.knowledge.checks[check_id]
    text = taken(text)
    plain = text.lower()
    for outcome in check.outcomes:
        if plain == outcome.id or plain in (name.lower() for name in outcome.said):
            return outcome.id
    scores = evidence(lexicon.outcomes, lexicon.units(text)).scores()
    numbers = {owner: number for number, owner in enumerate(lexicon.outcomes.owners)}
    ranked = sorted(
        ((scores.get(numbers[f"{check.id} {outcome.id}"], 0.0), outcome.id) for outcome in check.outcomes),
        reverse=True,
    )
    if not ranked or ranked[0][0] <= 0.0 or (len(ranked) > 1 and ranked[0][0] == ranked[1][0]):
        return ""
    return ranked[0][1]
