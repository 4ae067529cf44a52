"""The sweep itself: its plan, and that lists and arrays compute the same."""

from random import Random
from typing import cast

import numpy as np
import pytest

from diagnose.reasoning import arraywise, listwise
from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.factors import factors
from diagnose.reasoning.network import Network
from diagnose.reasoning.pulls import Pull
from diagnose.reasoning.sweep import Arithmetic, Close, Open, Pass, Weights, plan, sweep
from tests.reasoning.networks import furthest, plain, story, with_checks

LISTS, ARRAYS = cast(Arithmetic, listwise), cast(Arithmetic, arraywise)


def width(net: Network, *seen: str) -> int:
    given = factors(net, Evidence(seen=seen))
    return plan(given, given.loud)[1]


@pytest.mark.parametrize("seed", range(12))
def test_lists_and_arrays_agree(seed: int) -> None:
    random = Random(seed)
    net = plain(random, causes=14, defects=10, each=6)
    given = factors(net, Evidence(seen=tuple(net.defects)))
    steps, _ = plan(given, given.loud)
    by_lists, by_arrays = sweep(given, steps, LISTS), sweep(given, steps, ARRAYS)
    assert furthest(by_lists.alive, by_arrays.alive) < 1e-12
    assert furthest(by_lists.behind, by_arrays.behind) < 1e-12
    assert by_lists.unknown == pytest.approx(by_arrays.unknown, abs=1e-12)
    assert by_lists.log_evidence == pytest.approx(by_arrays.log_evidence, abs=1e-12)


@pytest.mark.parametrize("seed", range(12))
def test_lists_and_arrays_agree_on_whole_cases(seed: int) -> None:
    random = Random(seed)
    net = with_checks(random)
    given = factors(net, story(random, net))
    steps, _ = plan(given, given.loud)
    by_lists, by_arrays = sweep(given, steps, LISTS), sweep(given, steps, ARRAYS)
    assert furthest(by_lists.alive, by_arrays.alive) < 1e-12
    assert furthest(by_lists.present, by_arrays.present) < 1e-12
    assert furthest(by_lists.behind, by_arrays.behind) < 1e-12


@pytest.mark.parametrize("arithmetic", [LISTS, ARRAYS], ids=["lists", "arrays"])
@pytest.mark.parametrize("positions", [(), (0,), (2, 5), (0, 1, 2, 3), (4, 5, 6), tuple(range(11))])
def test_going_back_is_the_adjoint_of_going_forth(arithmetic: Arithmetic, positions: tuple[int, ...]) -> None:
    """The inner product of v with M f is that of M' v with f, for any linear M."""
    random = Random(1)
    f: Weights = [random.random() for _ in range(2**11)]
    v: Weights = [random.random() for _ in range(2**11)]
    if arithmetic is ARRAYS:
        f, v = np.array(f), np.array(v)
    moves = tuple((at, Pull(random.random() / 2, random.random() / 2)) for at in positions)
    forth = arithmetic.dot(arithmetic.forth(f, moves), v)
    assert forth == pytest.approx(arithmetic.dot(f, arithmetic.back(v, moves)), rel=1e-12)


def test_a_finding_is_open_only_while_its_shared_causes_pass() -> None:
    chain = Network.of(
        {f"c{i}": 0.1 for i in range(30)},
        {f"d{i}": (0.01, {f"c{i}": 0.5, f"c{i + 1}": 0.5}) for i in range(29)},
    )
    assert width(chain, *chain.defects) == 2


def test_findings_that_share_no_cause_never_multiply() -> None:
    apart = Network.of(
        {f"c{i}": 0.1 for i in range(60)},
        {f"d{i}": (0.01, {f"c{3 * i}": 0.5, f"c{3 * i + 1}": 0.5, f"c{3 * i + 2}": 0.5}) for i in range(20)},
    )
    assert width(apart, *apart.defects) == 1


def test_only_shared_causes_are_passed_and_every_finding_opens_and_closes_once() -> None:
    net = Network.of(
        {"both": 0.1, "one": 0.1, "other": 0.1},
        {"d1": (0.01, {"both": 0.5, "one": 0.5}), "d2": (0.01, {"both": 0.5, "other": 0.5})},
    )
    given = factors(net, Evidence(seen=("d1", "d2")))
    steps, _ = plan(given, given.loud)
    assert [step.cause for step in steps if isinstance(step, Pass)] == [0]
    assert sorted(step.fold.loud.id for step in steps if isinstance(step, Open)) == ["d1", "d2"]
    assert sum(isinstance(step, Close) for step in steps) == 2


def test_everything_linked_to_everything_is_as_wide_as_there_are_findings() -> None:
    net = plain(Random(3), causes=6, defects=9, each=6)
    assert width(net, *net.defects) == 9
