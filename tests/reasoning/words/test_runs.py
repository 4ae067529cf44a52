"""How a text is divided into runs of words, each of which tells one thing."""

from collections.abc import Sequence
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.reasoning.words.groups import NOT
from diagnose.reasoning.words.runs import INSIDE, Run, Spoken
from diagnose.reasoning.words.table import Layer
from tests.reasoning.words.layers import layer, said

CLASSES = ["-", "pale", "doubled", "blurred"]
WORDS = ["weak", "twice", "soft", "print", "edge"]
STEPS = st.integers(1, 20)
OWN = st.dictionaries(st.integers(1, 3), STEPS, min_size=1, max_size=3)
FEATURES = st.sampled_from([*WORDS, *(f"{one} {other}" for one in WORDS for other in WORDS)])
LAYERS = st.builds(
    lambda bias, rows: layer(CLASSES, [0.0, *bias], rows),
    st.lists(st.floats(-3, 0), min_size=3, max_size=3),
    st.dictionaries(FEATURES, st.tuples(st.integers(0, 4), OWN), min_size=1, max_size=12),
)
CLAUSES = st.lists(st.lists(st.sampled_from(WORDS), min_size=1, max_size=5).map(" ".join), min_size=1, max_size=3)
SMALL = layer(
    CLASSES,
    [0.0, -1.0, -1.0, -1.0],
    {"weak": (0, {1: 8}), "twice": (0, {2: 12, 3: 4}), "soft": (0, {3: 6}), "print": (12, {1: 1})},
)


def told(spoken: Spoken, runs: Sequence[Run]) -> list[tuple[str, str]]:
    return [
        (spoken.layer.classes[run.told], " ".join(token.key for token in spoken.tokens[run.first : run.last]))
        for run in runs
    ]


def test_the_strongest_takes_its_words_first_and_the_others_what_is_left() -> None:
    spoken = Spoken(SMALL, said(["weak print", "twice", "soft"]))
    assert told(spoken, spoken.divided(1.0)) == [("doubled", "twice"), ("pale", "weak"), ("blurred", "soft")]


def test_each_is_told_once() -> None:
    spoken = Spoken(SMALL, said(["weak", "print", "weak"]))
    assert told(spoken, spoken.divided(1.0)) == [("pale", "weak")]


def test_what_is_told_already_tells_nothing_more() -> None:
    spoken = Spoken(SMALL, said(["weak", "twice"]))
    assert told(spoken, spoken.divided(1.0, {1})) == [("pale", "weak")]


def test_a_name_is_worth_more_than_its_words() -> None:
    spoken = Spoken(SMALL, said(["twice"]))
    assert told(spoken, spoken.divided(1.0, (), [Run(3, 9.0, 0, 1)])) == [("blurred", "twice")]


@pytest.mark.parametrize("no", [NOT, f"weak {NOT}"])
def test_what_is_denied_speaks_for_nothing(no: str) -> None:
    spoken = Spoken(SMALL, said([f"{no} twice"]))
    assert "doubled" not in dict(told(spoken, spoken.divided(0.0)))


def test_not_with_a_word_may_tell_a_thing_by_itself() -> None:
    lack = layer(CLASSES, [0.0, -1.0, -1.0, -1.0], {"sharp": (0, {3: 2}), f"{NOT} sharp": (0, {3: 10})})
    spoken = Spoken(lack, said([f"{NOT} sharp"]))
    assert told(spoken, spoken.divided(1.0)) == [("blurred", f"{NOT} sharp")]


@given(LAYERS, CLAUSES, st.floats(0, 3))
def test_runs_keep_apart_and_each_comes_to_the_least(one: Layer, clauses: list[str], least: float) -> None:
    spoken = Spoken(one, said(clauses))
    runs = spoken.divided(least)
    assert all(run.gain >= least and run.first < run.last for run in runs)
    assert len({run.told for run in runs}) == len(runs)
    assert all(run.last <= other.first or other.last <= run.first for run, other in combinations(runs, 2))
    assert not runs or runs[0] == spoken.ranked(least)[0]


@given(LAYERS, CLAUSES, st.data())
def test_the_best_run_is_the_best_of_all_runs(one: Layer, clauses: list[str], data: st.DataObject) -> None:
    spoken = Spoken(one, said(clauses))
    free = [data.draw(st.booleans()) for _ in spoken.tokens]
    for told_class, own in spoken.own.items():
        gains = [
            gained(spoken, told_class, first, last)
            for first in range(len(free))
            for last in range(first + 1, len(free) + 1)
            if all(free[first:last])
        ]
        found = spoken.best(told_class, free)
        if found is None:
            assert not any(free[place] for place in range(min(own), max(own) + 1))
        else:
            assert found.gain == pytest.approx(gained(spoken, told_class, found.first, found.last))
            assert found.gain == pytest.approx(max(gains)) or max(gains) <= spoken.layer.bias[told_class]


def gained(spoken: Spoken, told_class: int, first: int, last: int) -> float:
    """What a run says for a class, by adding up."""
    cut = [place for place in (first, last) if 0 < place < len(spoken.tokens)]
    inside = sum(spoken.tokens[place - 1].clause == spoken.tokens[place].clause for place in cut)
    return spoken.gain(told_class, first, last) - INSIDE * inside


def test_no_run_comes_to_more_than_the_most() -> None:
    spoken = Spoken(SMALL, said(["weak print twice", "soft twice"]))
    free = [True] * len(spoken.tokens)
    runs = [run for told_class in spoken.own if (run := spoken.best(told_class, free))]
    assert all(run.gain <= spoken.most(run.told) for run in runs)
