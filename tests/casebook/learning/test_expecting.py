"""The E-step beside the beliefs, beside enumeration, and beside pyAgrum with a variable for every firing."""

from dataclasses import replace
from math import log
from random import Random

import numpy as np
import pyagrum as gum
import pytest
from hypothesis import given

from diagnose.casebook.learning.expecting import Expected, expect
from diagnose.casebook.learning.jobs import known
from diagnose.casebook.learning.numbers import Cure, Link
from diagnose.reasoning.beliefs import believe
from diagnose.reasoning.evidence import Evidence, Weighed
from diagnose.reasoning.network import Network
from tests.casebook.learning.enumerated import Sums, expected
from tests.casebook.learning.wired import nets, tables, wired
from tests.reasoning.networks import plain, sights, story, with_checks
from tests.reasoning.strategies import cases, inner

AGREES = 1e-11


def expect_one(net: Network, evidence: Evidence, count: float = 1.0) -> Expected:
    parameters, wiring = wired(net)
    return expect(tables([(evidence, count)], parameters, wiring), nets(wiring), parameters.shipped)


def as_learnt(net: Network, evidence: Evidence) -> Evidence:
    """The evidence with every defect that was not told of as not seen."""
    _, wiring = wired(net)
    told = known(evidence, wiring)
    return replace(told, not_seen=tuple(defect for defect in wiring.defects if defect not in told.seen))


def agree(net: Network, found: Expected, sums: Sums) -> None:
    parameters, _ = wired(net)
    assert found.log_likelihood == pytest.approx(log(sums.chance), abs=1e-9)
    assert found.there[0] == pytest.approx([sums.there[i] for i in range(len(net.causes))], abs=AGREES)
    for link, place in parameters.at.items():
        if isinstance(link, Link):
            cause = net.index[link.cause]
            levels = range(1, found.loud.shape[1] + 1)
            assert found.quiet[place] == pytest.approx(sums.quiet[link.finding, cause], abs=AGREES)
            assert found.loud[place] == pytest.approx([sums.loud[link.finding, cause, x] for x in levels], abs=AGREES)
            assert found.fired[place] == pytest.approx([sums.fired[link.finding, cause, x] for x in levels], abs=AGREES)
        elif isinstance(link, Cure):
            cause = net.index[link.cause]
            assert found.tried[place] == pytest.approx(sums.tried[link.fix, cause], abs=AGREES)
            assert found.cured[place] == pytest.approx(sums.cured[link.fix, cause], abs=AGREES)


@pytest.mark.parametrize("seed", range(40))
def test_everything_hidden_against_enumeration(seed: int) -> None:
    random = Random(seed)
    net = with_checks(random)
    evidence = story(random, net)
    agree(net, expect_one(net, evidence), expected(net, as_learnt(net, evidence)))


@given(cases(inner))
def test_any_case_against_enumeration(case: tuple[Network, Evidence]) -> None:
    net, evidence = case
    once = {fix: tried for tried in evidence.tried for fix in [tried.fix]}
    gone = [defect for tried in evidence.tried for defect in tried.gone]
    # the sums are by fix: one tried twice has two turns there; and nothing goes away twice
    if len(once) == len(evidence.tried) and len(gone) == len(set(gone)):
        agree(net, expect_one(net, evidence), expected(net, as_learnt(net, evidence)))


@pytest.mark.parametrize("seed", range(24))
def test_figures_against_enumeration(seed: int) -> None:
    random = Random(seed)
    net = with_checks(random)
    evidence = with_figures(random, net, story(random, net))
    agree(net, expect_one(net, evidence), expected(net, as_learnt(net, evidence)))


def with_figures(random: Random, net: Network, evidence: Evidence) -> Evidence:
    """The evidence with what figures say of some causes, each read before, between or after the fixes."""
    causes = random.sample(net.causes, 3)
    periods = [random.randrange(evidence.period + 1) for _ in causes]
    pairs = zip(causes, periods, strict=True)
    weighed = tuple(Weighed("gap", cause, random.choice((200.0, 7.0, 0.2)), period) for cause, period in pairs)
    return replace(evidence, weighed=weighed)


@pytest.mark.parametrize("seed", range(20))
def test_presence_and_likelihood_are_those_of_the_sweep(seed: int) -> None:
    random = Random(seed)
    net = plain(random, causes=14, defects=8, each=5)
    evidence = sights(random, net, seen=5, not_seen=0)
    found, beliefs = expect_one(net, evidence), believe(net, as_learnt(net, evidence))
    assert found.there[0] == pytest.approx(beliefs.present, abs=AGREES)
    assert found.log_likelihood == pytest.approx(beliefs.log_evidence, abs=1e-10)


@pytest.mark.parametrize("seed", range(8))
def test_firings_against_pyagrum(seed: int) -> None:
    random = Random(seed)
    net = plain(random, causes=5, defects=4, each=3)
    evidence = as_learnt(net, sights(random, net, seen=2, not_seen=0))
    found = expect_one(net, evidence)
    parameters, _ = wired(net)
    there, fired = _agrum_firings(net, evidence)
    assert found.there[0] == pytest.approx(there, abs=AGREES)
    for (defect, cause), chance in fired.items():
        place = parameters.at[Link(defect, net.causes[cause])]
        assert found.fired[place, 0] == pytest.approx(chance if defect in evidence.seen else 0.0, abs=AGREES)


def _agrum_firings(net: Network, evidence: Evidence) -> tuple[list[float], dict[tuple[str, int], float]]:
    """Causes, a variable for each firing of a link and each leak, and defects that are the plain OR of these."""
    bn = gum.BayesNet()
    for cause, prior in zip(net.causes, net.priors, strict=True):
        bn.add(gum.LabelizedVariable(cause, cause, 2))
        bn.cpt(cause).fillWith([1.0 - prior, prior])
    for defect, node in net.defects.items():
        bn.addOR(gum.LabelizedVariable(defect, defect, 2))
        bn.add(gum.LabelizedVariable(f"leak {defect}", "", 2))
        bn.cpt(f"leak {defect}").fillWith([1.0 - node.leak[0], node.leak[0]])
        bn.addArc(f"leak {defect}", defect)
        for i, (strength,) in node.links.items():
            name = f"{defect} by {net.causes[i]}"
            bn.add(gum.LabelizedVariable(name, name, 2))
            bn.addArc(net.causes[i], name)
            bn.cpt(name)[{net.causes[i]: 0}] = [1.0, 0.0]
            bn.cpt(name)[{net.causes[i]: 1}] = [1.0 - strength, strength]
            bn.addArc(name, defect)
    engine = gum.LazyPropagation(bn)
    for defect in net.defects:
        engine.addEvidence(defect, int(defect in evidence.seen))
    engine.makeInference()
    fired = {
        (d, i): engine.posterior(f"{d} by {net.causes[i]}")[1] for d, node in net.defects.items() for i in node.links
    }
    return [engine.posterior(cause)[1] for cause in net.causes], fired


def test_a_pattern_that_stands_for_many_counts_as_many() -> None:
    random = Random(3)
    net = with_checks(random)
    evidence = story(random, net)
    one, seven = expect_one(net, evidence), expect_one(net, evidence, count=7.0)
    for name in ("there", "cases", "quiet", "loud", "fired", "tried", "cured"):
        assert 7.0 * getattr(one, name) == pytest.approx(getattr(seven, name), rel=1e-12, abs=1e-12)
    assert seven.log_likelihood == pytest.approx(7.0 * one.log_likelihood, rel=1e-12)


def test_cases_taken_off_leave_what_there_was() -> None:
    random = Random(4)
    net = with_checks(random)
    parameters, wiring = wired(net)
    kept, gone = story(random, net), story(random, net)
    both = tables([(kept, 2.0), (gone, 1.0), (gone, -1.0)], parameters, wiring)
    left, alone = (
        expect(t, nets(wiring), parameters.shipped) for t in (both, tables([(kept, 2.0)], parameters, wiring))
    )
    for name in ("there", "cases", "quiet", "loud", "fired", "tried", "cured"):
        assert np.allclose(getattr(left, name), getattr(alone, name), atol=1e-12)
