"""Posteriors by going through every state of every cause, straight from what the observations mean.

Shares no code with what it judges. A cause is absent, put right by the n-th fix (n), or present to this day.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from math import prod

from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.factors import FADED, FANCIED, IMPROVES
from diagnose.reasoning.network import FindingNode, Network

ABSENT, ALIVE = 0, 99
State = tuple[int, ...]  # one entry a cause: ABSENT, the number of the fix that put it right, or ALIVE


@dataclass(frozen=True)
class Truth:
    alive: list[float]
    present: list[float]
    behind: list[float]
    unknown: float
    evidence: float


def enumerate_all(net: Network, evidence: Evidence) -> Truth:
    """Every posterior that ``believe`` gives, and the probability of the evidence."""
    count = len(net.causes)
    alive, present, behind = [0.0] * count, [0.0] * count, [0.0] * count
    total = unknown = 0.0
    for state, prior in states(net, evidence):
        seen = {d: lasting_chance(net.defects[d], state) for d in evidence.left}
        rest = prior * other_chance(net, evidence, state)
        weight = rest * prod(seen.values())
        total += weight
        for i, death in enumerate(state):
            present[i] += weight * (death != ABSENT)
            alive[i] += weight * (death == ALIVE)
            if death == ALIVE:
                idle = prod(lasting_chance(net.defects[d], state, idle=i) for d in evidence.left)
                behind[i] += weight - rest * idle
        for d in evidence.left:
            others = prod(chance for other, chance in seen.items() if other != d)
            unknown += rest * others * net.defects[d].leak[0]
    share = 1.0 / total if total else 0.0
    return Truth(
        [x * share for x in alive],
        [x * share for x in present],
        [x * share for x in behind],
        unknown * share,
        total,
    )


def states(net: Network, evidence: Evidence) -> Iterator[tuple[State, float]]:
    """Every joint state of the causes, with its probability before anything was observed."""
    own = []
    for cause, prior in enumerate(net.priors):
        left = prior
        mine = [(ABSENT, 1.0 - prior)]
        for number, tried in enumerate(evidence.tried, 1):
            cure = net.cures.get(tried.fix, {}).get(cause, 0.0)
            if cure:
                mine.append((number, left * cure))
                left *= 1.0 - cure
        own.append([*mine, (ALIVE, left)])
    for combination in product(*own):
        yield tuple(death for death, _ in combination), prod(chance for _, chance in combination)


def reach(node: FindingNode, there: list[int], level: int) -> float:
    """The chance that the leak and the causes that are there all pick this level or a lower one."""
    quiet = 1.0 - sum(node.leak[level:])
    for cause in there:
        if cause in node.links:
            quiet *= 1.0 - sum(node.links[cause][level:])
    return quiet


def lasting_chance(node: FindingNode, state: State, idle: int = -1) -> float:
    """The chance that a defect is still seen, and, where a cause is to be idle, not brought on by it."""
    there = [i for i, death in enumerate(state) if death == ALIVE and i != idle]
    seen = 1.0 - reach(node, there, 0)
    return seen * (1.0 - node.links[idle][0]) if idle in node.links else seen


def other_chance(net: Network, evidence: Evidence, state: State) -> float:
    """The chance of all that was observed but the defects still seen."""
    result = 1.0
    for d in evidence.not_seen:
        result *= reach(net.defects[d], [i for i, death in enumerate(state) if death != ABSENT], 0)
    for check, (outcome, period) in evidence.answers.items():
        node = net.checks[check]
        there = [i for i, death in enumerate(state) if death > period]
        level = node.outcomes.index(outcome)
        result *= reach(node, there, level) - (reach(node, there, level - 1) if level else 0.0)
    for one in evidence.weighed:  # only the ratio of the two matters; the larger of them counts 1
        death = state[net.index[one.cause]]
        result *= min(1.0, one.ratio) if death > one.period else min(1.0, 1.0 / one.ratio)
    for number, tried in enumerate(evidence.tried, 1):
        for d in set(tried.gone) & set(evidence.seen):
            result *= gone_chance(net.defects[d], state, number)
        if tried.change:
            result *= change_chance(net, evidence, state, number)
    return result


def gone_chance(node: FindingNode, state: State, number: int) -> float:
    """Seen before the fix and not after it: the causes that outlived it are silent, and either the leak was
    silent too and a cause it put right had brought the defect on, or the leak had, and it faded."""
    silent = prod(1.0 - node.links[i][0] for i, death in enumerate(state) if death > number and i in node.links)
    idle = prod(1.0 - node.links[i][0] for i, death in enumerate(state) if death == number and i in node.links)
    leak = node.leak[0]
    return silent * ((1.0 - leak) * (1.0 - idle) + leak * FADED)


def change_chance(net: Network, evidence: Evidence, state: State, number: int) -> float:
    """Better is noticed for each cause put right that could show in what was seen, or merely fancied."""
    showing = {i for d in evidence.seen for i in net.defects[d].links}
    right = sum(1 for i, death in enumerate(state) if death == number and i in showing)
    same = (1.0 - FANCIED) * (1.0 - IMPROVES) ** right
    return same if evidence.tried[number - 1].change == "same" else 1.0 - same
