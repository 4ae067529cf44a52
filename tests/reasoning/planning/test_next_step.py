"""Which step comes first: free knowledge is taken, help called where all else costs more, ties go by id."""

from dataclasses import replace

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from diagnose.dialogue.moves import Answered
from diagnose.reasoning.planner import Step, options
from diagnose.reasoning.trouble import Action, PlannedQuestion, Trouble
from tests.dialogue.workshop import at_work, opened
from tests.reasoning.planning.instances import troubles

EVEN = PlannedQuestion("even", 1.0, ((0.5, 0.5), (0.5, 0.5)))


@settings(max_examples=60, deadline=None)
@given(trouble=troubles())
def test_a_free_perfect_question_is_asked_first(trouble: Trouble) -> None:
    faults = len(trouble.weights)
    perfect = PlannedQuestion("perfect", 0.0, tuple(tuple(float(i == j) for j in range(faults)) for i in range(faults)))
    paid = tuple(replace(question, cost=question.cost + 0.01) for question in trouble.questions)
    assert options(replace(trouble, questions=(*paid, perfect)))[0].step is perfect


@settings(max_examples=60, deadline=None)
@given(trouble=troubles())
def test_help_is_called_where_everything_else_costs_more(trouble: Trouble) -> None:
    steps: tuple[Step, ...] = (*trouble.actions, *trouble.questions)
    cheapest = min([step.cost for step in steps], default=1.0)
    assume(cheapest > 1e-6)
    best = options(replace(trouble, call=cheapest * 0.99))[0]
    assert best.step is None


def test_help_is_called_where_nothing_is_left_to_do() -> None:
    found = options(Trouble((0.7, 0.3), (), (), call=60.0))
    assert [(option.step, option.cost) for option in found] == [(None, 60.0)]


def test_a_question_that_tells_nothing_is_never_first() -> None:
    trouble = Trouble((0.7, 0.3), (Action("fix", 5.0, ((0, 0.9),)),), (EVEN,), call=60.0)
    assert options(trouble)[0].step is trouble.actions[0]


def test_an_action_that_cures_nothing_here_is_no_option() -> None:
    trouble = Trouble((1.0, 0.0), (Action("elsewhere", 1.0, ((1, 0.9),)),), (), call=60.0)
    assert [option.step for option in options(trouble)] == [None]


@settings(max_examples=60, deadline=None)
@given(trouble=troubles(), data=st.data())
def test_what_was_taken_is_no_option_any_more(trouble: Trouble, data: st.DataObject) -> None:
    assume(trouble.actions or trouble.questions)
    steps: tuple[Step, ...] = (*trouble.actions, *trouble.questions)
    taken = data.draw(st.sampled_from(steps))
    assert all(option.step is not taken for option in options(trouble.without(taken)))


@settings(max_examples=60, deadline=None)
@given(trouble=troubles())
def test_options_are_the_cheapest_first_and_calling_is_always_one_of_them(trouble: Trouble) -> None:
    found = options(trouble)
    costs = [round(option.cost, 9) for option in found]
    assert costs == sorted(costs)
    assert [option.step for option in found].count(None) == 1


def test_ties_go_by_id_in_whatever_order_they_are_given() -> None:
    actions = tuple(Action(name, 3.0, ((0, 0.5), (1, 0.5))) for name in ("oil", "air", "tar"))
    questions = tuple(replace(EVEN, id=name) for name in ("look", "feel"))
    for turned in (actions, actions[::-1], (actions[1], actions[2], actions[0])):
        found = options(Trouble((0.5, 0.5), turned, questions, call=50.0))
        assert [option.step.id for option in found if option.step is not None] == [
            "air",
            "oil",
            "tar",
            "feel",
            "look",
        ]


@settings(max_examples=60, deadline=None)
@given(trouble=troubles(), data=st.data())
def test_the_order_in_which_steps_are_listed_does_not_matter(trouble: Trouble, data: st.DataObject) -> None:
    actions = data.draw(st.permutations(trouble.actions))
    questions = data.draw(st.permutations(trouble.questions))
    turned = replace(trouble, actions=tuple(actions), questions=tuple(questions))
    assert abs(options(turned)[0].cost - options(trouble)[0].cost) < 1e-9


def test_where_calling_costs_the_same_it_comes_last() -> None:
    trouble = Trouble((1.0,), (Action("fix", 10.0, ((0, 1.0),)),), (), call=10.0)
    assert [option.step for option in options(trouble)] == [trouble.actions[0], None]


def test_what_is_all_but_certain_is_put_right_before_another_cause_is_asked_about() -> None:
    session = opened("pale", "steam-marks").make(Answered("probe", "reads-low")).make(Answered("clock", "nothing"))
    session = session.make(Answered("probe", "reads-low", True))
    now = at_work(session)
    likeliest, other = now.suspects[:2]
    assert (likeliest.cause, other.cause) == ("runs-cool", "damp-towel")
    assert likeliest.behind > 0.9
    assert other.behind > 0.5
    assert (now.advice.kind, now.advice.id) == ("fix", "turn-up-heat")
