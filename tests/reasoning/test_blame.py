"""Who was behind it, looked back on: against enumeration of every state, and against the beliefs while it goes on."""

from dataclasses import replace
from itertools import product
from math import prod
from random import Random

import pytest

from diagnose.reasoning.beliefs import believe
from diagnose.reasoning.blame import LEAST, blame
from diagnose.reasoning.bounds import Division
from diagnose.reasoning.evidence import Evidence, Tried
from diagnose.reasoning.network import Network
from tests.reasoning.networks import sights, with_checks


def a_net() -> Network:
    return Network.of(
        {"cool": 0.3, "short": 0.2, "damp": 0.1},
        {"pale": (0.01, {"cool": 0.8, "short": 0.6}), "blotchy": (0.02, {"damp": 0.7, "cool": 0.1})},
    )


def by_hand(net: Network, seen: tuple[str, ...]) -> tuple[dict[str, float], float]:
    """The chance that each cause, or the leak, is behind one of the sights, by going through every state."""
    behind = dict.fromkeys(net.causes, 0.0)
    total = leaked = 0.0
    for state in product((False, True), repeat=len(net.causes)):
        weight = prod(p if there else 1 - p for there, p in zip(state, net.priors, strict=True))
        there = [i for i, is_there in enumerate(state) if is_there]
        whole = prod(1 - silence(net, d, there) * (1 - net.defects[d].leak[0]) for d in seen)
        total += weight * whole
        leaked += weight * (whole - prod((1 - net.defects[d].leak[0]) * (1 - silence(net, d, there)) for d in seen))
        for i in there:
            others = [other for other in there if other != i]
            idle = prod(
                silence(net, d, [i]) * (1 - silence(net, d, others) * (1 - net.defects[d].leak[0])) for d in seen
            )
            behind[net.causes[i]] += weight * (whole - idle)
    return {cause: chance / total for cause, chance in behind.items()}, leaked / total


def silence(net: Network, defect: str, causes: list[int]) -> float:
    """The chance that none of these causes brings the defect on."""
    links = net.defects[defect].links
    return prod(1 - links[i][0] for i in causes if i in links)


@pytest.mark.parametrize("seen", [("pale",), ("blotchy",), ("pale", "blotchy")])
def test_blame_is_what_going_through_every_state_gives(seen: tuple[str, ...]) -> None:
    net = a_net()
    found, unknown = by_hand(net, seen)
    result = blame(net, Evidence(seen))
    assert result.unknown == pytest.approx(unknown)
    for cause, chance in result.causes.items():
        assert chance == pytest.approx(found[cause])


@pytest.mark.parametrize("number", range(20))
def test_while_nothing_was_tried_it_is_the_belief_of_being_behind(number: int) -> None:
    random = Random(number)
    net = with_checks(random)
    evidence = sights(random, net, seen=2, not_seen=1)
    beliefs, result = believe(net, evidence), blame(net, evidence)
    for cause, chance in result.causes.items():
        assert chance == pytest.approx(beliefs.behind[net.index[cause]], abs=1e-12)
    assert list(result.causes.values()) == sorted(result.causes.values(), reverse=True)
    missing = set(net.causes) - set(result.causes)
    assert all(beliefs.behind[net.index[cause]] <= LEAST for cause in missing)


def test_a_cure_lays_it_to_what_the_fix_puts_right() -> None:
    net = replace(a_net(), cures={"heat-it": {0: 0.9}, "dwell-on": {1: 0.9}})
    before = blame(net, Evidence(("pale",)))
    cured = blame(net, Evidence(("pale",), tried=(Tried("dwell-on", "", ("pale",)),)))
    assert next(iter(before.causes)) == "cool"
    assert next(iter(cured.causes)) == "short"
    assert cured.causes["short"] > 0.9


def test_past_the_width_whoever_was_there_is_behind_it(monkeypatch: pytest.MonkeyPatch) -> None:
    net, evidence = a_net(), Evidence(seen=("pale",))
    monkeypatch.setattr("diagnose.reasoning.blame.division", lambda given: Division((), given.loud))
    found = blame(net, evidence)
    present = believe(net, evidence).present
    assert found.unknown == 0.0
    assert list(found.causes.items()) == [("cool", present[0]), ("short", present[1])]
