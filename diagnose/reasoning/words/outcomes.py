"""Outcomes of checks in a person's words: told unasked, or as the answer to one check."""

from collections.abc import Sequence
from dataclasses import dataclass

from diagnose.reasoning.words.lexicon import Lexicon
from diagnose.reasoning.words.scoring import evidence
from diagnose.reasoning.words.units import Unit

LEAST_UNITS = 2  # a name of one word ("clean", "same") says too little when nobody asked
LEAST_SCORE = 7.0
WORD_FOR_WORD = 1.0
MOST = 3


@dataclass(frozen=True, slots=True)
class Told:
    """An outcome of a check, the score, and the numbers of the words that told it."""

    check: str
    outcome: str
    score: float
    words: frozenset[int]


def outcomes_among(lexicon: Lexicon, units: Sequence[Unit]) -> list[Told]:
    """The outcomes that the units of a text tell unasked: whole names of two words or more, word for word.
    The best first, one for each check."""
    index = lexicon.outcomes
    asked = [unit for unit in units if not unit.denied]
    seen = evidence(index, asked)
    best: dict[str, Told] = {}
    for name, parts in seen.found.items():
        places = {place for _, place, surety in parts if surety >= WORD_FOR_WORD}
        score = index.name(name)[1]
        if len(places) >= LEAST_UNITS and len(places) == len(index.units[name]) and score >= LEAST_SCORE:
            check, _, outcome = index.owners[index.owner[name]].partition(" ")
            words = {word for unit, _, _ in parts for word in range(*asked[unit].words)}
            told = Told(check, outcome, round(score, 6), frozenset(words))
            if check not in best or (told.score, outcome) > (best[check].score, best[check].outcome):
                best[check] = told
    return sorted(best.values(), key=lambda told: (-told.score, told.check))[:MOST]


def answer(lexicon: Lexicon, check_id: str, text: str) -> str:
    """The outcome of one check that a reply speaks for, by its id; "" where it speaks for none, or for two
    alike."""
    check = lexicon.knowledge.checks[check_id]
    plain = text.strip().lower()
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
