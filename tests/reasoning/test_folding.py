"""Causes of a single loud finding: folding them into its leak loses nothing."""

from random import Random

import pytest
from mpmath import mp, mpf

from diagnose.reasoning.beliefs import believe
from diagnose.reasoning.evidence import Evidence, Tried
from diagnose.reasoning.factors import factors
from diagnose.reasoning.folding import fold
from diagnose.reasoning.network import Network
from tests.reasoning.enumeration import enumerate_all
from tests.reasoning.networks import furthest, plain


def test_the_folded_leak_is_the_chance_that_any_of_them_explains_the_finding() -> None:
    net = Network.of({"a": 0.1, "b": 0.2}, {"d": (0.05, {"a": 0.5, "b": 0.9})})
    given = factors(net, Evidence(seen=("d",)))
    b, c = fold(given, given.loud[0], [0, 1]).leak
    unexplained = 0.95 * (1 - 0.1 * 0.5) * (1 - 0.2 * 0.9)  # by hand, from the definition of a noisy-OR
    assert c == pytest.approx(unexplained, abs=1e-15)
    assert b == pytest.approx(1 - unexplained, abs=1e-15)


@pytest.mark.parametrize("causes", [1, 2, 7])
def test_a_finding_with_only_causes_of_its_own(causes: int) -> None:
    net = plain(Random(causes), causes, defects=1, each=causes)
    evidence = Evidence(seen=("d0",))
    truth = enumerate_all(net, evidence)
    beliefs = believe(net, evidence)
    assert furthest(beliefs.present, truth.present) < 1e-14
    assert furthest(beliefs.behind, truth.behind) < 1e-14
    assert beliefs.unknown == pytest.approx(truth.unknown, abs=1e-14)


def test_fixes_tried_on_folded_causes() -> None:
    base = plain(Random(4), causes=4, defects=1, each=4)
    cures = {"f": {0: 0.9, 1: 0.5}}
    net = Network(base.causes, base.priors, base.defects, {}, cures, base.index)
    evidence = Evidence(seen=("d0",), tried=(Tried("f"),))
    truth = enumerate_all(net, evidence)
    beliefs = believe(net, evidence)
    assert furthest(beliefs.alive, truth.alive) < 1e-14
    assert furthest(beliefs.present, truth.present) < 1e-14


def test_a_great_many_rare_causes_lose_no_digits() -> None:
    """The posterior of each of n like causes follows from the chance that any of them, or the leak, showed."""
    n, p, q, leak = 200, 1e-6, 0.5, 1e-6
    net = Network.of({f"c{i}": p for i in range(n)}, {"d": (leak, {f"c{i}": q for i in range(n)})})
    with mp.workdps(50):
        quiet = (1 - mpf(leak)) * (1 - mpf(p) * mpf(q)) ** n
        without = (1 - mpf(leak)) * (1 - mpf(p) * mpf(q)) ** (n - 1) * (1 - mpf(q))
        shown = float(mpf(p) * (1 - without) / (1 - quiet))
    beliefs = believe(net, Evidence(seen=("d",)))
    assert beliefs.present == pytest.approx([shown] * n, rel=1e-13)
