"""What the words of a text say for one thing, and the run that says most for it."""

from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.reasoning.words.runs import INSIDE, REST, Spoken
from diagnose.reasoning.words.table import WordLayer
from tests.reasoning.words.layers import CLAUSES, LAYERS, SMALL, said


@given(LAYERS, CLAUSES, st.data())
def test_the_best_run_is_the_best_of_all_runs(one: WordLayer, clauses: list[str], data: st.DataObject) -> None:
    spoken = Spoken(one, said(clauses))
    free = [data.draw(st.booleans()) for _ in spoken.tokens]
    for told_class, own in spoken.own.items():
        reach = spoken.said(told_class, free)
        gains = [
            gained(spoken, free, told_class, first, last)
            for first in range(reach.begins, reach.ends)
            for last in range(first + 1, reach.ends + 1)
            if all(free[first:last])
        ]
        found = spoken.best(told_class, free)
        if found is None:
            assert not any(free[place] for place in range(min(own), max(own) + 1))
        else:
            assert found.gain == pytest.approx(gained(spoken, free, told_class, found.first, found.last))
            assert found.gain == pytest.approx(max(gains))


def gained(spoken: Spoken, free: Sequence[bool], told_class: int, first: int, last: int) -> float:
    """What a run says for a class, by adding up: its own tokens, and a share of the rest of its clauses."""
    said_here = spoken.said(told_class, free).on
    clauses = [token.clause for token in spoken.tokens]
    before = [place for place in range(first) if clauses[place] == clauses[first]]
    after = [place for place in range(last, len(clauses)) if clauses[place] == clauses[last - 1]]
    left = [sum(said_here[place] for place in part if free[place]) for part in (before, after) if part]
    rest = sum(REST[0] * each - INSIDE for each in left)
    return spoken.gain(told_class, first, last) + rest


def test_no_run_comes_to_more_than_the_most() -> None:
    spoken = Spoken(SMALL, said(["weak print twice", "soft twice"]))
    free = [True] * len(spoken.tokens)
    runs = [run for told_class in spoken.own if (run := spoken.best(told_class, free))]
    assert all(run.gain <= spoken.most(run.told) for run in runs)
