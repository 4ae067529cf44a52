"""What must be expected of everything hidden, by going through every state of every cause.

Shares no code with what it judges but the enumeration of states that the beliefs are judged by.
"""

from collections import defaultdict
from dataclasses import dataclass, field
from math import prod
from typing import TypeVar

from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.factors import FADED
from diagnose.reasoning.network import FindingNode, Network
from tests.reasoning.enumeration import ABSENT, ALIVE, State, lasting_chance, other_chance, reach, states

Key = tuple[str, int]  # of a finding or fix, and a cause
By = TypeVar("By")


@dataclass
class Sums:
    """``loud`` and ``fired``: by finding, cause and level; the rest by finding or fix, and cause."""

    chance: float = 0.0
    there: dict[int, float] = field(default_factory=lambda: defaultdict(float))
    quiet: dict[Key, float] = field(default_factory=lambda: defaultdict(float))
    loud: dict[tuple[str, int, int], float] = field(default_factory=lambda: defaultdict(float))
    fired: dict[tuple[str, int, int], float] = field(default_factory=lambda: defaultdict(float))
    tried: dict[Key, float] = field(default_factory=lambda: defaultdict(float))
    cured: dict[Key, float] = field(default_factory=lambda: defaultdict(float))


def expected(net: Network, evidence: Evidence) -> Sums:
    """The sums for one case, all given the evidence. ``chance`` is that of the evidence."""
    sums = Sums()
    for state, prior in states(net, evidence):
        seen = prod(lasting_chance(net.defects[d], state) for d in evidence.left)
        weight = prior * seen * other_chance(net, evidence, state)
        if weight:
            sums.chance += weight
            _add(sums, net, evidence, state, weight)
    _share_out(sums.there, sums.chance)
    for each in (sums.quiet, sums.tried, sums.cured):
        _share_out(each, sums.chance)
    for levels in (sums.loud, sums.fired):
        _share_out(levels, sums.chance)
    return sums


def _share_out(sums: dict[By, float], chance: float) -> None:
    for key in sums:
        sums[key] /= chance


def _add(sums: Sums, net: Network, evidence: Evidence, state: State, weight: float) -> None:
    there = [i for i, death in enumerate(state) if death != ABSENT]
    for i in there:
        sums.there[i] += weight
    for defect in evidence.not_seen:
        for i in set(there) & set(net.defects[defect].links):
            sums.quiet[defect, i] += weight
    for defect in evidence.left:
        _add_loud(sums, net.defects[defect], 1, state, len(evidence.tried), weight)
    for check, (outcome, period) in evidence.answers.items():
        node, level = net.checks[check], net.checks[check].outcomes.index(outcome)
        if level:
            _add_loud(sums, node, level, state, period, weight)
        else:
            for i in node.links:
                sums.quiet[check, i] += weight * (state[i] > period)
    for number, tried in enumerate(evidence.tried, 1):
        for i in net.cures.get(tried.fix, {}):
            sums.tried[tried.fix, i] += weight * (state[i] >= number)
            sums.cured[tried.fix, i] += weight * (state[i] == number)
    went = {defect: number for number, tried in enumerate(evidence.tried, 1) for defect in tried.gone}
    for defect, number in went.items():
        if defect in evidence.seen:
            _add_gone(sums, net.defects[defect], number, state, weight)


def _add_loud(sums: Sums, node: FindingNode, level: int, state: State, period: int, weight: float) -> None:
    there = [i for i in node.links if state[i] > period]
    shown = reach(node, there, level) - reach(node, there, level - 1)
    for i in there:
        others = [j for j in there if j != i]
        sums.loud[node.id, i, level] += weight
        sums.fired[node.id, i, level] += weight * node.links[i][level - 1] * reach(node, others, level) / shown


def _add_gone(sums: Sums, node: FindingNode, number: int, state: State, weight: float) -> None:
    """Gone with a fix: causes that outlived it were silent; of those it put right, or the leak, one had spoken."""
    leak = node.leak[0]
    dead = [i for i in node.links if state[i] == number]
    idle = prod(1.0 - node.links[i][0] for i in dead)
    explained = (1.0 - leak) * (1.0 - idle) + leak * FADED
    for i in node.links:
        if state[i] >= number:
            sums.loud[node.id, i, 1] += weight
    for i in dead:
        sums.fired[node.id, i, 1] += weight * node.links[i][0] * ((1.0 - leak) + leak * FADED) / explained


__all__ = ["ALIVE", "Sums", "expected"]
