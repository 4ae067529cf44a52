"""Which runs of words tell what: the strongest telling takes its words first, and what it has used no other uses."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field

from diagnose.reasoning.words.groups import CONTRAST, NOT
from diagnose.reasoning.words.stems import stem
from diagnose.reasoning.words.table import Layer
from diagnose.reasoning.words.tokens import Token, pair

INSIDE = 0.3  # what it costs a run to begin or end within a clause
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
MUCH, ONE_MORE = (
    8.0,
    8.0,
)  # what something else must come to within a run, and what two tellings must be better by than one
ANSWERS = 1  # the number of that layer
TELLS_BY_LACK = 0.5  # from which "not" and a word are together a way of telling something ("not sharp")


@dataclass(frozen=True, slots=True)
class Run:
    """Tokens from first up to (without) last that speak for a class, by its number, and how strongly."""

    told: int
    gain: float
    first: int
    last: int


@dataclass(slots=True)
class Spoken:
    """What the tokens of a text say by one layer. ``alike``, ``alike_paired``: of every class; ``own``, ``paired``: by
    class, by token; a pair counts at its second token. ``denials``: (token that denies, first token, last + 1)."""

    layer: Layer
    tokens: Sequence[Token]
    alike: list[float] = field(default_factory=list)
    alike_paired: list[float] = field(default_factory=list)
    own: dict[int, dict[int, float]] = field(default_factory=dict)
    paired: dict[int, dict[int, float]] = field(default_factory=dict)
    denials: list[tuple[int, int, int]] = field(default_factory=list)

    def __post_init__(self) -> None:
        for place, token in enumerate(self.tokens):
            self.alike.append(self._add(self.own, place, token.features))
            beside = pair(self.tokens[place - 1], token) if place else ""
            self.alike_paired.append(self._add(self.paired, place, (beside,) if beside else ()))
        self.denials = list(_denials(self.tokens))

    def _add(self, weights: dict[int, dict[int, float]], place: int, features: Sequence[str]) -> float:
        alike = 0.0
        for feature in features:
            common, own = self.layer.row(feature)
            alike += common
            for told, weight in own.items():
                by = weights.setdefault(told, {})
                by[place] = by.get(place, 0.0) + weight
        return alike

    def best(self, told: int, free: Sequence[bool], *, denied: bool = False) -> Run | None:
        """The run of free tokens that speaks most for a class; None where there is none. ``denied``: of what
        is denied, from which a "not" takes nothing and which it sets apart."""
        own, paired, tokens = self.own.get(told, {}), self.paired.get(told, {}), self.tokens
        unsaid, inside = (set[int](), 0.0) if denied else (self._unsaid(told), INSIDE)
        found: Run | None = None
        gain, first, total = 0.0, -1, len(tokens)
        places = (*own, *paired, *(place - 1 for place in paired))
        for place in range(min(places, default=0), max(places, default=-1) + 1):
            if not free[place]:
                first = -1
                continue
            here = self.alike[place] + own.get(place, 0.0)
            both = self.alike_paired[place] + paired.get(place, 0.0)
            if place in unsaid:
                here, both = min(here, 0.0), min(both, 0.0)
            within = bool(place) and tokens[place].clause == tokens[place - 1].clause
            begun = -inside if within else 0.0
            on = gain + both
            if first < 0 or begun > on:
                gain, first = begun + here, place
            else:
                gain = on + here
            ends_within = place + 1 < total and tokens[place + 1].clause == tokens[place].clause
            whole = gain + self.layer.bias[told] - (inside if ends_within else 0.0)
            if found is None or whole > found.gain:
                found = Run(told, whole, first, place + 1)
        return found

    def most(self, told: int) -> float:
        """No run speaks more for a class than this."""
        positive = sum(weight for weight in self.own.get(told, {}).values() if weight > 0.0)
        positive += sum(weight for weight in self.paired.get(told, {}).values() if weight > 0.0)
        return self.layer.bias[told] + positive

    def ranked(self, least: float) -> list[Run]:
        """The best run of each class that comes to ``least``, the strongest first."""
        free = [True] * len(self.tokens)
        runs = [self.best(told, free) for told in sorted(self.own) if self.most(told) >= least]
        return sorted((run for run in runs if run and run.gain >= least), key=_order)

    def divided(self, least: float, taken: Collection[int] = (), named: Sequence[Run] = ()) -> list[Run]:
        """The division of the text: the strongest run first, each class once. ``taken``: tokens told already;
        ``named``: runs that are worth more than their words say."""
        free = [place not in taken for place in range(len(self.tokens))]
        spoken = [self.best(told, free) for told in sorted(self.own) if self.most(told) >= least]
        runs = [run for run in spoken if run and run.gain >= least]
        names = [run for run in named if run.gain >= least and all(free[run.first : run.last])]
        kept = list[Run]()
        while runs or names:
            top = self._without_others(min((*runs, *names), key=_order), (*names, *runs), free, least)
            kept.append(top)
            free[top.first : top.last] = [False] * (top.last - top.first)
            names = [run for run in names if run.told != top.told and _apart(run, top)]
            rest = [run for run in runs if run.told != top.told]
            again = [run if _apart(run, top) else self.best(run.told, free) for run in rest]
            runs = [run for run in again if run and run.gain >= least]
        return kept

    def _without_others(self, run: Run, others: Sequence[Run], free: Sequence[bool], least: float) -> Run:
        """A run without clauses that tell something else, where the two together tell more: "it is pale" before "there is
        a second copy" is no part of that."""
        for other in sorted(others, key=_order):
            if other.told == run.told or other.gain < MUCH or other.first < run.first or other.last > run.last:
                continue
            clauses = {self.tokens[other.first].clause, self.tokens[other.last - 1].clause}
            apart = [each and token.clause not in clauses for each, token in zip(free, self.tokens, strict=True)]
            rest = self.best(run.told, apart)
            if rest and rest.gain >= least and rest.gain + other.gain - ONE_MORE >= run.gain:
                run = rest
        return run

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

    def _unsaid(self, told: int) -> set[int]:
        """The tokens that a "not" takes out of what is said for a class."""
        return {
            place for _, first, last in self.denials if not self.by_lack(told, first) for place in range(first, last)
        }


def _denials(tokens: Sequence[Token]) -> Iterator[tuple[int, int, int]]:
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


def _goes_on(denial: Token, before: Token, token: Token) -> bool:
    """Whether a "not" that reaches a token reaches the next: not where something is named anew."""
    anew = before is not denial and token.word - before.word > MOST_BETWEEN
    return token.clause == denial.clause and token.key != NOT and token.key not in STOPS and not anew


def _denies(tokens: Sequence[Token], place: int) -> bool:
    before = tokens[place - 1].key if place else ""
    return tokens[place].key in DENIERS or f"{before} {tokens[place].key}" in RID


def _is_there(tokens: Sequence[Token], place: int) -> bool:
    """Whether a "not" denies something else than what follows: "no idea why", "cannot get rid of"."""
    clause = [token for token in tokens[place : place + 2 + LEADS_ON] if token.clause == tokens[place].clause]
    if any(token.key in STILL_THERE for token in clause[1:]):
        return True
    before = tokens[place - 1] if place else None
    twice = before and before.key == NOT and before.clause == tokens[place].clause
    return bool(twice and before and tokens[place].word > before.word + 1)


def _order(run: Run) -> tuple[float, int, int]:
    return (-run.gain, run.first, run.told)


def _apart(one: Run, other: Run) -> bool:
    return one.first >= other.last or one.last <= other.first
