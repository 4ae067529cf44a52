"""What figures say of causes, weighed exactly: beside enumeration, pyAgrum's soft evidence and other prior odds."""

from dataclasses import replace
from math import exp
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.reasoning.beliefs import believe
from diagnose.reasoning.evidence import Weighed
from diagnose.reasoning.network import Network
from diagnose.reasoning.reasons import decibans, findings, reasons
from tests.reasoning.enumeration import enumerate_all
from tests.reasoning.networks import PINNED, PINNED_EVIDENCE, furthest, plain, sights, story, with_checks
from tests.reasoning.peer_pyagrum import agrum

AGREES = 1e-12
RATIOS = st.floats(1 / 200, 200)


def weighed(net: Network, random: Random, periods: int = 1) -> tuple[Weighed, ...]:
    return tuple(
        Weighed("gap", cause, random.choice((200.0, 8.0, 0.3, 1 / 200)), random.randrange(periods))
        for cause in random.sample(net.causes, 3)
    )


@pytest.mark.parametrize("seed", range(6))
def test_figures_and_fixes_together_against_enumeration(seed: int) -> None:
    random = Random(seed)
    net = with_checks(random)
    evidence = story(random, net)
    evidence = replace(evidence, weighed=weighed(net, random, evidence.period + 1))
    truth, beliefs = enumerate_all(net, evidence), believe(net, evidence)
    assert furthest(beliefs.present, truth.present) < AGREES
    assert furthest(beliefs.alive, truth.alive) < AGREES
    assert furthest(beliefs.behind, truth.behind) < AGREES
    assert exp(beliefs.log_evidence) == pytest.approx(truth.evidence, rel=AGREES)


@pytest.mark.parametrize("seed", range(4))
def test_a_ratio_is_soft_evidence_in_pyagrum(seed: int) -> None:
    import pyagrum as gum

    random = Random(seed)
    net = plain(random, causes=7, defects=5, each=3)
    evidence = replace(sights(random, net, seen=3, not_seen=2), weighed=weighed(net, random))
    engine = gum.LazyPropagation(agrum(net))
    for d in (*evidence.seen, *evidence.not_seen):
        engine.addEvidence(d, int(d in evidence.seen))
    for one in evidence.weighed:
        engine.addEvidence(one.cause, [1.0, one.ratio])
    engine.makeInference()
    told = [engine.posterior(cause)[1] for cause in net.causes]
    assert furthest(believe(net, evidence).present, told) < AGREES


@settings(max_examples=30, deadline=None)
@given(ratio=RATIOS, cause=st.integers(0, 2))
def test_a_ratio_is_the_same_as_other_prior_odds(ratio: float, cause: int) -> None:
    odds = PINNED.priors[cause] / (1.0 - PINNED.priors[cause]) * ratio
    moved = [*PINNED.priors]
    moved[cause] = odds / (1.0 + odds)
    one = believe(PINNED, replace(PINNED_EVIDENCE, weighed=(Weighed("gap", PINNED.causes[cause], ratio),)))
    assert one.present == pytest.approx(
        believe(replace(PINNED, priors=tuple(moved)), PINNED_EVIDENCE).present, abs=1e-12
    )


@settings(max_examples=30, deadline=None)
@given(ratio=RATIOS)
def test_a_figure_moves_the_odds_of_its_cause_by_its_ratio_whatever_else_was_seen(ratio: float) -> None:
    evidence = replace(PINNED_EVIDENCE, weighed=(Weighed("gap", "c1", ratio),))
    before, after = believe(PINNED, PINNED_EVIDENCE), believe(PINNED, evidence)
    assert decibans(after.present[0]) - decibans(before.present[0]) == pytest.approx(decibans_of(ratio), abs=1e-9)
    own = reasons(PINNED, evidence, after, [0])[0]
    told = [reason.weight for reason in own if reason.finding.kind == "reading"]
    assert sum(told) == pytest.approx(decibans_of(ratio), abs=0.051)  # what moves nothing is left out


def decibans_of(ratio: float) -> float:
    return decibans(ratio / (1.0 + ratio))


def test_a_cause_that_cannot_be_there_stays_out_whatever_a_figure_says() -> None:
    net = replace(PINNED, priors=(0.0, *PINNED.priors[1:]))
    assert believe(net, replace(PINNED_EVIDENCE, weighed=(Weighed("gap", "c1", 200.0),))).present[0] == 0.0


def test_without_a_fix_what_was_read_after_it_moves_a_period_forward() -> None:
    random = Random(3)
    net = with_checks(random)
    evidence = story(random, net)
    evidence = replace(evidence, weighed=(Weighed("gap", net.causes[0], 8.0, evidence.period),))
    left = [without for finding, without in findings(evidence) if finding.kind == "tried"]
    assert left
    assert all(without.weighed[0].period == without.period for without in left)
