"""What a check would show: a distribution, and the exact network's answer for a single fault."""

from math import exp

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.reasoning.beliefs import Beliefs, believe
from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.network import Network, Node
from diagnose.reasoning.outlook import elsewhere, likelihoods
from diagnose.reasoning.trouble import answered

RARE = 1e-7  # so rare a cause comes alone: two at once are as good as impossible
CLOSE = 1e-5


@st.composite
def networks(draw: st.DrawFn, *, rare: bool) -> Network:
    """Some causes that all may bring on one defect, and a check with two to four outcomes."""
    causes = draw(st.integers(1, 4))
    share = st.floats(0.2, 1.0)
    priors = [draw(share) * (RARE if rare else 0.5) for _ in range(causes)]
    defect = Node(
        "defect",
        (1e-15 if rare else draw(st.floats(1e-4, 0.3)),),
        {c: (draw(share) * 0.99,) for c in range(causes)},
    )
    loud = draw(st.integers(1, 3))
    chances = st.lists(st.floats(1e-4, 0.99 / loud), min_size=loud, max_size=loud).map(tuple)
    linked = draw(st.sets(st.integers(0, causes - 1)))
    outcomes = tuple(f"o{level}" for level in range(loud + 1))
    check = Node("check", draw(chances), {cause: draw(chances) for cause in sorted(linked)}, outcomes)
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
def test_a_cause_is_elsewhere_with_a_chance_that_makes_up_its_own(net: Network) -> None:
    # alive = behind + (1 - behind) * elsewhere
    beliefs, _ = looked_at(net)
    for cause, alive in enumerate(beliefs.alive):
        behind = beliefs.behind[cause]
        assert behind + (1.0 - behind) * elsewhere(beliefs, cause) == pytest.approx(alive, abs=1e-9)


def test_a_check_that_no_hypothesis_touches_shows_what_it_otherwise_shows() -> None:
    net = Network(
        ("c",),
        (0.1,),
        {"defect": Node("defect", (0.01,), {0: (0.9,)})},
        {"check": Node("check", (0.2, 0.1), {}, ("x", "y", "z"))},
    )
    _, rows = looked_at(net)
    assert [list(row) for row in rows] == [pytest.approx([chance, chance]) for chance in (0.7, 0.2, 0.1)]
