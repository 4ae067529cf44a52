"""From knowledge to a network: which priors, rules, checks and fixes count for a job."""

from collections.abc import Mapping
from dataclasses import replace
from typing import TypeVar

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.knowledge.conditions import Condition, Test, Usual
from diagnose.knowledge.loading import load
from diagnose.knowledge.model import Cause, Chance, Check, Defect, Fix, Knowledge, Outcome, Rule, Shape
from diagnose.knowledge.shop import Known
from diagnose.problems import Place
from diagnose.reasoning import network as networking
from diagnose.reasoning.beliefs import believe
from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.network import LEAST_LEAK, MOST, FindingNode, Network, network, prior, read

HERE = Place("tea-towels.yaml", 1, 1)
ON_COTTON = Condition((Test("item.cloth", values=("cotton",)),))


def cause(name: str, chance: float, *shapes: Shape) -> Cause:
    return Cause(id=name, title=name, place=HERE, family="press", turns_up=Chance(chance), shapes=shapes, about="")


def rule(name: str, brings: float, condition: Condition = Condition()) -> Rule:  # noqa: B008 - frozen
    return Rule(
        cause=name,
        defect="faint",
        brings=Chance(brings),
        condition=condition,
        why="",
        basis=("common practice",),
        status="",
        date="",
        place=HERE,
    )


def defect(otherwise: float, *rules: Rule) -> Defect:
    return Defect(id="faint", title="faint", place=HERE, looks="", said=(), otherwise=Chance(otherwise), rules=rules)


def check(*outcomes: Outcome, condition: Condition = Condition()) -> Check:  # noqa: B008 - frozen
    return Check(
        id="strip",
        title="strip",
        place=HERE,
        kind="look",
        asks="",
        how=(),
        minutes=1.0,
        condition=condition,
        outcomes=outcomes,
    )


def outcome(name: str, otherwise: float = 0.0, shows: Mapping[str, float] | None = None) -> Outcome:
    chances = {c: Chance(value) for c, value in (shows or {}).items()}
    return Outcome(id=name, looks="", shows=chances, otherwise=Chance(otherwise))


Entry = TypeVar("Entry", Cause, Defect, Check, Fix)


def knowing(*entries: Cause | Defect | Check | Fix) -> Knowledge:
    def of(kind: type[Entry]) -> dict[str, Entry]:
        return {entry.id: entry for entry in entries if isinstance(entry, kind)}

    return Knowledge(
        version="",
        scale={},
        scale_note="",
        facts={},
        items={},
        causes=of(Cause),
        checks=of(Check),
        fixes=of(Fix),
        defects=of(Defect),
        cautions={},
        glossary={},
        sources={},
    )


def test_the_prior_is_that_of_the_first_shape_that_holds() -> None:
    shaped = cause(
        "cool",
        0.1,
        Shape(condition=ON_COTTON, turns_up=Chance(0.3)),
        Shape(condition=Condition(), turns_up=Chance(0.2)),
    )
    assert prior(shaped, {"item.cloth": "cotton"}) == 0.3
    assert prior(shaped, {"item.cloth": "polyester"}) == 0.2
    assert prior(cause("cool", 0.1), {}) == 0.1


def test_a_shape_that_nobody_can_decide_does_not_count() -> None:
    assert prior(cause("cool", 0.1, Shape(condition=ON_COTTON, turns_up=Chance(0.3))), {}) == 0.1


@pytest.mark.parametrize(("cloth", "links"), [("cotton", {0: (0.7,)}), ("polyester", {}), (None, {0: (0.7,)})])
def test_rules_count_where_they_may_hold(cloth: str | None, links: dict[int, tuple[float]]) -> None:
    known = knowing(cause("cool", 0.1), defect(0.02, rule("cool", 0.7, ON_COTTON)))
    job = {"item.cloth": cloth} if cloth else {}
    assert network(known, job).defects["faint"].links == links


def test_of_several_rules_on_the_same_pair_the_strongest_counts() -> None:
    known = knowing(cause("cool", 0.1), defect(0.02, rule("cool", 0.3), rule("cool", 0.7), rule("cool", 0.5)))
    assert network(known, {}).defects["faint"].links == {0: (0.7,)}


def test_nothing_is_quite_sure_and_nothing_quite_impossible() -> None:
    known = knowing(
        cause("cool", 0.1),
        defect(0.0, rule("cool", 1.0)),
        check(outcome("fine"), outcome("some", 0.0, {"cool": 0.5}), outcome("much", 0.0, {"cool": 0.5})),
    )
    net = network(known, {})
    assert net.defects["faint"] == FindingNode("faint", (LEAST_LEAK,), {0: (MOST,)})
    assert net.checks["strip"].leak == (LEAST_LEAK, LEAST_LEAK)
    assert net.checks["strip"].links[0] == pytest.approx((MOST / 2, MOST / 2))


def test_the_levels_of_a_check_are_its_outcomes_after_the_first() -> None:
    known = knowing(
        cause("cool", 0.1),
        cause("dry", 0.2),
        check(outcome("fine"), outcome("some", 0.05, {"cool": 0.3}), outcome("much", 0.01, {"dry": 0.4, "cool": 0.2})),
    )
    node = network(known, {}).checks["strip"]
    assert node.outcomes == ("fine", "some", "much")
    assert node.leak == (0.05, 0.01)
    assert node.links == {0: (0.3, 0.2), 1: (0.0, 0.4)}


def test_checks_and_fixes_that_cannot_be_meant_for_the_job_are_left_out() -> None:
    fix = Fix(
        id="hotter",
        title="hotter",
        place=HERE,
        steps=(),
        minutes=1.0,
        condition=ON_COTTON,
        cures={"cool": Chance(0.9), "unheard-of": Chance(0.5)},
    )
    known = knowing(cause("cool", 0.1), fix, check(outcome("fine"), outcome("bad"), condition=ON_COTTON))
    cotton, polyester = network(known, {"item.cloth": "cotton"}), network(known, {"item.cloth": "polyester"})
    assert (set(cotton.checks), cotton.cures) == ({"strip"}, {"hotter": {0: 0.9}})
    assert (dict(polyester.checks), polyester.cures) == ({}, {})


def test_a_plain_network_from_numbers() -> None:
    net = Network.of({"a": 0.1, "b": 0.2}, {"d": (0.01, {"b": 0.5})})
    assert net.causes == ("a", "b")
    assert net.priors == (0.1, 0.2)
    assert net.index == {"a": 0, "b": 1}
    assert net.defects == {"d": FindingNode("d", (0.01,), {1: (0.5,)})}


def test_what_no_job_changes_is_made_once_for_a_knowledge() -> None:
    known = load()
    one, other = network(known, {}), network(known, {"item.hard": True})
    for check in one.checks.keys() & other.checks.keys():
        assert one.checks[check] is other.checks[check]
    changed = replace(known, checks={})
    assert network(changed, {}).checks == {}
    assert network(known, {}) == one


# --- what many jobs share ---


def test_what_jobs_share_is_as_if_it_were_made_for_each() -> None:
    shared = load()
    jobs = [*(item.facts for item in shared.items.values()), {}]
    for job in (*jobs, *reversed(jobs)):
        assert network(shared, job) == network(replace(shared), job)  # a knowledge of its own shares nothing


def test_a_defect_is_looked_up_anew_only_where_other_rules_of_it_may_hold() -> None:
    known = load()
    made = network(known, {"item.polyester": 100.0})
    other = network(known, {"item.polyester": 99.5})
    assert made is not other
    assert all(other.defects[name] is node for name, node in made.defects.items())
    assert network(known, {"item.polyester": 10.0}).defects != made.defects


def test_what_is_kept_for_other_jobs_has_an_end(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(networking, "MOST_NODES", 60)
    monkeypatch.setattr(networking, "MOST_NETWORKS", 7)
    shared = load()
    for job in (item.facts for item in shared.items.values()):
        assert network(shared, job) == network(replace(shared), job)
        assert len(networking._same(shared).defects) <= 60
        assert len(networking._same(shared).networks) <= 7


def test_alike_jobs_on_a_press_of_which_as_much_is_known_share_one() -> None:
    shared, job = load(), {"item.polyester": 100.0, "press.age": 3.0}
    known = Known(cause="platen-runs-cool", turns_up=Chance(0.7), note="reads low")
    cool = network(shared, job, (known,))
    assert network(shared, dict(reversed(job.items())), [known]) is cool
    assert network(shared, job) is not cool
    assert network(shared, job).priors != cool.priors
    assert network(shared, job, (known,)) == network(replace(shared), job, (known,))


# --- what is usual and no certainty ---

CLOTH = Usual((("polyester", 0.7), ("cotton", 0.3)))
USUAL = {"item.cloth": CLOTH}
ON_POLYESTER = Condition((Test("item.cloth", ("polyester",)),))


def shaped(on_cotton: float, otherwise: float) -> Cause:
    return cause("cool", otherwise, Shape(condition=ON_COTTON, turns_up=Chance(on_cotton)))


def test_a_prior_is_the_mean_over_what_is_usual() -> None:
    assert prior(shaped(0.9, 0.0), USUAL) == pytest.approx(0.3 * 0.9)
    assert prior(shaped(0.9, 0.2), USUAL) == pytest.approx(0.3 * 0.9 + 0.7 * 0.2)
    assert prior(cause("cool", 0.1), USUAL) == 0.1


def test_a_rule_counts_as_often_as_it_holds_where_its_cause_is() -> None:
    """The chance of cause and link together is the sum over what the cloth may be."""
    known = knowing(shaped(0.9, 0.2), defect(0.02, rule("cool", 0.5, ON_COTTON), rule("cool", 0.1, ON_POLYESTER)))
    net = network(known, USUAL)
    together = 0.3 * 0.9 * 0.5 + 0.7 * 0.2 * 0.1
    assert net.priors[0] * net.defects["faint"].links[0][0] == pytest.approx(together)


def test_of_a_cause_that_cannot_be_a_rule_counts_as_often_as_it_holds() -> None:
    known = knowing(cause("cool", 0.0), defect(0.02, rule("cool", 0.5, ON_COTTON)))
    assert network(known, USUAL).defects["faint"].links[0][0] == pytest.approx(0.3 * 0.5)


@given(split=st.floats(0.01, 0.99), on_cotton=st.floats(0.0, 0.99), otherwise=st.floats(0.01, 0.99))
def test_what_a_single_sight_says_is_exact(split: float, on_cotton: float, otherwise: float) -> None:
    """By enumeration: what the cloth is, whether the cause is there, whether link or leak bring the defect on."""
    known = knowing(shaped(on_cotton, otherwise), defect(0.05, rule("cool", 0.6, ON_COTTON), rule("cool", 0.2)))
    net = network(known, {"item.cloth": Usual((("polyester", 1.0 - split), ("cotton", split)))})
    there = {"cotton": split * on_cotton, "polyester": (1.0 - split) * otherwise}
    seen = sum(there[cloth] * (1.0 - 0.95 * (1.0 - q)) for cloth, q in (("cotton", 0.6), ("polyester", 0.2)))
    absent = (1.0 - sum(there.values())) * 0.05
    assert believe(net, Evidence(seen=("faint",))).present[0] == pytest.approx(seen / (seen + absent), rel=1e-9)


def labelled(*causes: Cause) -> Knowledge:
    said = outcome("cotton", 0.05, {"cool": 0.9})
    label = check(outcome("polyester"), replace(said, facts=ON_COTTON))
    return knowing(*causes, defect(0.02, *(rule(one.id, 0.5, ON_COTTON) for one in causes)), label)


def test_an_answer_tells_of_the_job_once() -> None:
    """The cause that the label speaks of by itself has its prior from what is usual; another one from what was read."""
    dry = cause("dry", 0.1, Shape(condition=ON_COTTON, turns_up=Chance(0.8)))
    known = labelled(shaped(0.9, 0.2), dry)
    told = read(known, USUAL, {"strip": "cotton"})
    assert told == (("strip", ON_COTTON),)
    net = network(known, USUAL, (), told)
    assert net.priors == pytest.approx((0.3 * 0.9 + 0.7 * 0.2, 0.8))
    assert net.defects["faint"].links[1] == (0.5,)
    assert read(known, USUAL, {"strip": "polyester"}) == ()


def test_nodes_are_shared_where_the_same_is_usual() -> None:
    known = knowing(shaped(0.9, 0.2), defect(0.02, rule("cool", 0.5, ON_COTTON)))
    one = network(known, USUAL)
    assert network(known, {**USUAL, "item.hard": True}).defects["faint"] is one.defects["faint"]
    rarer = network(known, {"item.cloth": Usual((("polyester", 0.9), ("cotton", 0.1)))})
    assert rarer.defects["faint"].links[0][0] < one.defects["faint"].links[0][0]
    assert network(known, {"item.cloth": "cotton"}).defects["faint"].links[0] == (0.5,)
