"""What is said of a fault without saying that it is there: denied, feared, refused to hear, asked."""

from collections.abc import Iterator, Sequence

from diagnose.reasoning.words.groups import NOT
from diagnose.reasoning.words.runs import Run, Spoken
from diagnose.reasoning.words.stems import stem
from diagnose.reasoning.words.tokens import Token

LEAST = 2.0  # what must speak for a thing that is denied
FEARS = frozenset(map(stem, "afraid scared worried worry fear avoid prevent risk".split()))
SAYINGS = frozenset(map(stem, "tell say blame call".split()))
WEAK = frozenset(map(stem, "there here visible problem issue present at all is are was were thing bit trace sign any".split()))
HEAD = 5  # tokens before a telling among which such a word counts


def denied(spoken: Spoken) -> Iterator[Run]:
    """What is denied: after a "not", before one with nothing left to deny, or asked and answered with no."""
    yield from spoken.denied(LEAST)
    free = [True] * len(spoken.tokens)
    for place, token in enumerate(spoken.tokens):
        if token.key == NOT and _ends_here(spoken.tokens, place) and (span := _before(spoken.tokens, place)):
            inside = [span[0] <= number < span[1] for number in range(len(free))]
            runs = [run for told in spoken.own if (run := spoken.best(told, inside))]
            top = min(runs, key=lambda run: (-run.gain, run.told), default=None)
            if top and top.gain >= LEAST and not spoken.paired.get(top.told, {}).get(place, 0.0) > 0.0:
                yield top


def only_thought_of(tokens: Sequence[Token], run: Run) -> bool:
    """Whether what a run tells is feared or refused to hear, not seen."""
    before = [token for token in tokens[max(0, run.first - HEAD) : run.first + 1] if token.clause == tokens[run.first].clause]
    keys = [token.key for token in before]
    refused = any(one == NOT and other in SAYINGS for one, other in zip(keys, keys[1:], strict=False))
    return refused or not FEARS.isdisjoint(keys)


def _ends_here(tokens: Sequence[Token], place: int) -> bool:
    """Whether nothing is left in the clause for a "not" to deny."""
    after = [token for token in tokens[place + 1 :] if token.clause == tokens[place].clause]
    return all(token.key in WEAK for token in after)


def _before(tokens: Sequence[Token], place: int) -> tuple[int, int] | None:
    """The tokens that such a "not" speaks of: those before it in its clause, else the clause before."""
    clause = tokens[place].clause
    own = [n for n in range(place) if tokens[n].clause == clause]
    told = own or [n for n in range(place) if place and tokens[n].clause == tokens[place - 1].clause]
    return (told[0], told[-1] + 1) if told else None
