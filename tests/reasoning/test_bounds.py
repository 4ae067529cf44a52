"""Past the width: the truth lies within the bounds, and so does the estimate."""

from math import exp
from random import Random

import pytest
from hypothesis import given, settings

from diagnose.reasoning.beliefs import BOUNDED, MOST, WIDEST, believe
from diagnose.reasoning.bounds import Division, within
from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.factors import factors
from diagnose.reasoning.network import Network
from diagnose.reasoning.sweep import plan
from tests.reasoning.enumeration import enumerate_all
from tests.reasoning.networks import PINNED, PINNED_EVIDENCE, furthest, plain, story, with_checks
from tests.reasoning.strategies import cases, inner

ROUNDING = 1e-12


@pytest.mark.parametrize("widest", [1, 2])
@pytest.mark.parametrize("seed", range(40))
def test_the_truth_lies_within_the_bounds(seed: int, widest: int) -> None:
    random = Random(seed)
    net = with_checks(random)
    evidence = story(random, net)
    beliefs = believe(net, evidence, widest=widest)
    truth = enumerate_all(net, evidence)
    if beliefs.exact:
        assert furthest(beliefs.present, truth.present) < ROUNDING
    for present, (least, most) in zip(truth.present, beliefs.bounds, strict=False):
        assert least - ROUNDING <= present <= most + ROUNDING


@settings(max_examples=200, deadline=None)
@given(cases(inner))
def test_the_estimate_lies_within_the_bounds_and_the_order_holds(case: tuple[Network, Evidence]) -> None:
    beliefs = believe(*case, widest=1)
    for i, (least, most) in enumerate(beliefs.bounds):
        assert 0.0 <= least <= beliefs.present[i] <= most <= 1.0
        assert beliefs.behind[i] <= beliefs.alive[i] <= beliefs.present[i]


def test_a_single_finding_left_out_costs_nothing_but_time() -> None:
    """With one event Bonferroni's inequalities are equalities."""
    beliefs = believe(PINNED, PINNED_EVIDENCE, widest=1)
    truth = enumerate_all(PINNED, PINNED_EVIDENCE)
    assert not beliefs.exact
    assert furthest(beliefs.present, truth.present) < ROUNDING
    assert furthest(beliefs.alive, truth.alive) < ROUNDING
    assert all(most - least < ROUNDING for least, most in beliefs.bounds)
    assert beliefs.unknown == pytest.approx(truth.unknown, abs=ROUNDING)
    assert exp(beliefs.log_evidence) == pytest.approx(truth.evidence, rel=ROUNDING)


def test_past_the_greatest_width_bounds_hold_what_is_exact_without_it() -> None:
    net = plain(Random(2), causes=12, defects=WIDEST + 1, each=12, strengths=(0.3, 0.95))
    evidence = Evidence(seen=tuple(net.defects))
    bounded, exact = believe(net, evidence), believe(net, evidence, widest=WIDEST + 1)
    assert exact.exact
    assert not bounded.exact
    for present, (least, most) in zip(exact.present, bounded.bounds, strict=True):
        assert least - ROUNDING <= present <= most + ROUNDING


def test_as_few_as_need_be_are_left_out_answers_before_defects_still_seen() -> None:
    random = Random(5)
    net = with_checks(random, causes=4, defects=3, checks=3)
    answers = {check: (node.outcomes[-1], 0) for check, node in net.checks.items()}
    given_factors = factors(net, Evidence(seen=tuple(net.defects), answers=answers))
    parts = within(given_factors, 3, MOST)
    kept, left_out = parts.kept, parts.left_out
    assert not parts.aside
    assert plan(given_factors, kept)[1] <= 3
    assert sorted(loud.id for loud in (*kept, *left_out)) == sorted((*net.defects, *net.checks))
    assert {loud.id for loud in left_out} <= set(net.checks)


def test_what_is_bounded_keeps_the_causes_that_come_up() -> None:
    """A defect still seen is what causes are behind: it must not be the one that is left out."""
    net = plain(Random(9), causes=14, defects=WIDEST + 6, each=10)
    beliefs = believe(net, Evidence(seen=tuple(net.defects)))
    assert not beliefs.exact
    assert BOUNDED < WIDEST
    assert max(beliefs.behind) > 0.5


def test_other_evidence_is_divided_alike() -> None:
    """What was left out or aside stays so; a finding that is in both lists is aside."""
    net = Network.of({"c": 0.2}, {f"d{i}": (0.01, {"c": 0.5}) for i in range(5)})
    louds = factors(net, Evidence(seen=tuple(net.defects))).loud
    division = Division(louds[:2], louds[2:4], louds[3:])
    less = factors(net, Evidence(seen=("d0", "d2", "d3", "d4"))).loud
    again = division.of(less)
    assert [[loud.id for loud in part] for part in (again.kept, again.left_out, again.aside)] == [
        ["d0"],
        ["d2"],
        ["d3", "d4"],
    ]
    assert not again.exact
    assert Division(louds).exact
    assert not Division(louds, louds[:1]).exact
