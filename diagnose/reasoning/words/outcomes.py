"""The answer to one check in a person's own words."""

from diagnose.reasoning.words.lexicon import Lexicon
from diagnose.reasoning.words.names import keys
from diagnose.reasoning.words.runs import Spoken
from diagnose.reasoning.words.spelling import clauses, taken

LEAST, CLEARLY = 0.5, 0.5  # what must speak for an outcome, and how much more than for the next


def answer(lexicon: Lexicon, check_id: str, text: str) -> str:
    """The outcome of one check that a reply speaks for, by its id; "" where it speaks for none, or for two
    nearly alike."""
    check = lexicon.knowledge.checks[check_id]
    text = taken(text)
    plain = text.lower()
    for outcome in check.outcomes:
        if plain in (outcome.id, outcome.looks.lower(), *(name.lower() for name in outcome.said)):
            return outcome.id
    words = clauses(text)
    tokens = lexicon.tokens(words, lexicon.reader.typed(words, lexicon.speller))
    own = {f"{check.id} {outcome.id}": outcome.id for outcome in check.outcomes}
    if named := [own[told] for told in lexicon.said.get(keys(tokens), ()) if told in own]:
        return named[0]
    spoken = Spoken(lexicon.answers, tokens)
    numbers = {told: number for number, told in enumerate(lexicon.answers.classes) if told in own}
    free = [True] * len(tokens)
    runs = [
        (run.gain - lexicon.answers.bias[run.told], own[told])
        for told, n in numbers.items()
        if (run := spoken.best(n, free))
    ]
    ranked = sorted(runs, key=lambda each: (-each[0], each[1]))
    if not ranked or ranked[0][0] < LEAST or (len(ranked) > 1 and ranked[0][0] - ranked[1][0] < CLEARLY):
        return ""
    return ranked[0][1]
