"""What the words of a text say for each thing that can be told, and the run of words that says most."""

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import accumulate
from operator import add

from diagnose.reasoning.words.groups import CONTRAST, NOT
from diagnose.reasoning.words.stems import stem
from diagnose.reasoning.words.table import WordLayer
from diagnose.reasoning.words.tokens import Spelt, pair

INSIDE = 0.3  # what it costs a run to begin or end within a clause
REST = (0.5, 0.0)  # by layer: the share that counts of what the rest of that clause says for the same
MENDED = 0.6  # the share of a word's weight where it was taken for a typing error
REACH = 4  # tokens that a "not" reaches over
STOPS = frozenset(map(stem, CONTRAST))
MOST_BETWEEN = 2  # articles and their like between two words of one thing, and one
LEADS_ON = 1  # tokens within which it is said what a "not" denies
OR = "or"
NOTHING = stem("nothing")
DENIERS = frozenset({NOT, NOTHING, stem("forget")})
RID = frozenset(
    f"{stem(one)} {other}" for one, other in (("free", "of"), ("free", "from"), ("rule", "out"), ("ruled", "out"))
)  # what denies as a "not" does
STILL_THERE = frozenset(
    map(
        stem,
        "idea clue wonder matter doubt sure certain know understand explain why rid stop fix cure solve shake help "
        "work".split(),
    )
)
WEAK = frozenset(
    map(
        stem,
        "there here visible problem issue trouble present at all is are was were be been have had got get see seen saw "
        "thing bit trace sign hint single of with on any more longer anymore either now though either what you youd "
        "would call today this time".split(),
    )
)
LACK_ALONE = 3.0  # the same for a "not" alone ("nothing", "lacks any")
ALL, NEVER = float("inf"), float("-inf")
ANSWERS = 1  # the number of that layer
TELLS_BY_LACK = 0.5  # from which "not" and a word are together a way of telling something ("not sharp")


@dataclass(frozen=True, slots=True)
class Stretch:
    """Tokens from first up to (without) last that speak for a class, by its number, and how strongly."""

    told: int
    gain: float
    first: int
    last: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What tokens say for one class. ``begin``: with a run that begins at each; ``on``: with one that goes on over
    each; ``end``: besides, with one that ends before each. ``begins``, ``ends``: beyond them nothing speaks for it."""

    begin: Sequence[float]
    on: Sequence[float]
    end: Sequence[float]
    begins: int
    ends: int


@dataclass(slots=True)
class Spoken:
    """What the tokens of a text say by one layer. ``alike``, ``alike_paired``: of every class; ``own``, ``paired``: by
    class, by token; a pair counts at its second token; ``alikes``: sums of what all say of every class. ``denials``:
    (token that denies, first token, last + 1)."""

    layer: WordLayer
    tokens: Sequence[Spelt]
    alike: list[float] = field(default_factory=list)
    alike_paired: list[float] = field(default_factory=list)
    own: dict[int, dict[int, float]] = field(default_factory=dict)
    paired: dict[int, dict[int, float]] = field(default_factory=dict)
    denials: list[tuple[int, int, int]] = field(default_factory=list)
    alikes: list[float] = field(default_factory=list)
    bounds: tuple[list[int], list[int]] = field(default_factory=lambda: ([], []))

    def __post_init__(self) -> None:
        said = set[tuple[int, str]]()  # what a clause says again counts once
        for place, token in enumerate(self.tokens):
            beside = pair(self.tokens[place - 1], token) if place else ""
            each = [feature for feature in token.features if (token.clause, feature) not in said]
            both = [beside] if beside and (token.clause, beside) not in said else []
            said.update((token.clause, feature) for feature in (*each, *both))
            self.alike.append(self._add(self.own, place, each, MENDED if token.mended else 1.0))
            self.alike_paired.append(self._add(self.paired, place, both, 1.0))
        self.alikes = list(accumulate(map(add, self.alike, self.alike_paired), initial=0.0))
        self.denials = list(_denials(self.tokens))
        self.bounds = _bounds(self.tokens)

    def _add(self, weights: dict[int, dict[int, float]], place: int, features: Sequence[str], worth: float) -> float:
        alike = 0.0
        for feature in features:
            common, own = self.layer.row(feature)
            alike += worth * common
            for told, weight in own.items():
                by = weights.setdefault(told, {})
                by[place] = by.get(place, 0.0) + worth * weight
        return alike

    def said(self, told: int, free: Sequence[bool], *, denied: bool = False, others: Collection[int] = ()) -> "Said":
        """What the tokens say for a class. ``denied``: of what is denied, from which a "not" takes nothing and which it
        sets apart from the rest of its clause. ``others``: tokens that name another, and speak for none but that."""
        own, paired, tokens = self.own.get(told, {}), self.paired.get(told, {}), self.tokens
        unsaid = set[int]() if denied else self._unsaid(told)
        here, on, before = list[float](), list[float](), [0.0]
        for place in range(len(tokens)):
            alone = self.alike[place] + own.get(place, 0.0)
            both = self.alike_paired[place] + paired.get(place, 0.0)
            most = 0.0 if place in unsaid or place in others else ALL
            here.append(min(alone, most))
            on.append(here[place] + min(both, most))
            before.append(before[place] + (on[place] if free[place] else 0.0))
        bias, rest = self.layer.bias[told], (lambda first, last: 0.0) if denied else self._rest(before)
        starts, stops = self.bounds
        begin = [bias + here[place] + rest(starts[place], place) for place in range(len(tokens))]
        places = [*own, *paired, *(place - 1 for place in paired)]
        return Said(
            begin=begin,
            on=on,
            end=[rest(place, stops[place]) for place in range(len(tokens) + 1)],
            begins=min(places, default=0),
            ends=max(places, default=-1) + 1,
        )

    def best(self, told: int, free: Sequence[bool], *, denied: bool = False) -> Stretch | None:
        """The run of free tokens that speaks most for a class; None where there is none. ``denied``: as in ``said``."""
        said = self.said(told, free, denied=denied)
        found: Stretch | None = None
        gain, first = 0.0, -1
        for place in range(said.begins, said.ends):
            if not free[place]:
                first = -1
                continue
            on = gain + said.on[place]
            if first < 0 or said.begin[place] > on:
                gain, first = said.begin[place], place
            else:
                gain = on
            whole = gain + said.end[place + 1]
            if found is None or whole > found.gain:
                found = Stretch(told, whole, first, place + 1)
        return found

    def most(self, told: int) -> float:
        """No run speaks more for a class than this."""
        own, paired = self.own.get(told, {}), self.paired.get(told, {})
        if REST[self.layer.number]:  # then what a run leaves out may speak for it too
            return self.layer.bias[told] + sum(
                weight for each in (own, paired) for weight in each.values() if weight > 0.0
            )
        gain, most, end = 0.0, NEVER, 0
        for place in sorted({*own, *paired}):
            here = own.get(place, 0.0) + max(paired.get(place, 0.0), 0.0)
            gain = max(gain + self.alikes[place] - self.alikes[end], 0.0) + self.alike[place] + here
            most, end = max(most, gain), place + 1
        return self.layer.bias[told] + most

    def size(self, place: int) -> int:
        """How many tokens the clause of a token has."""
        start = self.bounds[0][place]
        return self.bounds[1][start + 1] - start

    def ranked(self, least: float) -> list[Stretch]:
        """The best run of each class that comes to ``least``, the strongest first."""
        free = [True] * len(self.tokens)
        runs = [self.best(told, free) for told in sorted(self.own) if self.most(told) >= least]
        return sorted((run for run in runs if run and run.gain >= least), key=order)

    def gain(self, told: int, first: int, last: int) -> float:
        """What the tokens from first up to last say for a class."""
        own, paired = self.own.get(told, {}), self.paired.get(told, {})
        each = sum(self.alike[place] + own.get(place, 0.0) for place in range(first, last))
        both = sum(self.alike_paired[place] + paired.get(place, 0.0) for place in range(first + 1, last))
        return each + both + self.layer.bias[told]

    def narrow(self, denial: tuple[int, int, int], last: int) -> None:
        """Let a "not" reach no farther than up to a token."""
        self.denials[self.denials.index(denial)] = (denial[0], denial[1], last)

    def by_lack(self, told: int, first: int) -> bool:
        """Whether the "not" before a token, alone or together with it, tells a class more than the token by itself. An
        answer is told by a lack as soon as the two together speak for it ("not taped")."""
        own, both = self.own.get(told, {}), self.paired.get(told, {}).get(first, 0.0)
        alone, word = own.get(first - 1, 0.0), own.get(first, 0.0)
        tells = both >= TELLS_BY_LACK and (both > word or self.layer.number == ANSWERS)
        return tells or (alone >= LACK_ALONE and alone >= word)

    def _rest(self, before: Sequence[float]) -> Callable[[int, int], float]:
        """What leaving out the tokens from first up to last of its clause costs a run. ``before``: sums."""
        share = REST[self.layer.number]
        return lambda first, last: share * (before[last] - before[first]) - INSIDE if last > first else 0.0

    def _unsaid(self, told: int) -> set[int]:
        """The tokens that a "not" takes out of what is said for a class."""
        return {
            place for _, first, last in self.denials if not self.by_lack(told, first) for place in range(first, last)
        }


def _bounds(tokens: Sequence[Spelt]) -> tuple[list[int], list[int]]:
    """Where the clause of each token begins, and where that of the token before each ends."""
    total, starts, stops = len(tokens), list[int](), list(range(len(tokens) + 1))
    for place, token in enumerate(tokens):
        goes_on = place and tokens[place - 1].clause == token.clause
        starts.append(starts[-1] if goes_on else place)
    for place in range(total - 1, 0, -1):
        stops[place] = stops[place + 1] if tokens[place - 1].clause == tokens[place].clause else place
    return starts, stops


def _denials(tokens: Sequence[Spelt]) -> Iterator[tuple[int, int, int]]:
    """Where each "not" stands, and the tokens of its clause that it reaches over."""
    for place in range(len(tokens)):
        if not _denies(tokens, place):
            continue
        last, reach = place + 1, 1 if tokens[place].key == NOTHING else REACH  # "nothing melted"
        while last < len(tokens) and reach and _goes_on(tokens[place], tokens[last - 1], tokens[last]):
            reach = REACH if tokens[last].key == OR else reach - (tokens[last].key not in WEAK)
            last += 1
        if last > place + 1 and not _is_there(tokens, place):
            yield place, place + 1, last


def _goes_on(denial: Spelt, before: Spelt, token: Spelt) -> bool:
    """Whether a "not" that reaches a token reaches the next: not where something is named anew."""
    anew = before is not denial and token.word - before.word > MOST_BETWEEN
    return token.clause == denial.clause and token.key != NOT and token.key not in STOPS and not anew


def _denies(tokens: Sequence[Spelt], place: int) -> bool:
    before = tokens[place - 1].key if place else ""
    return tokens[place].key in DENIERS or f"{before} {tokens[place].key}" in RID


def _is_there(tokens: Sequence[Spelt], place: int) -> bool:
    """Whether a "not" denies something else than what follows: "no idea why", "cannot get rid of"."""
    clause = [token for token in tokens[place : place + 2 + LEADS_ON] if token.clause == tokens[place].clause]
    if any(token.key in STILL_THERE for token in clause[1:]):
        return True
    before = tokens[place - 1] if place else None
    twice = before and before.key == NOT and before.clause == tokens[place].clause
    return bool(twice and before and tokens[place].word > before.word + 1)


def order(run: Stretch) -> tuple[float, int, int]:
    """The strongest first."""
    return (-run.gain, run.first, run.told)
