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
from itertools import islice
from random import Random

import numpy as np
from numpy.typing import NDArray

from diagnose.casebook.case import Case
from diagnose.dialogue.moves import Answered, Cured, HandedOver, Move, Pressed, Saw, TriedFix
from diagnose.dialogue.session import Session
from diagnose.knowledge.model import Cause, Chance, Check, Knowledge, Outcome
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
KNOWN = 0.3  # of the shipped leaks: this shop's presses go wrong for unknown reasons less often
AT_ONCE = 1000


def other_numbers(knowledge: Knowledge, seed: int, spread: float, uneven: float, causes: float) -> Knowledge:
    """The knowledge with every chance moved at random: in log odds with the standard deviation ``spread``, how often
    causes turn up with ``uneven``; ``causes`` of them at work in a press on average, and few unknown ones."""
    random = np.random.default_rng(seed)

    def moved(chance: Chance, by: float = 0.0, spread: float = spread) -> Chance:
        if not 0.0 < chance.value < 1.0:
            return chance
        odds = chance.value / (1.0 - chance.value) * np.exp(spread * random.standard_normal() + by)
        return Chance(float(odds / (1.0 + odds)))

    def turning_up(cause: Cause, by: float) -> Cause:
        by += uneven * random.standard_normal()  # all shapes of it alike
        shapes = tuple([replace(shape, turns_up=moved(shape.turns_up, by, 0.3)) for shape in cause.shapes])
        return replace(cause, turns_up=moved(cause.turns_up, by, 0.0), shapes=shapes)

    def outcomes(check: Check) -> tuple[Outcome, ...]:
        shown = [replace(o, shows={c: moved(v) for c, v in o.shows.items()}) for o in check.outcomes]
        sums = {c: sum(o.shows[c].value for o in shown if c in o.shows) for o in shown for c in o.shows}
        fitted = {c: max(1.0, total / 0.98) for c, total in sums.items()}
        return tuple(replace(o, shows={c: Chance(v.value / fitted[c]) for c, v in o.shows.items()}) for o in shown)

    moved_causes = {c.id: turning_up(c, 0.0) for c in knowledge.causes.values()}
    by = float(np.log(causes / sum(cause.turns_up.value for cause in moved_causes.values())))
    return replace(
        knowledge,
        causes={
            c.id: replace(
                c,
                turns_up=moved(c.turns_up, by, 0.0),
                shapes=tuple(replace(shape, turns_up=moved(shape.turns_up, by, 0.0)) for shape in c.shapes),
            )
            for c in moved_causes.values()
        },
        defects={
            d.id: replace(
                d,
                otherwise=Chance(d.otherwise.value * KNOWN),
                rules=tuple(replace(r, brings=moved(r.brings)) for r in d.rules),
            )
            for d in knowledge.defects.values()
        },
        checks={c.id: replace(c, outcomes=outcomes(c)) for c in knowledge.checks.values()},
        fixes={f.id: replace(f, cures={c: moved(v) for c, v in f.cures.items()}) for f in knowledge.fixes.values()},
    )


@dataclass
class Harbour:
    """``truth``: the shop's own numbers. ``tells``: how many sights are told, on average, where there are more.
    ``checks``: how many are made before the first fix."""

    knowledge: Knowledge
    seed: int
    spread: float = 0.8
    uneven: float = 1.2
    causes: float = 1.5
    tells: float = 1.3
    checks: int = 3
    _shipped: dict[str, Network] = field(default_factory=dict)
    _asked: dict[tuple[str, ...], list[str]] = field(default_factory=dict)
    _fixes: dict[object, list[str]] = field(default_factory=dict)

    @cached_property
    def truth(self) -> Knowledge:
        return other_numbers(self.knowledge, self.seed, self.spread, self.uneven, self.causes)

    @cached_property
    def _nets(self) -> Mapping[str, Network]:
        return {item: network(self.truth, self.knowledge.items[item].facts) for item in ITEMS}

    @cached_property
    def _brings(self) -> Mapping[str, Mapping[int, list[tuple[str, float]]]]:
        """By item and cause: the defects it brings on, and how surely."""
        result: dict[str, dict[int, list[tuple[str, float]]]] = {}
        for item, net in self._nets.items():
            result[item] = {cause: [] for cause in range(len(net.causes))}
            for defect, node in net.defects.items():
                for cause, (strength,) in node.links.items():
                    result[item][cause].append((defect, strength))
        return result

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
        for number, (_, moves) in enumerate(islice(self.stories(part), count)):
            ended = FIRST + timedelta(minutes=90 * number)
            identity = f"{int(ended.timestamp()):012x}{self.seed % 4096:04x}{number:016x}"
            luck = Random(number)
            took = {m.check: round(luck.gammavariate(4.0, 1.0), 1) for m in moves if isinstance(m, Answered)}
            press = PRESSES[number % 2]
            yield Case(id=identity, ended=ended, session=Session(moves), press=press, took=took)

    def stories(self, part: int = 0) -> Iterator[tuple[str, tuple[Move, ...]]]:
        """The item and the moves of one case after the other."""
        random, draws = Random(f"{self.seed} {part}"), np.random.default_rng([self.seed, 3, part])
        defects = list(self.knowledge.defects)
        leaks = {item: np.array([node.leak[0] for node in net.defects.values()]) for item, net in self._nets.items()}
        while True:
            luck = draws.random((AT_ONCE, len(self.truth.causes)))
            unknown = draws.random((AT_ONCE, len(defects)))
            for number in range(AT_ONCE):
                item = random.choice(ITEMS)
                alive = {int(c) for c in np.flatnonzero(luck[number] < self._priors[item])}
                sights = {defects[d]: {UNKNOWN} for d in np.flatnonzero(unknown[number] < leaks[item])}
                self._bring(random, item, alive, sights)
                if sights:
                    yield item, self._moves(random, item, alive, sights)

    def _bring(self, random: Random, item: str, alive: set[int], sights: dict[str, set[int]]) -> None:
        for cause in sorted(alive):
            for defect, strength in self._brings[item][cause]:
                if random.random() < strength:
                    sights.setdefault(defect, set()).add(cause)

    def _moves(self, random: Random, item: str, alive: set[int], sights: dict[str, set[int]]) -> tuple[Move, ...]:
        many = int(self.tells) + (random.random() < self.tells % 1.0)
        left = {d: sights[d] for d in sorted(sights, key=self._striking.__getitem__)[:many]}
        seen = tuple(sorted(left))
        moves: list[Move] = [Pressed(item), Saw(seen)]
        net = self._nets[item]
        moves += [Answered(check, _outcome(random, net, check, alive)) for check in self._checks(item, seen)]
        return (*moves, *self._tried(random, item, alive, left, moves))

    def _tried(
        self, random: Random, item: str, alive: set[int], left: dict[str, set[int]], moves: list[Move]
    ) -> Iterator[Move]:
        net, sights = self._nets[item], tuple(left)
        fading = {defect for defect in left if random.random() < FADED}
        for fix in self._likeliest(item, tuple(moves)):
            right = {cause for cause, cure in net.cures[fix].items() if cause in alive and random.random() < cure}
            alive -= right
            for defect in fading:
                left[defect].discard(UNKNOWN)
            left = {defect: causes - right for defect, causes in left.items()}
            gone = tuple(sorted(defect for defect, causes in left.items() if not causes))
            left = {defect: causes for defect, causes in left.items() if causes}
            fading &= left.keys()
            if not left:
                yield Cured(fix)
                return
            shown = [cause for cause in right if any(cause in net.defects[defect].links for defect in sights)]
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
            shares = (*(w / total for w in weights), 0.0)
            telling = {
                check: told(likelihoods(node, suspects, beliefs), shares)
                for check, node in net.checks.items()
                if node.links.keys() & set(suspects)
            }
            self._asked[seen] = sorted(telling, key=lambda check: (-telling[check], check))[: self.checks]
        return [check for check in self._asked[seen] if check in net.checks]

    def _likeliest(self, item: str, moves: tuple[Move, ...]) -> list[str]:
        """The fixes likeliest to put right what is behind the sights, by the shipped numbers."""
        key = (item, *[move.outcome if isinstance(move, Answered) else move.defects for move in moves[1:]])  # type: ignore[union-attr]
        if key not in self._fixes:
            net = self._net(item)
            beliefs = believe(net, Session(moves).evidence)
            chance = {f: sum(beliefs.behind[c] * p for c, p in cures.items()) for f, cures in net.cures.items()}
            self._fixes[key] = sorted(chance, key=lambda fix: (-chance[fix], fix))[:FIXES]
        return self._fixes[key]


def _outcome(random: Random, net: Network, check: str, alive: set[int]) -> str:
    node = net.checks[check]
    links = [node.leak, *[node.links[cause] for cause in sorted(alive) if cause in node.links]]
    return node.outcomes[max([_picked(random.random(), link) for link in links])]


def _picked(luck: float, chances: tuple[float, ...]) -> int:
    for level, chance in enumerate(chances, 1):
        if luck < chance:
            return level
        luck -= chance
    return 0
