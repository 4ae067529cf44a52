"""What a check would show: a distribution, and the exact network's answer for a single fault."""

from math import exp

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.reasoning.beliefs import Beliefs, believe
from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.network import FindingNode, Network
from diagnose.reasoning.outlook import at_work, beside, firsts, likelihoods
from diagnose.reasoning.trouble import answered

RARE = 1e-7  # so rare a cause comes alone: two at once are as good as impossible
CLOSE = 1e-5


@st.composite
def networks(draw: st.DrawFn, *, rare: bool) -> Network:
    """Some causes that all may bring on one defect, and a check with two to four outcomes."""
    causes = draw(st.integers(1, 4))
    share = st.floats(0.2, 1.0)
    priors = [draw(share) * (RARE if rare else 0.5) for _ in range(causes)]
    defect = FindingNode(
        "defect",
        (1e-15 if rare else draw(st.floats(1e-4, 0.3)),),
        {c: (draw(share) * 0.99,) for c in range(causes)},
    )
    loud = draw(st.integers(1, 3))
    chances = st.lists(st.floats(1e-4, 0.99 / loud), min_size=loud, max_size=loud).map(tuple)
    linked = draw(st.sets(st.integers(0, causes - 1)))
    outcomes = tuple(f"o{level}" for level in range(loud + 1))
    check = FindingNode("check", draw(chances), {cause: draw(chances) for cause in sorted(linked)}, outcomes)
    names = tuple(f"c{number}" for number in range(causes))
    return Network(names, tuple(priors), {"defect": defect}, {"check": check})


def looked_at(net: Network) -> tuple[Beliefs, tuple[tuple[float, ...], ...]]:
    beliefs = believe(net, Evidence(seen=("defect",)))
    return beliefs, likelihoods(net.checks["check"], range(len(net.causes)), beliefs)


@settings(max_examples=80, deadline=None)
@given(net=networks(rare=False))
def test_each_hypothesis_gives_a_distribution_over_the_outcomes(net: Network) -> None:
    _, rows = looked_at(net)
    assert len(rows) == len(net.checks["check"].outcomes)
    assert all(0.0 <= chance <= 1.0 for row in rows for chance in row)
    assert [sum(column) for column in zip(*rows, strict=True)] == pytest.approx([1.0] * (len(net.causes) + 1))


@settings(max_examples=80, deadline=None)
@given(net=networks(rare=True))
def test_with_a_single_fault_the_chance_of_each_outcome_is_the_networks_own(net: Network) -> None:
    beliefs, rows = looked_at(net)
    seen = Evidence(seen=("defect",))
    for outcome, row in zip(net.checks["check"].outcomes, rows, strict=True):
        told = sum(answered(row, (*beliefs.behind, beliefs.unknown)))
        then = believe(net, seen.with_answer("check", outcome)).log_evidence
        assert told == pytest.approx(exp(then - beliefs.log_evidence), abs=CLOSE)


@settings(max_examples=80, deadline=None)
@given(net=networks(rare=True))
def test_with_a_single_fault_the_answer_leads_to_the_networks_own_posterior(net: Network) -> None:
    beliefs, rows = looked_at(net)
    seen = Evidence(seen=("defect",))
    for outcome, row in zip(net.checks["check"].outcomes, rows, strict=True):
        weights = answered(row, (*beliefs.behind, beliefs.unknown))
        if sum(weights) < 0.01:
            continue
        exact = believe(net, seen.with_answer("check", outcome))
        assert [weight / sum(weights) for weight in weights[:-1]] == pytest.approx(exact.behind, abs=CLOSE)


@settings(max_examples=80, deadline=None)
@given(net=networks(rare=False))
def test_the_chance_beside_another_cause_is_a_chance_and_no_less_than_apart_from_what_is_seen(net: Network) -> None:
    beliefs, _ = looked_at(net)
    for cause, alive in enumerate(beliefs.alive):
        chance = beside(beliefs, cause, at_work(beliefs))
        assert 0.0 <= chance <= 1.0
        assert chance >= (alive - beliefs.behind[cause]) - 1e-9


def several(behind: tuple[float, ...], unknown: float = 0.0) -> Beliefs:
    return Beliefs(alive=behind, present=behind, behind=behind, unknown=unknown, log_evidence=0.0)


def test_where_one_thing_is_at_work_the_hypotheses_shut_each_other_out() -> None:
    beliefs = several((0.5, 0.3), unknown=0.2)
    assert at_work(beliefs) == pytest.approx(1.0)
    assert [beside(beliefs, cause, 1.0) for cause in (0, 1)] == [0.0, 0.0]


def test_a_cause_that_is_certain_is_there_whichever_comes_next() -> None:
    beliefs = several((1.0, 0.6, 0.4))
    assert beside(beliefs, 0, at_work(beliefs)) == pytest.approx(1.0)


def test_two_pairs_that_each_hold_one_cause_leave_a_third_for_each_of_the_others() -> None:
    # Worked out by hand: of the three other causes the one in the same pair is out, the two in the other pair
    # have an even chance; (0 + 1/2 + 1/2) / 3.
    beliefs = several((0.5, 0.5, 0.5, 0.5))
    assert beside(beliefs, 0, at_work(beliefs)) == pytest.approx(1 / 3)


def test_a_check_on_a_certain_cause_tells_nothing_about_another_certain_one() -> None:
    check = FindingNode("check", (0.01,), {0: (0.9,)}, ("quiet", "loud"))
    quiet, loud = likelihoods(check, (0, 1), several((1.0, 1.0)))
    assert loud[0] == pytest.approx(loud[1])
    assert quiet[0] == pytest.approx(quiet[1])


def test_a_check_that_no_hypothesis_touches_shows_what_it_otherwise_shows() -> None:
    net = Network(
        ("c",),
        (0.1,),
        {"defect": FindingNode("defect", (0.01,), {0: (0.9,)})},
        {"check": FindingNode("check", (0.2, 0.1), {}, ("x", "y", "z"))},
    )
    _, rows = looked_at(net)
    assert [list(row) for row in rows] == [pytest.approx([chance, chance]) for chance in (0.7, 0.2, 0.1)]


behind = st.lists(st.floats(0.0, 1.0), min_size=1, max_size=8)


@settings(max_examples=80, deadline=None)
@given(chances=behind, other=st.floats(0.0, 3.0))
def test_the_first_at_work_is_one_of_them_or_none(chances: list[float], other: float) -> None:
    weights = firsts(chances, other)
    assert len(weights) == len(chances)
    assert weights[0] == chances[0]
    assert min(weights) >= 0.0
    assert sum(weights) <= 1.0 + 1e-9


@settings(max_examples=80, deadline=None)
@given(chances=behind, other=st.floats(0.01, 1.0))
def test_where_one_thing_is_at_work_the_first_is_as_likely_as_it_is(chances: list[float], other: float) -> None:
    count = sum(chances) + other
    alone = [chance / count for chance in chances]
    assert firsts(alone, other / count) == pytest.approx(alone)


def test_what_is_certain_is_the_first_whatever_else_is_at_work() -> None:
    assert firsts((1.0, 0.6, 0.4), 0.0) == [1.0, 0.0, 0.0]


def test_of_two_pairs_that_each_hold_one_the_first_at_work_is_among_the_first_three() -> None:
    # Worked out by hand: the second is in the first's pair in one case of three, and certain where the first is not
    # there; else it is even. Where neither is there they are of two pairs, and the third is.
    assert firsts((0.5, 0.5, 0.5, 0.5), 0.0) == pytest.approx([1 / 2, 1 / 3, 1 / 6, 0.0])
