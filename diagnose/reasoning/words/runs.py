"""Which runs of words tell what: the strongest telling takes its words first, and what it has used no other uses."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field

from diagnose.reasoning.words.groups import CONTRAST, NOT
from diagnose.reasoning.words.table import Layer
from diagnose.reasoning.words.tokens import Token, pair

INSIDE = 0.3  # what it costs a run to begin or end within a clause
REACH = 4  # tokens that a "not" reaches over
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

    def best(self, told: int, free: Sequence[bool]) -> Run | None:
        """The run of free tokens that speaks most for a class; None where there is none."""
        own, paired, tokens = self.own.get(told, {}), self.paired.get(told, {}), self.tokens
        unsaid = self._unsaid(told)
        found: Run | None = None
        gain, first, total = 0.0, -1, len(tokens)
        for place in range(min(own, default=0), max(own, default=-1) + 1):
            if not free[place]:
                first = -1
                continue
            here = self.alike[place] + own.get(place, 0.0)
            if place in unsaid:
                here = min(here, 0.0)
            within = bool(place) and tokens[place].clause == tokens[place - 1].clause
            begun = -INSIDE if within else 0.0
            on = gain + self.alike_paired[place] + paired.get(place, 0.0)
            if first < 0 or begun > on:
                gain, first = begun + here, place
            else:
                gain = on + here
            ends_within = place + 1 < total and tokens[place + 1].clause == tokens[place].clause
            reached = gain + self.layer.bias[told] - (INSIDE if ends_within else 0.0)
            if found is None or reached > found.gain:
                found = Run(told, reached, first, place + 1)
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
        """The division of the text: the strongest run first, each class once. ``taken``: tokens told already; ``named``:
        runs that are worth more than their words say."""
        free = [place not in taken for place in range(len(self.tokens))]
        spoken = [self.best(told, free) for told in sorted(self.own) if self.most(told) >= least]
        runs = [run for run in spoken if run and run.gain >= least]
        names = [run for run in named if run.gain >= least and all(free[run.first : run.last])]
        kept = list[Run]()
        while runs or names:
            top = min((*runs, *names), key=_order)
            kept.append(top)
            free[top.first : top.last] = [False] * (top.last - top.first)
            names = [run for run in names if run.told != top.told and _apart(run, top)]
            rest = [run for run in runs if run.told != top.told]
            again = [run if _apart(run, top) else self.best(run.told, free) for run in rest]
            runs = [run for run in again if run and run.gain >= least]
        return kept

    def gain(self, told: int, first: int, last: int) -> float:
        """What the tokens from first up to last say for a class."""
        own, paired = self.own.get(told, {}), self.paired.get(told, {})
        each = sum(self.alike[place] + own.get(place, 0.0) for place in range(first, last))
        both = sum(self.alike_paired[place] + paired.get(place, 0.0) for place in range(first + 1, last))
        return each + both + self.layer.bias[told]

    def denied(self, least: float) -> list[Run]:
        """What is denied: of each denial the class that the denied words would speak for most."""
        found = []
        for _, first, last in self.denials:
            runs = []
            for told, own in self.own.items():
                if not any(first <= place < last for place in own) or self.by_lack(told, first):
                    continue
                runs += [Run(told, self.gain(told, first, end), first, end) for end in range(first + 1, last + 1)]
            top = min(runs, key=_order, default=None)
            if top and top.gain >= least:
                found.append(top)
        return found

    def by_lack(self, told: int, first: int) -> bool:
        """Whether the "not" before a token tells a class together with it."""
        return self.paired.get(told, {}).get(first, 0.0) >= TELLS_BY_LACK

    def _unsaid(self, told: int) -> set[int]:
        """The tokens that a "not" takes out of what is said for a class."""
        return {
            place
            for _, first, last in self.denials
            if not self.by_lack(told, first)
            for place in range(first, last)
        }


def _denials(tokens: Sequence[Token]) -> list[tuple[int, int, int]]:
    """Where each "not" stands, and the tokens of its clause that it reaches over."""
    found = []
    for place, token in enumerate(tokens):
        last = place + 1
        if token.key != NOT:
            continue
        while (
            last < len(tokens)
            and last <= place + REACH
            and tokens[last].clause == token.clause
            and tokens[last].key != NOT
            and tokens[last].key not in CONTRAST
        ):
            last += 1
        if last > place + 1:
            found.append((place, place + 1, last))
    return found


def _order(run: Run) -> tuple[float, int, int]:
    return (-run.gain, run.first, run.told)


def _apart(one: Run, other: Run) -> bool:
    return one.first >= other.last or one.last <= other.first
