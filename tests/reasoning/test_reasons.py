"""Weights of evidence, worked out again by leaving each finding out, and what would turn the answer."""

from dataclasses import replace
from math import log10
from random import Random

import pytest

from diagnose.reasoning.beliefs import believe
from diagnose.reasoning.evidence import BETTER, SAME, Evidence, Tried
from diagnose.reasoning.network import FindingNode, Network
from diagnose.reasoning.reasons import HEAVIEST, Finding, decibans, findings, reasons, turns
from tests.reasoning.enumeration import enumerate_all
from tests.reasoning.networks import PINNED, PINNED_EVIDENCE, story, with_checks

NET = replace(
    Network.of(
        {"a": 0.1, "b": 0.1},
        {"both": (0.02, {"a": 0.8, "b": 0.8}), "only-a": (0.02, {"a": 0.8})},
    ),
    checks={"k": FindingNode("k", (0.05,), {0: (0.9,)}, ("no", "yes"))},
    cures={"f": {0: 0.9}},
)


def weights(evidence: Evidence, cause: int, net: Network = NET) -> dict[Finding, float]:
    found = reasons(net, evidence, believe(net, evidence), [cause])
    return {reason.finding: reason.weight for reason in found[cause]}


def odds(p: float) -> float:
    return 10 * log10(p / (1 - p))


@pytest.mark.parametrize("seed", range(12))
def test_a_weight_is_the_change_in_log_odds_when_the_finding_is_left_out(seed: int) -> None:
    """Leave-one-out weights, by enumeration."""
    random = Random(seed)
    net = with_checks(random)
    evidence = story(random, net)
    whole = enumerate_all(net, evidence)
    found = reasons(net, evidence, believe(net, evidence), range(len(net.causes)))
    for finding, without in findings(evidence):
        rest = enumerate_all(net, without)
        for cause, own in found.items():
            if not (0.0 < whole.alive[cause] < 1.0 and 0.0 < rest.alive[cause] < 1.0):
                continue
            expected = odds(whole.alive[cause]) - odds(rest.alive[cause])
            told = [reason.weight for reason in own if reason.finding == finding]
            if abs(expected) > 0.051:
                assert told == pytest.approx([expected], abs=1e-6)
            elif abs(expected) < 0.049:
                assert told == []


def test_the_weight_of_a_single_sight_is_its_likelihood_ratio() -> None:
    """Good's weight of evidence: 10 log10 of P(seen | a) / P(seen | not a), by hand."""
    with_a = 1 - 0.98 * 0.2
    assert weights(Evidence(seen=("only-a",)), 0) == {
        Finding("seen", "only-a"): pytest.approx(10 * log10(with_a / 0.02), abs=1e-9)
    }


def test_what_a_cause_brings_on_speaks_for_it_when_seen_and_against_it_when_not() -> None:
    assert weights(Evidence(seen=("both",)), 0)[Finding("seen", "both")] > 0
    assert weights(Evidence(seen=("both",), not_seen=("only-a",)), 0)[Finding("not-seen", "only-a")] < 0


def test_what_another_cause_explains_away_speaks_against() -> None:
    assert weights(Evidence(seen=("both", "only-a")), 1)[Finding("seen", "only-a")] < 0


def test_answers_speak_for_and_against() -> None:
    yes = Evidence(seen=("both",)).with_answer("k", "yes")
    no = Evidence(seen=("both",)).with_answer("k", "no")
    assert weights(yes, 0)[Finding("answer", "k", "yes")] > 0
    assert weights(yes, 1)[Finding("answer", "k", "yes")] < 0
    assert weights(no, 0)[Finding("answer", "k", "no")] < 0


def test_a_fix_that_changed_nothing_speaks_against_what_it_cures() -> None:
    same = Evidence(seen=("both",), tried=(Tried("f", SAME),))
    assert weights(same, 0)[Finding("tried", "f", SAME)] < 0
    assert weights(same, 1)[Finding("tried", "f", SAME)] > 0


def test_better_counts_less_against_the_rest_than_the_same() -> None:
    better = believe(NET, Evidence(seen=("both",), tried=(Tried("f", BETTER),)))
    same = believe(NET, Evidence(seen=("both",), tried=(Tried("f", SAME),)))
    assert better.present[0] > same.present[0]


def test_findings_that_move_nothing_are_left_out_and_the_heaviest_comes_first() -> None:
    net = replace(NET, defects={**NET.defects, "apart": FindingNode("apart", (0.1,), {})})
    evidence = Evidence(seen=("apart", "both", "only-a"), not_seen=())
    told = reasons(net, evidence, believe(net, evidence), [0])[0]
    assert "apart" not in [reason.finding.id for reason in told]
    assert [abs(reason.weight) for reason in told] == sorted((abs(r.weight) for r in told), reverse=True)


def test_weights_end_where_words_do() -> None:
    certain = Network.of({"a": 1e-6}, {"d": (0.0, {"a": 1.0})})
    (weight,) = weights(Evidence(seen=("d",)), 0, certain).values()
    assert weight == HEAVIEST
    assert decibans(0.5) == 0.0
    assert (decibans(1.0), decibans(0.0)) == pytest.approx((90.0, -90.0), abs=1e-6)


def test_each_finding_is_taken_away_once_and_answers_move_with_their_fix() -> None:
    evidence = Evidence(
        seen=("both",),
        not_seen=("only-a",),
        answers={"k": ("yes", 2)},
        tried=(Tried("f", SAME), Tried("g", "", ("both",))),
    )
    taken = dict(findings(evidence))
    assert len(taken) == 5
    assert taken[Finding("seen", "both")].seen == ()
    assert taken[Finding("not-seen", "only-a")].not_seen == ()
    assert taken[Finding("answer", "k", "yes")].answers == {}
    first = taken[Finding("tried", "f", SAME)]
    assert [tried.fix for tried in first.tried] == ["g"]
    assert first.answers == {"k": ("yes", 1)}


def test_a_turn_is_an_outcome_that_puts_another_cause_first() -> None:
    """Chance and lead by enumeration."""
    evidence = Evidence(seen=("both", "only-a"))
    now, quiet = enumerate_all(NET, evidence), enumerate_all(NET, evidence.with_answer("k", "no"))
    found = turns(NET, evidence, believe(NET, evidence), ["k"])
    leads = max(range(2), key=lambda i: quiet.behind[i])
    if leads == max(range(2), key=lambda i: now.behind[i]):
        assert found == []
        return
    (turn,) = found
    assert (turn.check, turn.outcome, turn.leads) == ("k", "no", leads)
    assert turn.chance == pytest.approx(quiet.evidence / now.evidence, rel=1e-12)
    assert turn.probability == pytest.approx(quiet.alive[leads], rel=1e-12)


def test_the_pinned_case_rests_on_both_sights() -> None:
    told = weights(PINNED_EVIDENCE, 1, PINNED)
    assert told[Finding("seen", "d1")] > 0
    assert told[Finding("seen", "d2")] > 0
