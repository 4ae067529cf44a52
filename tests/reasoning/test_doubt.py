"""Answers that are wrong now and then: what is told of a check, which answers are doubted, what a second look tells."""

from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.knowledge.model import WRONG
from diagnose.reasoning.beliefs import believe
from diagnose.reasoning.doubt import DOUBTFUL, doubted, mistaken, second_look
from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.network import FindingNode, Network
from diagnose.reasoning.outlook import likelihoods

CAUSES = ("cool", "thin")


def levels(chances: tuple[float, ...]) -> list[float]:
    """The chance of each level, the quiet one first."""
    return [1.0 - sum(chances), *chances]


def shown(node: FindingNode, cause: int | None) -> list[float]:
    """The chance of each level with one cause there, or none: the highest that it and the leak pick."""
    result = [0.0] * (len(node.leak) + 1)
    picks = levels(node.links[cause]) if cause is not None else [1.0]
    for (at, p), (own, q) in product(enumerate(levels(node.leak)), enumerate(picks)):
        result[max(at, own)] += p * q
    return result


def network(check: FindingNode) -> Network:
    """Two causes of one defect, alike in everything but what the check says of them."""
    index = {cause: at for at, cause in enumerate(CAUSES)}
    defect = FindingNode("faint", (0.01,), {0: (0.8,), 1: (0.8,)})
    return Network(CAUSES, (0.1, 0.1), {"faint": defect}, {check.id: check}, {}, index)


probe = FindingNode("probe", (0.02,), {0: (0.9,)}, ("agrees", "low"), 0.1)
chances = st.floats(0.0, 0.3)


def test_an_answer_is_wrong_as_often_as_the_check_says() -> None:
    sure = replace(probe, leak=(0.0,), links={0: (1.0,)})
    assert shown(sure.told(), 0) == pytest.approx([0.1, 0.9])
    assert shown(sure.told(), None) == pytest.approx([0.9, 0.1])


def test_a_level_is_taken_for_any_other() -> None:
    node = FindingNode("look", (0.0, 0.0), {0: (0.0, 1.0), 1: (1.0, 0.0)}, ("none", "some", "much"), 0.2)
    assert shown(node.told(), None) == pytest.approx([0.8, 0.1, 0.1])
    assert shown(node.told(), 0) == pytest.approx([0.1, 0.1, 0.8])
    assert shown(node.told(), 1) == pytest.approx([0.1, 0.8, 0.1])


@given(st.tuples(chances, chances, chances), st.tuples(chances, chances, chances), st.floats(0.0, 0.4))
def test_what_is_told_are_chances_still(leak: tuple[float, ...], link: tuple[float, ...], wrong: float) -> None:
    told = FindingNode("any", leak, {0: link}, ("a", "b", "c", "d"), wrong).told()
    for chance in (*told.leak, *told.links[0]):
        assert -1e-15 <= chance <= 1.0
    assert sum(told.leak) <= 1.0 + 1e-12 >= sum(told.links[0])


def test_no_answer_shuts_a_cause_out_as_surely_as_if_it_were_never_wrong() -> None:
    for outcome, sway in (("agrees", 1), ("low", -1)):
        evidence = Evidence(seen=("faint",)).with_answer("probe", outcome)
        soft = believe(network(probe), evidence).behind[0]
        hard = believe(network(replace(probe, wrong=0.0)), evidence).behind[0]
        assert sway * (soft - hard) > 0.01


def test_the_same_answer_twice_counts_for_more_than_once_and_another_takes_its_place() -> None:
    net, once = network(probe), Evidence(seen=("faint",)).with_answer("probe", "low")
    twice = once.with_answer("probe", "low", looked_again=True)
    assert twice.times("probe") == 2
    assert believe(net, twice).behind[0] > believe(net, once).behind[0] + 0.02
    assert once.with_answer("probe", "low") == once, "told again is no second look"
    assert twice.with_answer("probe", "agrees", looked_again=True) == Evidence(seen=("faint",)).with_answer(
        "probe", "agrees"
    )


def test_how_likely_an_answer_is_wrong_is_what_bayes_says() -> None:
    """Reckoned by hand: the answer and whether it is wrong, over both causes, there or not."""
    net, evidence = network(probe), Evidence(seen=("faint",)).with_answer("probe", "low")
    right = whole = 0.0
    for cool, thin in product((0, 1), (0, 1)):
        weight = 0.1 ** (cool + thin) * 0.9 ** (2 - cool - thin) * (1.0 - 0.99 * 0.2 ** (cool + thin))
        low = 1.0 - 0.98 * (0.1 if cool else 1.0)
        right += weight * low * 0.9
        whole += weight * (low * 0.9 + (1.0 - low) * 0.1)
    found = mistaken(net, evidence, believe(net, evidence), "probe")
    assert found == pytest.approx(1.0 - right / whole, abs=0.02)


def test_the_answer_that_does_not_go_with_the_rest_is_doubted() -> None:
    """Three checks say that it runs cool, one that it does not."""
    net = network(probe)
    checks = {name: replace(probe, id=name) for name in ("probe", "strip", "paper", "display")}
    net = replace(net, checks=checks)
    evidence = Evidence(seen=("faint",))
    for check, outcome in (("probe", "low"), ("strip", "low"), ("paper", "low"), ("display", "agrees")):
        evidence = evidence.with_answer(check, outcome)
    beliefs = believe(net, evidence)
    assert doubted(net, evidence, beliefs) == {"display": "agrees"}
    assert mistaken(net, evidence, beliefs, "display") >= DOUBTFUL > mistaken(net, evidence, beliefs, "strip")
    again = evidence.with_answer("display", "agrees", looked_again=True)
    assert doubted(net, again, believe(net, again)) == {}


def test_a_second_look_mostly_shows_the_same_and_what_it_tells_is_what_the_two_together_tell() -> None:
    net, evidence = network(probe), Evidence(seen=("faint",)).with_answer("probe", "low")
    beliefs = believe(net, evidence)
    rows = second_look(probe, "low", [0, 1], beliefs)
    for column in zip(*rows, strict=True):
        assert sum(column) == pytest.approx(1.0)
    assert rows[1][0] > 0.85 > rows[1][1]
    first = likelihoods(probe.told(), [0, 1], beliefs)
    both = likelihoods(probe.told(2), [0, 1], beliefs)
    ratio = rows[1][0] * first[1][0] / (rows[1][1] * first[1][1])
    assert ratio == pytest.approx(both[1][0] / both[1][1], rel=0.15)


def test_an_instrument_is_believed_more_than_an_eye_and_an_eye_more_than_a_memory() -> None:
    def believed(wrong: float) -> float:
        net = network(replace(probe, wrong=wrong))
        return believe(net, Evidence(seen=("faint",)).with_answer("probe", "low")).behind[0]

    assert believed(WRONG["instrument"]) > believed(WRONG["eye"]) > believed(WRONG["memory"])
