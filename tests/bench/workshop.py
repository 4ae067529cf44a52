"""A spoiled press to practise on: causes that are there, what they bring on, what checks show and fixes cure.

All that can happen is settled by the case's number before anybody acts, so that different ways of going about
it meet the same press: the same check shows the same, the same fix cures the same.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from random import Random

from diagnose.dialogue.moves import TriedFix
from diagnose.knowledge.model import Item, Knowledge
from diagnose.knowledge.shop import Rates
from diagnose.reasoning.evidence import BETTER, SAME
from diagnose.reasoning.factors import FADED, FANCIED, IMPROVES
from diagnose.reasoning.network import Network, network

UNKNOWN = -1  # in place of a cause: something the rules do not know


@dataclass
class Press:
    """One spoiled press. ``sights``: for each defect seen, the causes that brought it on. ``minutes`` and
    ``money`` grow with every step; ``helped`` says whether help was called. ``wrong``: the share of looks at a check
    that come out wrong, each by itself; ``looked`` counts them."""

    number: str
    knowledge: Knowledge
    rates: Rates
    item: Item
    net: Network
    alive: set[int]
    sights: Mapping[str, frozenset[int]]
    minutes: float = 0.0
    money: float = 0.0
    tested: bool = False
    helped: bool = False
    wrong: float = 0.0
    looked: Counter[str] = field(default_factory=Counter)

    def luck(self, *about: object) -> float:
        """A number from 0 to 1 that is always the same for the same thing."""
        return Random(" ".join(map(str, (self.number, *about)))).random()

    @property
    def left(self) -> list[str]:
        """The defects that are still there."""
        return [defect for defect, causes in self.sights.items() if causes & self.alive or self._lasts(defect)]

    def _lasts(self, defect: str) -> bool:
        """Whether something unknown keeps this defect up; some of that goes with the first test press."""
        return UNKNOWN in self.sights[defect] and not (self.tested and self.fades(defect))

    def fades(self, defect: str) -> bool:
        """Whether this defect, if unexplained, goes away by itself."""
        return self.luck("fades", defect) < FADED

    def price(self, fix_id: str) -> float:
        """What a fix costs, the test press included."""
        fix = self.knowledge.fixes[fix_id]
        own = self.rates.price(fix.minutes, fix.spends, self.item, fix.waits)
        return own + self.rates.test_press(self.item)

    def check(self, check_id: str) -> str:
        """Look, pay, and say what shows."""
        check = self.knowledge.checks[check_id]
        self._spend(check.minutes + self.rates.asking, self.rates.check_price(check, self.item))
        node = self.net.checks.get(check_id)
        if node is None:  # a check that does not fit what the goods truly are: there is nothing to see
            return self._taken(check_id, [outcome.id for outcome in check.outcomes], 0)
        levels = [_level(node.leak, self.luck(check_id))]
        levels += [_level(node.links[c], self.luck(check_id, c)) for c in self.alive if c in node.links]
        return self._taken(check_id, node.outcomes, max(levels))

    def _taken(self, check_id: str, outcomes: Sequence[str], shows: int) -> str:
        """What the person takes it for: now and then another outcome than the one that shows."""
        self.looked[check_id] += 1
        look = self.looked[check_id]
        if self.luck("wrong", check_id, look) >= self.wrong:
            return outcomes[shows]
        others = [outcome for at, outcome in enumerate(outcomes) if at != shows]
        return others[int(self.luck("taken for", check_id, look) * len(others))]

    def fix(self, fix_id: str) -> TriedFix | None:
        """Do it, press a test piece, pay, and say what has changed; None where the print is good."""
        fix = self.knowledge.fixes[fix_id]
        self._spend(fix.minutes + self.rates.test_minutes(self.item), self.price(fix_id))
        before = self.left
        put_right = {
            c for c, cure in self.net.cures.get(fix_id, {}).items() if self.luck(fix_id, c) < cure
        } & self.alive
        self.alive -= put_right
        self.tested = True
        if not self.left:
            return None
        gone = tuple(defect for defect in before if defect not in self.left)
        return TriedFix(fix_id, BETTER if gone or self._seems_better(fix_id, put_right) else SAME, gone)

    def _seems_better(self, fix_id: str, put_right: set[int]) -> bool:
        noticed = {c for c in put_right if any(c in self.net.defects[defect].links for defect in self.sights)}
        return self.luck("change", fix_id) >= (1.0 - FANCIED) * (1.0 - IMPROVES) ** len(noticed)

    def call(self) -> None:
        """Help comes, and the print is good."""
        self._spend(self.rates.help_minutes, self.rates.call())
        self.helped = True

    def _spend(self, minutes: float, money: float) -> None:
        self.minutes += minutes
        self.money += money


def _level(chances: tuple[float, ...], luck: float) -> int:
    """The level picked: the k-th with chance k - 1, else 0."""
    for level, chance in enumerate(chances, 1):
        if luck < chance:
            return level
        luck -= chance
    return 0


def spoiled(number: int, knowledge: Knowledge, rates: Rates) -> Press:
    """A press drawn from the rules as they stand, given that some defect is seen: any causes at once, each as
    often as it turns up in such a job, and unexplained sights besides."""
    random = Random(f"spoiled {number}")
    while True:
        item = random.choice(list(knowledge.items.values()))
        net = network(knowledge, item.facts)
        alive = {cause for cause, prior in enumerate(net.priors) if random.random() < prior}
        sights = _sights(random, net, alive, unexplained=True)
        if sights:
            return Press(f"spoiled {number}", knowledge, rates, item, net, alive, sights)


def spoiled_by_one(number: int, knowledge: Knowledge, rates: Rates) -> Press:
    """A press with one thing wrong: a cause as often as it turns up in such a job, and what it brings on."""
    random = Random(f"one cause {number}")
    while True:
        item = random.choice(list(knowledge.items.values()))
        net = network(knowledge, item.facts)
        alive = set(random.choices(range(len(net.priors)), weights=net.priors))
        sights = _sights(random, net, alive, unexplained=False)
        if sights:
            return Press(f"one cause {number}", knowledge, rates, item, net, alive, sights)


def _sights(random: Random, net: Network, alive: set[int], *, unexplained: bool) -> dict[str, frozenset[int]]:
    sights = {}
    for defect, node in net.defects.items():
        causes = {cause for cause in sorted(alive & set(node.links)) if random.random() < node.links[cause][0]}
        if random.random() < node.leak[0] and unexplained:
            causes.add(UNKNOWN)
        if causes:
            sights[defect] = frozenset(causes)
    return sights
