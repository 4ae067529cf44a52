"""How a text is divided as a whole into runs of words, each of which tells one thing."""

from collections.abc import Iterator, Sequence
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.reasoning.words.division import Dividing, divided
from diagnose.reasoning.words.groups import NOT
from diagnose.reasoning.words.runs import NEVER, Said, Spoken, Stretch
from diagnose.reasoning.words.table import WordLayer
from tests.reasoning.words.layers import CLASSES, CLAUSES, LAYERS, SMALL, layer, said

COSTS = st.tuples(st.floats(0, 3), st.floats(0, 8))


def told(spoken: Spoken, runs: Sequence[Stretch]) -> list[tuple[str, str]]:
    return [
        (spoken.layer.classes[run.told], " ".join(token.key for token in spoken.tokens[run.first : run.last]))
        for run in runs
    ]


def test_each_thing_told_takes_its_words() -> None:
    spoken = Spoken(SMALL, said(["weak", "twice print", "soft"]))
    assert told(spoken, divided(spoken, 1.0, 1.0)) == [("pale", "weak"), ("blurred", "soft"), ("doubled", "twice")]


def test_a_strong_telling_does_not_swallow_what_another_says_better() -> None:
    rows = {"weak": (0, {1: 20}), "soft": (0, {1: 1, 3: 12})}
    spoken = Spoken(layer(CLASSES, [0.0, -1.0, -1.0, -1.0], rows), said(["soft", "weak"]))
    assert told(spoken, divided(spoken, 1.0, 2.0)) == [("pale", "weak"), ("blurred", "soft")]
    assert told(spoken, divided(spoken, 1.0, 6.0)) == [("pale", "soft weak")]


def test_each_is_told_once() -> None:
    spoken = Spoken(SMALL, said(["weak", "print", "weak"]))
    assert told(spoken, divided(spoken, 1.0, 1.0)) == [("pale", "weak")]


def test_what_is_told_already_tells_nothing_more() -> None:
    spoken = Spoken(SMALL, said(["weak", "twice"]))
    assert told(spoken, divided(spoken, 1.0, 1.0, {1})) == [("pale", "weak")]


def test_a_name_is_worth_more_than_its_words() -> None:
    spoken = Spoken(SMALL, said(["twice"]))
    assert told(spoken, divided(spoken, 1.0, 1.0, (), [Stretch(3, 9.0, 0, 1)])) == [("blurred", "twice")]


@pytest.mark.parametrize("no", [NOT, f"weak {NOT}"])
def test_what_is_denied_speaks_for_nothing(no: str) -> None:
    spoken = Spoken(SMALL, said([f"{no} twice"]))
    assert "doubled" not in dict(told(spoken, divided(spoken, 0.0, 0.0)))


def test_not_with_a_word_may_tell_a_thing_by_itself() -> None:
    lack = layer(CLASSES, [0.0, -1.0, -1.0, -1.0], {"sharp": (0, {3: 2}), f"{NOT} sharp": (0, {3: 10})})
    spoken = Spoken(lack, said([f"{NOT} sharp"]))
    assert told(spoken, divided(spoken, 1.0, 1.0)) == [("blurred", f"{NOT} sharp")]


@given(LAYERS, CLAUSES, COSTS)
def test_runs_keep_apart_and_the_strongest_comes_first(
    one: WordLayer, clauses: list[str], costs: tuple[float, float]
) -> None:
    spoken = Spoken(one, said(clauses))
    runs = divided(spoken, *costs)
    assert all(run.first < run.last for run in runs)
    assert [run.gain for run in runs] == sorted((run.gain for run in runs), reverse=True)
    assert len({run.told for run in runs}) == len(runs)
    assert all(run.last <= other.first or other.last <= run.first for run, other in combinations(runs, 2))


@given(LAYERS, CLAUSES, COSTS, st.sampled_from(["before", "behind"]))
def test_idle_talk_beside_it_changes_nothing(
    one: WordLayer, clauses: list[str], costs: tuple[float, float], where: str
) -> None:
    alone = Spoken(one, said(clauses))
    beside = Spoken(one, said(["hello", *clauses] if where == "before" else [*clauses, "hello"]))
    assert told(beside, divided(beside, *costs)) == told(alone, divided(alone, *costs))


@given(LAYERS, st.lists(st.sampled_from(["weak", "twice", "soft print"]), min_size=1, max_size=2), COSTS)
def test_no_division_is_worth_more(one: WordLayer, clauses: list[str], costs: tuple[float, float]) -> None:
    spoken = Spoken(one, said(clauses))
    free = [True] * len(spoken.tokens)
    each = {told_class: spoken.said(told_class, free) for told_class in spoken.own}
    division = Dividing(free, each, [], *costs)
    division.runs()
    best = max(worth(runs, each, *costs) for runs in every(len(free), sorted(each)))
    assert max(0.0, division.worth[-1]) == pytest.approx(best)


def worth(runs: Sequence[tuple[int, int, int]], said: dict[int, Said], first: float, further: float) -> float:
    """What a division is worth, by adding up; next to nothing where a run lies where nothing speaks for it."""
    total = 0.0
    for number, (told_class, begun, last) in enumerate(runs):
        what = said[told_class]
        if begun < what.begins or last > what.ends:
            return NEVER
        total += what.begin[begun] + sum(what.on[begun + 1 : last]) + what.end[last] - (further if number else first)
    return total


def every(total: int, classes: Sequence[int], first: int = 0) -> Iterator[list[tuple[int, int, int]]]:
    """Every division of tokens from ``first`` on into runs and idle tokens."""
    if first == total:
        yield []
        return
    for rest in every(total, classes, first + 1):
        yield rest
    for last in range(first + 1, total + 1):
        for rest in every(total, classes, last):
            for told_class in classes:
                yield [(told_class, first, last), *rest]
