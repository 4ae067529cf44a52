"""Our posteriors beside those of pyAgrum, of pgmpy, of plain enumeration and of 50-digit arithmetic."""

from math import exp, log
from random import Random

import pytest

from diagnose.reasoning.beliefs import believe
from diagnose.reasoning.evidence import Evidence
from tests.reasoning.enumeration import enumerate_all
from tests.reasoning.networks import (
    PINNED,
    PINNED_CHANCE,
    PINNED_EVIDENCE,
    PINNED_POSTERIORS,
    furthest,
    plain,
    sights,
    story,
    with_checks,
)
from tests.reasoning.peer_pgmpy import ask_pgmpy
from tests.reasoning.peer_pyagrum import agrum, agrum_with_leak_included, ask_agrum
from tests.reasoning.precise import precisely, signed_sum

# Doubles carry 1.1e-16; a product of some dozens of them strays by a few of that. Reached here: 5e-16.
AGREES = 1e-12


def test_the_pinned_network() -> None:
    beliefs = believe(PINNED, PINNED_EVIDENCE)
    assert beliefs.exact
    assert beliefs.present == pytest.approx(PINNED_POSTERIORS, abs=5e-9)  # printed to eight places
    assert exp(beliefs.log_evidence) == pytest.approx(PINNED_CHANCE, abs=5e-11)  # printed to ten


def test_both_conventions_of_the_leak_agree_on_it() -> None:
    beliefs = believe(PINNED, PINNED_EVIDENCE)
    apart, chance = ask_agrum(agrum(PINNED), PINNED, PINNED_EVIDENCE)
    included, same_chance = ask_agrum(agrum_with_leak_included(PINNED), PINNED, PINNED_EVIDENCE)
    assert furthest(beliefs.present, apart) < AGREES
    assert furthest(beliefs.present, included) < AGREES
    assert chance == pytest.approx(same_chance, rel=AGREES)
    assert exp(beliefs.log_evidence) == pytest.approx(chance, rel=AGREES)


def test_pgmpy_and_enumeration_and_fifty_digits_agree_on_it() -> None:
    beliefs = believe(PINNED, PINNED_EVIDENCE)
    assert furthest(beliefs.present, ask_pgmpy(PINNED, PINNED_EVIDENCE)) < AGREES
    assert furthest(beliefs.present, enumerate_all(PINNED, PINNED_EVIDENCE).present) < AGREES
    assert furthest(beliefs.present, precisely(PINNED, PINNED_EVIDENCE)[0]) < AGREES


@pytest.mark.parametrize("seed", range(12))
def test_several_causes_at_once_against_pyagrum(seed: int) -> None:
    random = Random(seed)
    net = plain(random, causes=9, defects=7, each=4)
    evidence = sights(random, net, seen=4, not_seen=2)
    posteriors, chance = ask_agrum(agrum(net), net, evidence)
    beliefs = believe(net, evidence)
    assert furthest(beliefs.present, posteriors) < AGREES
    assert beliefs.log_evidence == pytest.approx(log(chance), abs=AGREES)


@pytest.mark.parametrize("seed", range(3))
def test_several_causes_at_once_against_pgmpy(seed: int) -> None:
    random = Random(seed)
    net = plain(random, causes=5, defects=4, each=3)
    evidence = sights(random, net, seen=2, not_seen=1)
    assert furthest(believe(net, evidence).present, ask_pgmpy(net, evidence)) < AGREES


@pytest.mark.parametrize("seed", range(12))
def test_checks_with_several_outcomes_against_pyagrum(seed: int) -> None:
    random = Random(seed)
    net = with_checks(random, causes=6, defects=4, checks=3)
    answers = {check: (random.choice(node.outcomes), 0) for check, node in net.checks.items()}
    evidence = Evidence(seen=("d0", "d2"), not_seen=("d1",), answers=answers)
    posteriors, chance = ask_agrum(agrum(net), net, evidence)
    beliefs = believe(net, evidence)
    assert furthest(beliefs.present, posteriors) < AGREES
    assert beliefs.log_evidence == pytest.approx(log(chance), abs=AGREES)


def test_findings_that_share_no_cause_against_pyagrum() -> None:
    net = plain(Random(8), causes=40, defects=8, each=5)  # sparse: several components
    evidence = Evidence(seen=("d0", "d1", "d2", "d3"), not_seen=("d4",))
    assert furthest(believe(net, evidence).present, ask_agrum(agrum(net), net, evidence)[0]) < AGREES


def test_no_evidence_leaves_the_priors() -> None:
    beliefs = believe(PINNED, Evidence())
    assert beliefs.present == beliefs.alive == PINNED.priors
    assert beliefs.log_evidence == 0.0
    assert furthest(beliefs.present, ask_agrum(agrum(PINNED), PINNED, Evidence())[0]) < AGREES


@pytest.mark.parametrize("seed", range(40))
def test_whole_cases_with_fixes_tried_against_enumeration(seed: int) -> None:
    random = Random(seed)
    net = with_checks(random)
    evidence = story(random, net)
    truth = enumerate_all(net, evidence)
    beliefs = believe(net, evidence)
    assert furthest(beliefs.present, truth.present) < AGREES
    assert furthest(beliefs.alive, truth.alive) < AGREES
    assert furthest(beliefs.behind, truth.behind) < AGREES
    assert beliefs.unknown == pytest.approx(truth.unknown, abs=AGREES)
    assert beliefs.log_evidence == pytest.approx(log(truth.evidence), abs=AGREES)


def test_fourteen_findings_seen_in_one_component_are_exact() -> None:
    random = Random(14)
    net = plain(random, causes=12, defects=14, each=6)
    evidence = Evidence(seen=tuple(net.defects))
    posteriors, chance = precisely(net, evidence)
    beliefs = believe(net, evidence)
    assert beliefs.exact
    assert furthest(beliefs.present, posteriors) < 1e-14  # reached: 1e-15
    assert beliefs.log_evidence == pytest.approx(log(chance), rel=1e-14)


@pytest.mark.parametrize("seen", [6, 14])
def test_rare_causes_are_exact_where_the_signed_sum_in_doubles_is_not(seen: int) -> None:
    random = Random(6)
    net = plain(random, causes=10, defects=seen, each=6, priors=(1e-6, 1e-4), leaks=(1e-6, 1e-6))
    evidence = Evidence(seen=tuple(net.defects))
    posteriors, chance = precisely(net, evidence)
    beliefs = believe(net, evidence)
    assert furthest(beliefs.present, posteriors) < 1e-14
    assert beliefs.log_evidence == pytest.approx(log(chance), rel=1e-14)
    in_doubles, _ = signed_sum(net, evidence, float)
    assert furthest(in_doubles, posteriors) > 1e-8  # its terms of both signs cancel, most digits with them


@pytest.mark.parametrize("leak", [1e-6, 1e-3])
@pytest.mark.parametrize("seed", range(4))
def test_rare_causes_against_fifty_digits(leak: float, seed: int) -> None:
    random = Random(seed)
    net = plain(random, causes=12, defects=6, each=4, priors=(1e-6, 1e-4), leaks=(leak, leak))
    evidence = sights(random, net, seen=4, not_seen=2)
    posteriors, chance = precisely(net, evidence)
    beliefs = believe(net, evidence)
    assert furthest(beliefs.present, posteriors) < 1e-14
    assert beliefs.log_evidence == pytest.approx(log(chance), rel=1e-14)
