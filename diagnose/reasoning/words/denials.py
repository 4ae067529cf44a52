"""What is said of a fault without saying that it is there: denied, feared, refused to hear, asked."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from diagnose.reasoning.words.groups import NOT
from diagnose.reasoning.words.runs import OR, WEAK, Spoken, Stretch
from diagnose.reasoning.words.stems import stem
from diagnose.reasoning.words.tokens import Spelt

LEAST = 2.0  # what must speak for a thing that is denied
FEARS = frozenset(map(stem, "afraid scared worried worry fear avoid prevent risk".split()))
TELLING = frozenset({"tell", stem("blame")})  # "don't tell me it is pale" denies nothing
SAYINGS = frozenset(map(stem, "tell say blame call".split()))
ELSEWHERE = "elsewhere "  # what is no sight: that the goods are "not vinyl" denies nothing
HEAD = 5  # tokens before a telling among which such a word counts


def denied(spoken: Spoken) -> Iterator[Stretch]:
    """What is denied: after a "not", before one with nothing left to deny, or asked and answered with no."""
    for denial in list(spoken.denials):
        yield from _after(spoken, denial)
    for place in range(len(spoken.tokens)):
        if span := _told_before(spoken.tokens, place):
            run, end = _inside(spoken, *span), _end(spoken.tokens, place)
            if run and not spoken.paired.get(run.told, {}).get(place, 0.0) > 0.0:
                yield Stretch(run.told, run.gain, run.first, end)


def _after(spoken: Spoken, denial: tuple[int, int, int]) -> Iterator[Stretch]:
    """What a "not" denies: one thing, and with each "or" the next. It reaches no farther then."""
    place, start, last = denial
    if spoken.tokens[start].key in TELLING:
        return
    found = 0
    for first, end in _parts(spoken.tokens, start, last):
        run = _inside(spoken, first, end, start)
        if run is not None:
            yield Stretch(run.told, run.gain, found or place, run.last)
            found = run.last
    if found:
        spoken.narrow(denial, found)


def _parts(tokens: Sequence[Spelt], start: int, last: int) -> Iterator[tuple[int, int]]:
    """What stands between each "or" and the next, without words that say nothing at its beginning."""
    ends = [n for n in range(start, last) if tokens[n].key == OR]
    for first, end in zip([start, *ends], [*ends, last], strict=True):
        yield next((n for n in range(first, end) if tokens[n].key not in {*WEAK, OR}), end), end


def _inside(spoken: Spoken, first: int, last: int, lack: int = -1) -> Stretch | None:
    """What the tokens from first up to last would tell most, but for what is told by its lack with the "not" before
    ``lack``; None where that is next to nothing."""
    free = [first <= number < last for number in range(len(spoken.tokens))]
    sights = (told for told in spoken.own if not spoken.layer.classes[told].startswith(ELSEWHERE))
    spoken_for = (told for told in sights if lack < 0 or not spoken.by_lack(told, lack))
    runs = [run for told in spoken_for if (run := spoken.best(told, free, denied=True)) and run.gain >= LEAST]
    return min(runs, key=lambda run: (-run.gain, run.told), default=None)


def only_thought_of(tokens: Sequence[Spelt], run: Stretch) -> bool:
    """Whether what a run tells is feared or refused to hear, not seen."""
    before = [
        token for token in tokens[max(0, run.first - HEAD) : run.first + 1] if token.clause == tokens[run.first].clause
    ]
    keys = [token.key for token in before]
    refused = any(one == NOT and other in SAYINGS for one, other in pairwise(keys))
    return refused or not FEARS.isdisjoint(keys)


def _told_before(tokens: Sequence[Spelt], place: int) -> tuple[int, int] | None:
    """The tokens that a "not" with nothing left to deny speaks of: those before it in its clause, else the clause
    before it; None for any other token."""
    clause = tokens[place].clause
    after = tokens[place + 1 : _end(tokens, place)]
    if tokens[place].key != NOT or not all(token.key in WEAK for token in after):
        return None
    own = [n for n in range(place) if tokens[n].clause == clause]
    says = any(tokens[n].key not in WEAK for n in own)
    told = (
        own
        if says
        else [n for n in range(place) if place > len(own) and tokens[n].clause == tokens[place - 1 - len(own)].clause]
    )
    return (told[0], told[-1] + 1) if told else None


def _end(tokens: Sequence[Spelt], place: int) -> int:
    """Where the clause of a token ends."""
    return next((n for n in range(place, len(tokens)) if tokens[n].clause != tokens[place].clause), len(tokens))
