"""A made-up shop by a harbour whose numbers differ from the shipped ones: an endless row of its spoiled presses.

Each press is drawn from the shop's own numbers: causes as often as they turn up with that family of items there,
what they bring on, what checks show, what fixes cure. Only presses on which something is seen come to the bench.
The person tells the most striking sights first, ``tells`` on average, and the rest goes untold. Then the same checks
follow the same sights, as in a dialogue, and after the answers the fixes that are likeliest to help, by the shipped
numbers. So the same patterns come again and again, as they do in life.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from diagnose.casebook.case import Case
from diagnose.dialogue.moves import Answered, Cured, HandedOver, Move, Pressed, Saw, TriedFix
from diagnose.dialogue.session import Session
from diagnose.knowledge.model import Chance, Check, Knowledge, Outcome
from diagnose.reasoning.beliefs import believe
from diagnose.reasoning.evidence import BETTER, SAME, Evidence
from diagnose.reasoning.factors import FADED, FANCIED, IMPROVES
from diagnose.reasoning.network import Network, network
from diagnose.reasoning.outlook import likelihoods, told

ITEMS = (
    "tea-towel-polyester", "tea-towel-65-35", "cushion-cover", "tote-bag", "t-shirt-polyester", "t-shirt-65-35",
    "mug", "ceramic-tile", "hardboard-coaster", "jigsaw", "aluminium-panel", "mouse-mat",
)  # fmt: skip
PRESSES = ("by-the-window", "by-the-door")
FIRST = datetime(2025, 1, 6, 8, tzinfo=UTC)
SUSPECTS = 6
FIXES = 3
UNKNOWN = -1


def other_numbers(knowledge: Knowledge, seed: int, spread: float = 0.8, causes: float = 1.6) -> Knowledge:
    """The knowledge with every chance moved at random (standard deviation ``spread`` in log odds), and ``causes``
    causes at work in a press on average."""
    random = np.random.default_rng(seed)

    def moved(chance: Chance, by: float = 0.0) -> Chance:
        if not 0.0 < chance.value < 1.0:
            return chance
        odds = chance.value / (1.0 - chance.value) * np.exp(spread * random.standard_normal() + by)
        return Chance(float(odds / (1.0 + odds)))

    by = float(np.log(causes / sum(cause.turns_up.value for cause in knowledge.causes.values())))

    def outcomes(check: Check) -> tuple[Outcome, ...]:
        shown = [replace(o, shows={c: moved(v) for c, v in o.shows.items()}) for o in check.outcomes]
        sums = {c: sum(o.shows[c].value for o in shown if c in o.shows) for o in shown for c in o.shows}
        fitted = {c: max(1.0, total / 0.98) for c, total in sums.items()}
        return tuple(replace(o, shows={c: Chance(v.value / fitted[c]) for c, v in o.shows.items()}) for o in shown)

    return replace(
        knowledge,
        causes={
            c.id: replace(
                c,
                turns_up=moved(c.turns_up, by),
                shapes=tuple(replace(s, turns_up=moved(s.turns_up, by)) for s in c.shapes),
            )
            for c in knowledge.causes.values()
        },
        defects={
            d.id: replace(d, rules=tuple(replace(r, brings=moved(r.brings)) for r in d.rules))
            for d in knowledge.defects.values()
        },
        checks={c.id: replace(c, outcomes=outcomes(c)) for c in knowledge.checks.values()},
        fixes={
            f.id: replace(f, cures={c: moved(v) for c, v in f.cures.items()}) for f in knowledge.fixes.values()
        },
    )


@dataclass
class Harbour:
    """``truth``: the shop's own numbers. ``tells``: how many sights are told, on
    average, where there are more."""

    knowledge: Knowledge
    seed: int
    truth: Knowledge = field(init=False)
    spread: float = 0.8
    causes: float = 1.6
    tells: float = 1.3
    checks: int = 3
    _shipped: dict[str, Network] = field(default_factory=dict)
    _asked: dict[tuple[str, ...], list[str]] = field(default_factory=dict)
    _fixes: dict[object, list[str]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.truth = other_numbers(self.knowledge, self.seed, self.spread, self.causes)

    @cached_property
    def _nets(self) -> Mapping[str, Network]:
        return {item: network(self.truth, self.knowledge.items[item].facts) for item in ITEMS}

    @cached_property
    def _priors(self) -> Mapping[str, NDArray[np.float64]]:
        """By item; each family has some causes more often and others less than the shop as a whole."""
        factors: dict[str, NDArray[np.float64]] = {}
        random = np.random.default_rng([self.seed, 1])
        priors = {}
        for item in ITEMS:
            family = self.knowledge.items[item].family
            if family not in factors:
                factors[family] = np.exp(0.5 * random.standard_normal(len(self.truth.causes)) - 0.125)
            priors[item] = np.minimum(0.9, np.array(self._nets[item].priors) * factors[family])
        return priors

    @cached_property
    def _striking(self) -> Mapping[str, int]:
        order = np.random.default_rng([self.seed, 2]).permutation(sorted(self.knowledge.defects))
        return {str(defect): place for place, defect in enumerate(order)}

    def cases(self, count: int, part: int = 0) -> Iterator[Case]:
        """The cases in time order, the same for the same seed and part."""
        random = np.random.default_rng([self.seed, 3, part])
        made = 0
        while made < count:
            items = random.integers(len(ITEMS), size=1000)
            present = random.random((1000, len(self.truth.causes)))
            for item, luck in zip(items, present, strict=True):
                name = ITEMS[item]
                case = self._case(random, name, {int(c) for c in np.flatnonzero(luck < self._priors[name])}, made)
                if case is not None:
                    made += 1
                    yield case
                if made == count:
                    return

    def _case(self, random: np.random.Generator, item: str, alive: set[int], number: int) -> Case | None:
        net = self._nets[item]
        sights = _sights(random, net, alive)
        if not sights:
            return None
        many = int(self.tells) + (random.random() < self.tells % 1.0)
        left = {d: sights[d] for d in sorted(sights, key=self._striking.__getitem__)[:many]}
        seen = tuple(sorted(left))
        moves: list[Move] = [Pressed(item), Saw(seen)]
        for check in self._checks(item, seen):
            moves.append(Answered(check, _outcome(random, net, check, alive)))
        moves += self._tried(random, item, alive, left, moves)
        took = {m.check: float(np.round(random.gamma(4.0, 1.0), 1)) for m in moves if isinstance(m, Answered)}
        press = PRESSES[number % 2]
        ended = FIRST + timedelta(minutes=90 * number)
        identity = f"{int(ended.timestamp()):012x}{self.seed % 4096:04x}{number:016x}"
        return Case(id=identity, ended=ended, session=Session(tuple(moves)), press=press, took=took)

    def _tried(
        self, random: np.random.Generator, item: str, alive: set[int], sights: dict[str, set[int]], moves: list[Move]
    ) -> Iterator[Move]:
        net, left = self._nets[item], {d: set(causes) for d, causes in sights.items()}
        fading = {d for d in left if random.random() < FADED}
        for fix in self._likeliest(item, tuple(moves)):
            right = {c for c, cure in net.cures[fix].items() if c in alive and random.random() < cure}
            alive -= right
            for defect in left:
                left[defect] -= right | ({UNKNOWN} if defect in fading else set())
            gone = tuple(sorted(defect for defect, causes in left.items() if not causes))
            left = {defect: causes for defect, causes in left.items() if causes}
            if not left:
                yield Cured(fix)
                return
            shown = {c for c in right if any(c in net.defects[d].links for d in sights)}
            better = gone or random.random() >= (1.0 - FANCIED) * (1.0 - IMPROVES) ** len(shown)
            yield TriedFix(fix, BETTER if better else SAME, gone)
        yield HandedOver()

    def _net(self, item: str) -> Network:
        if item not in self._shipped:
            self._shipped[item] = network(self.knowledge, self.knowledge.items[item].facts)
        return self._shipped[item]

    def _checks(self, item: str, seen: tuple[str, ...]) -> list[str]:
        """The checks that tell most after such sights, by the shipped numbers; those that go with the item."""
        net = self._net(item)
        if seen not in self._asked:
            beliefs = believe(net, Evidence(seen=seen))
            suspects = sorted(range(len(net.causes)), key=lambda c: -beliefs.behind[c])[:SUSPECTS]
            weights = [beliefs.behind[c] for c in suspects]
            total = sum(weights) or 1.0
            weights = [*(w / total for w in weights), 0.0]
            telling = {
                check: told(likelihoods(node, suspects, beliefs), weights)
                for check, node in net.checks.items()
                if node.links.keys() & set(suspects)
            }
            self._asked[seen] = sorted(telling, key=lambda check: (-telling[check], check))[: self.checks]
        return [check for check in self._asked[seen] if check in net.checks]

    def _likeliest(self, item: str, moves: tuple[Move, ...]) -> list[str]:
        key = (item, *[(m.check, m.outcome) if isinstance(m, Answered) else m.defects for m in moves[1:]])  # type: ignore[union-attr]
        if key not in self._fixes:
            net = self._net(item)
            beliefs = believe(net, Session(moves).evidence)
            chance = {f: sum(beliefs.behind[c] * p for c, p in cures.items()) for f, cures in net.cures.items()}
            self._fixes[key] = sorted(chance, key=lambda fix: (-chance[fix], fix))[:FIXES]
        return self._fixes[key]


def _sights(random: np.random.Generator, net: Network, alive: set[int]) -> dict[str, set[int]]:
    """For each defect seen what brought it on."""
    sights: dict[str, set[int]] = {}
    unknown = random.random(len(net.defects))
    for luck, (defect, node) in zip(unknown, net.defects.items(), strict=True):
        causes = {c for c in alive & node.links.keys() if random.random() < node.links[c][0]}
        if luck < node.leak[0]:
            causes.add(UNKNOWN)
        if causes:
            sights[defect] = causes
    return sights


def _outcome(random: np.random.Generator, net: Network, check: str, alive: set[int]) -> str:
    node = net.checks[check]
    links = [node.leak, *(node.links[c] for c in sorted(alive & node.links.keys()))]
    return node.outcomes[max(_picked(random.random(), link) for link in links)]


def _picked(luck: float, chances: tuple[float, ...]) -> int:
    for level, chance in enumerate(chances, 1):
        if luck < chance:
            return level
        luck -= chance
    return 0
