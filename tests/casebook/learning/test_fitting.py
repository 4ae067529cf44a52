"""Expectation-maximisation: it climbs, it stands still without cases, and it shrinks as stated."""

from random import Random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.casebook.learning.expecting import Expected, expect
from diagnose.casebook.learning.fitting import Held, fit, maximise
from diagnose.casebook.learning.jobs import Jobs
from diagnose.casebook.learning.learning import learn
from diagnose.casebook.learning.numbers import Ints, Numbers, parameters
from diagnose.casebook.learning.weights import TURNS_UP
from diagnose.knowledge.loading import load
from diagnose.reasoning.evidence import Evidence, Tried
from diagnose.reasoning.network import Network
from tests.casebook.learning.harbour import Harbour
from tests.casebook.learning.wired import gather, nets, tables, wired
from tests.reasoning.networks import story, with_checks
from tests.reasoning.strategies import cases, inner


def held(shipped: Numbers) -> Held:
    return Held.shipped(shipped, rules=0)


@pytest.mark.parametrize("seed", range(12))
def test_the_penalised_likelihood_never_falls(seed: int) -> None:
    random = Random(seed)
    net = with_checks(random, causes=6, defects=5)
    parameters_, wiring = wired(net)
    entered = tables([(story(random, net), float(random.randint(1, 9))) for _ in range(30)], parameters_, wiring)

    def step(numbers: Numbers, turn_of: Ints) -> Expected:
        return expect(entered, nets(wiring), numbers)

    shipped, turn_of = parameters_.shipped, nets(wiring).turns_up
    fitted = fit(shipped, step(shipped, turn_of), held(shipped), turn_of, step, enough=1e-12, most=30)
    climbed = np.diff(fitted.climbed)
    assert climbed[0] > 1e-3  # there was something to learn
    assert climbed.min() > -1e-9
    everything = (fitted.numbers.turns_up, fitted.numbers.links, fitted.numbers.cures)
    assert all(((each >= 0.0) & (each <= 1.0)).all() for each in everything)
    assert (fitted.numbers.links.sum(axis=1) <= 1.0).all()


@given(cases(inner), st.integers(1, 200))
def test_one_step_never_falls_for_any_case(case: tuple[Network, Evidence], count: int) -> None:
    net, evidence = case
    parameters_, wiring = wired(net)
    entered, shipped = tables([(evidence, float(count))], parameters_, wiring), parameters_.shipped
    before = expect(entered, nets(wiring), shipped)
    now = maximise(shipped, held(shipped), nets(wiring).turns_up, before)
    after = expect(entered, nets(wiring), now)
    gained = (
        after.log_likelihood + held(shipped).log_prior(now) - before.log_likelihood - held(shipped).log_prior(shipped)
    )
    assert gained > -1e-7 * count


def test_without_cases_nothing_changes_to_the_last_bit() -> None:
    knowledge = load()
    jobs = Jobs(knowledge, parameters(knowledge))
    learnt = learn(gather([], jobs), jobs.parameters)
    for name in ("turns_up", "links", "cures"):
        assert np.array_equal(getattr(learnt.numbers, name), getattr(jobs.parameters.shipped, name))


def test_a_number_without_cases_stays_to_the_last_bit_while_others_learn() -> None:
    knowledge = load()
    jobs = Jobs(knowledge, parameters(knowledge))
    cases_ = [(case, 1) for case in Harbour(knowledge, seed=1).cases(3)]
    learnt = learn(gather(cases_, jobs), jobs.parameters)
    tried = {case.cured_by for case, _ in cases_} | {t.fix for case, _ in cases_ for t in case.session.evidence.tried}
    untouched = [place for place, cure in enumerate(jobs.parameters.cures) if cure.fix not in tried]
    assert len(untouched) > 100
    assert np.array_equal(learnt.numbers.cures[untouched], jobs.parameters.shipped.cures[untouched])
    assert not np.array_equal(learnt.numbers.turns_up, jobs.parameters.shipped.turns_up)


def test_a_chance_of_seven_tenths_that_weighs_ten_cases_and_one_case_against_it() -> None:
    """.71 x 10 / 11 = .645: what a mean of a beta distribution comes to."""
    shipped = Numbers(np.array([0.71]), np.zeros((1, 1)), np.zeros(0))
    one, none = np.zeros((1, 1)), np.zeros(0)
    seen = Expected(one.copy(), one.copy(), np.zeros(1), one.copy(), one.copy(), none, none)
    seen.cases[:] = 1.0
    ten = Held(shipped, np.array([10.0]), np.zeros(1), np.zeros(0), np.zeros(1, bool))
    learnt = maximise(shipped, ten, np.zeros((1, 1), np.int64), seen)
    assert learnt.turns_up[0] == pytest.approx(7.1 / 11.0)


def test_what_is_impossible_or_certain_stays_so() -> None:
    net = Network.of(
        {"never": 0.0, "always": 1.0, "rare": 0.1}, {"d": (0.01, {"never": 0.5, "always": 0.5, "rare": 0.5})}
    )
    parameters_, wiring = wired(net)
    entered = tables([(Evidence(seen=("d",)), 50.0)], parameters_, wiring)
    found = expect(entered, nets(wiring), parameters_.shipped)
    learnt = maximise(parameters_.shipped, held(parameters_.shipped), nets(wiring).turns_up, found)
    assert learnt.turns_up[:2].tolist() == [0.0, 1.0]
    assert 0.0 < learnt.turns_up[2] < 1.0


def test_a_cure_is_evidence_and_no_label() -> None:
    """A fix that cures two causes worked: both became likelier, by their priors, and neither is certain."""
    net = Network.of({"one": 0.1, "other": 0.05}, {"d": (0.01, {"one": 0.5, "other": 0.5})})
    net = Network(net.causes, net.priors, net.defects, {}, {"fix": {0: 0.9, 1: 0.9}}, net.index)
    parameters_, wiring = wired(net)
    cured = Evidence(seen=("d",), tried=(Tried("fix", "", ("d",)),))
    found = expect(tables([(cured, 1.0)], parameters_, wiring), nets(wiring), parameters_.shipped)
    assert 0.5 < found.there[0, 0] < 0.9
    assert 0.1 < found.there[0, 1] < 0.5
    assert found.cured.sum() == pytest.approx(found.tried.sum(), abs=0.1)


def test_many_cases_outweigh_the_shipped_number() -> None:
    net = Network.of({"c": 0.1}, {"d": (0.0001, {"c": 0.9})})
    parameters_, wiring = wired(net)
    entered = tables([(Evidence(seen=("d",)), 1000.0)], parameters_, wiring)

    def step(numbers: Numbers, turn_of: Ints) -> Expected:
        return expect(entered, nets(wiring), numbers)

    shipped, turn_of = parameters_.shipped, nets(wiring).turns_up
    fitted = fit(shipped, step(shipped, turn_of), held(shipped), turn_of, step, enough=1e-9)
    assert fitted.numbers.turns_up[0] == pytest.approx((1000.0 + 0.1 * TURNS_UP) / (1000.0 + TURNS_UP), abs=1e-3)
