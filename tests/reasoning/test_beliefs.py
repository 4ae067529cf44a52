"""Laws that beliefs keep for any network and any evidence, and where exactness ends."""

from dataclasses import replace
from math import exp, inf
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.reasoning import arraywise, listwise
from diagnose.reasoning.beliefs import BOUNDED, LISTS_UP_TO, WIDEST, Beliefs, arithmetic, believe
from diagnose.reasoning.evidence import Evidence, Tried
from diagnose.reasoning.network import FindingNode, Network
from tests.reasoning.networks import PINNED, PINNED_EVIDENCE, furthest
from tests.reasoning.strategies import cases, inner

Case = tuple[Network, Evidence]
laws = settings(max_examples=200, deadline=None)


def same(one: Beliefs, other: Beliefs, causes: int | None = None) -> bool:
    """Whether all is the same for the first causes, up to rounding."""
    rows = ((one.alive, other.alive), (one.present, other.present), (one.behind, other.behind))
    return all(furthest(a[:causes], b[:causes]) < 1e-12 for a, b in rows)


@laws
@given(cases(), st.integers(1, 20))
def test_probabilities_are_probabilities_and_stand_in_order(case: Case, widest: int) -> None:
    beliefs = believe(*case, widest=widest)
    for behind, alive, present in zip(beliefs.behind, beliefs.alive, beliefs.present, strict=True):
        assert 0.0 <= behind <= alive <= present <= 1.0
    assert 0.0 <= beliefs.unknown <= len(case[1].left) + 1e-12
    assert beliefs.log_evidence <= 1e-12


@laws
@given(cases(inner), st.randoms(use_true_random=False))
def test_the_order_of_the_evidence_does_not_matter(case: Case, random: Random) -> None:
    net, evidence = case
    shuffled = replace(
        evidence,
        seen=tuple(random.sample(evidence.seen, len(evidence.seen))),
        not_seen=tuple(random.sample(evidence.not_seen, len(evidence.not_seen))),
        answers=dict(random.sample(list(evidence.answers.items()), len(evidence.answers))),
    )
    assert same(believe(net, evidence), believe(net, shuffled))


@laws
@given(cases(inner), inner, inner, inner)
def test_a_finding_of_other_causes_changes_nothing(case: Case, prior: float, leak: float, strength: float) -> None:
    net, evidence = case
    apart = len(net.causes)
    wider = replace(
        net,
        causes=(*net.causes, "apart"),
        priors=(*net.priors, prior),
        defects={**net.defects, "elsewhere": FindingNode("elsewhere", (leak,), {apart: (strength,)})},
    )
    before = believe(net, evidence)
    assert same(before, believe(wider, replace(evidence, seen=(*evidence.seen, "elsewhere"))), apart)
    assert same(before, believe(wider, replace(evidence, not_seen=(*evidence.not_seen, "elsewhere"))), apart)


@laws
@given(cases(inner), inner)
def test_a_cause_that_is_never_there_changes_nothing(case: Case, strength: float) -> None:
    net, evidence = case
    never = len(net.causes)
    wider = replace(
        net,
        causes=(*net.causes, "never"),
        priors=(*net.priors, 0.0),
        defects={name: replace(node, links={**node.links, never: (strength,)}) for name, node in net.defects.items()},
    )
    before, after = believe(net, evidence), believe(wider, evidence)
    assert same(before, after, never)
    assert after.present[never] == 0.0
    assert after.log_evidence == pytest.approx(before.log_evidence, abs=1e-12)


@laws
@given(cases(inner), st.data())
def test_the_outcomes_of_a_check_add_up_to_what_was_known_before_it(case: Case, data: st.DataObject) -> None:
    """The law of total probability, over a check not yet answered."""
    net, evidence = case
    if not (free := sorted(set(net.checks) - set(evidence.answers))):
        return
    check = data.draw(st.sampled_from(free))
    now = believe(net, evidence)
    then = [believe(net, evidence.with_answer(check, outcome)) for outcome in net.checks[check].outcomes]
    chances = [exp(beliefs.log_evidence - now.log_evidence) for beliefs in then]
    assert sum(chances) == pytest.approx(1.0, abs=1e-9)
    for cause, alive in enumerate(now.alive):
        expected = sum(chance * beliefs.alive[cause] for chance, beliefs in zip(chances, then, strict=True))
        assert alive == pytest.approx(expected, abs=1e-9)


def test_impossible_evidence_gives_no_probability_to_anything_it_touches() -> None:
    net = Network.of({"a": 0.0, "b": 0.3}, {"d": (0.0, {"a": 0.5}), "e": (0.0, {"b": 0.5})})
    beliefs = believe(net, Evidence(seen=("d",)))
    assert beliefs.log_evidence == -inf
    assert beliefs.present == (0.0, 0.3)


def test_a_sure_cause_stays_sure_until_a_fix_takes_it_away() -> None:
    net = replace(Network.of({"a": 1.0}, {"d": (0.1, {"a": 0.9})}), cures={"f": {0: 1.0}})
    assert believe(net, Evidence(not_seen=("d",))).alive == (1.0,)
    cured = believe(net, Evidence(seen=("d",), tried=(Tried("f"),)))
    assert (cured.alive, cured.present) == ((0.0,), (1.0,))
    assert cured.unknown == pytest.approx(1.0)  # only the leak is left to bring it on


def test_a_cause_that_explains_makes_the_others_less_likely() -> None:
    one = believe(PINNED, Evidence(seen=("d1",)))
    both = believe(PINNED, Evidence(seen=("d1", "d2")))  # d2 points to c2, which takes d1 over from c1
    assert both.present[1] > one.present[1]
    assert both.present[0] < one.present[0]


def test_exact_up_to_the_width_and_bounded_beyond() -> None:
    assert believe(PINNED, PINNED_EVIDENCE, widest=2).exact
    bounded = believe(PINNED, PINNED_EVIDENCE, widest=1)
    assert not bounded.exact
    assert len(bounded.bounds) == 3


def test_lists_while_narrow_arrays_while_wide() -> None:
    assert arithmetic(LISTS_UP_TO) is listwise
    assert arithmetic(LISTS_UP_TO + 1) is arraywise
    assert LISTS_UP_TO < BOUNDED <= WIDEST
