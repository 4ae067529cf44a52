"""Each layer of the planner is at least as good as the one it is built from, and what each reports is true.

Rolling a rule out never costs more than the rule, because every step is the best first step before it (policy
improvement). The asking rule never costs more than acting only: it asks only where asking and then acting is
already cheaper.
"""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.reasoning.planner import acting_only, following_the_rule, options
from diagnose.reasoning.trouble import PlannedQuestion, Trouble
from tests.reasoning.planning.exhaustive import optimum
from tests.reasoning.planning.instances import FEW_QUESTIONS, instance, troubles
from tests.reasoning.planning.policy import asking_rule, cost, rollout, spending

CLOSE = 1e-9


@settings(max_examples=120, deadline=None)
@given(trouble=troubles())
def test_rollout_costs_no_more_than_the_rule_and_the_rule_no_more_than_acting_only(trouble: Trouble) -> None:
    acting = acting_only(trouble.weights, trouble.actions, trouble.call)
    rule = cost(trouble, asking_rule)
    assert rule <= acting + CLOSE
    assert cost(trouble, rollout) <= rule + CLOSE


@pytest.mark.parametrize("seed", range(12))
def test_the_same_holds_of_larger_troubles(seed: int) -> None:
    trouble = instance(seed, *FEW_QUESTIONS)
    acting = acting_only(trouble.weights, trouble.actions, trouble.call)
    rule = cost(trouble, asking_rule)
    assert cost(trouble, rollout) <= rule + CLOSE <= acting + 2 * CLOSE


@settings(max_examples=80, deadline=None)
@given(trouble=troubles())
def test_following_the_rule_costs_and_lasts_what_it_says(trouble: Trouble) -> None:
    told = following_the_rule(trouble, weights=trouble.weights)
    exact = spending(trouble, asking_rule)
    assert told.cost == pytest.approx(exact.cost, abs=1e-9)
    assert told.minutes == pytest.approx(exact.minutes, abs=1e-9)


@settings(max_examples=80, deadline=None)
@given(trouble=troubles())
def test_the_planner_keeps_its_word_or_does_better(trouble: Trouble) -> None:
    # Each next step is planned anew, and may only improve on what the last one counted with.
    assert cost(trouble, rollout) <= options(trouble)[0].cost + CLOSE


@settings(max_examples=60, deadline=None)
@given(trouble=troubles(), share=st.floats(0.0, 0.5))
def test_leaving_thin_branches_never_flatters_the_cost(trouble: Trouble, share: float) -> None:
    whole = following_the_rule(trouble, weights=trouble.weights)
    cut = following_the_rule(trouble, weights=trouble.weights, floor=share)
    assert cut.cost >= whole.cost - CLOSE


@settings(max_examples=60, deadline=None)
@given(trouble=troubles(), factor=st.floats(1.0, 10.0), data=st.data())
def test_a_dearer_step_never_lowers_the_cost_of_the_best_plan(
    trouble: Trouble, factor: float, data: st.DataObject
) -> None:
    actions = tuple(replace(a, cost=a.cost * data.draw(st.sampled_from((1.0, factor)))) for a in trouble.actions)
    questions = tuple(replace(q, cost=q.cost * data.draw(st.sampled_from((1.0, factor)))) for q in trouble.questions)
    dearer = replace(trouble, actions=actions, questions=questions)
    assert optimum(dearer) >= optimum(trouble) - CLOSE
    assert optimum(replace(trouble, call=trouble.call * factor)) >= optimum(trouble) - CLOSE


@settings(max_examples=60, deadline=None)
@given(trouble=troubles(), factor=st.sampled_from((0.125, 0.5, 2.0, 16.0)))
def test_the_cost_it_reports_scales_with_all_prices(trouble: Trouble, factor: float) -> None:
    # Powers of two, so that every comparison comes out bit for bit as before.
    scaled = replace(
        trouble,
        actions=tuple(replace(a, cost=a.cost * factor) for a in trouble.actions),
        questions=tuple(replace(q, cost=q.cost * factor) for q in trouble.questions),
        call=trouble.call * factor,
    )
    assert options(scaled)[0].cost == pytest.approx(options(trouble)[0].cost * factor, rel=1e-6)


@settings(max_examples=60, deadline=None)
@given(trouble=troubles(most_questions=2), data=st.data())
def test_no_information_is_worth_more_than_perfect_information(trouble: Trouble, data: st.DataObject) -> None:
    faults = len(trouble.weights)
    chances = data.draw(st.lists(st.floats(0.0, 1.0), min_size=faults, max_size=faults))
    sample = PlannedQuestion("sample", 0.0, (tuple(chances), tuple(1.0 - chance for chance in chances)))
    perfect = PlannedQuestion("perfect", 0.0, tuple(tuple(float(i == j) for j in range(faults)) for i in range(faults)))
    without = optimum(trouble)
    with_sample = optimum(replace(trouble, questions=(*trouble.questions, sample)))
    with_perfect = optimum(replace(trouble, questions=(*trouble.questions, perfect)))
    assert with_perfect - CLOSE <= with_sample <= without + CLOSE
