"""Figures as people write them, and what is refused."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.foresight.figures import COLOURS, FIGURES, NAMES, colour, sensible, sheets, typed
from diagnose.press.colour.lab import Lab
from diagnose.press.quantities import Unclear


@pytest.mark.parametrize("name", FIGURES)
def test_the_example_of_each_figure_is_taken_and_makes_sense(name: str) -> None:
    figure = FIGURES[name]
    assert typed(figure, figure.example) == {name: figure.read(figure.example)}
    assert sensible(name, figure.read(figure.example))


@pytest.mark.parametrize(
    "text",
    [
        "371F against 385F",
        "371 °F / 385 °F",
        "371f; 385f",
        "371F where 385F is set",
        "371F against the display's 385F",
        "371F against set 385F",
        "371F instead of 385F",
        "188.333C against 196.111C",
    ],
)
def test_a_figure_with_the_one_beside_it(text: str) -> None:
    assert typed(FIGURES["probe"], text) == pytest.approx({"probe": 188.333, "set": 196.111}, abs=1e-3)


@pytest.mark.parametrize("text", ["2", "2 sheets", " 2 Layers "])
def test_sheets(text: str) -> None:
    assert sheets(text) == 2.0


@pytest.mark.parametrize(
    ("name", "text", "wrong"),
    [
        ("probe", "196", "is it 196F or 196C? Write the unit after the number"),
        ("probe", "371F against 196", "is it 196F or 196C?"),
        ("probe", "371F / 385F / 390F", "more than two figures"),
        ("probe", "700F", "makes no sense as a temperature"),
        ("probe", "cool", "is not a temperature"),
        ("watch", "40s against 50C", "is not a unit of dwell"),
        ("dwell", "0s", "must be above 0"),
        ("sheets", "2.5", "not a number of sheets"),
        ("sheets", "21", "up to 20"),
        ("sheets", "-1", "not a number of sheets"),
        ("thickness", "0mm", "above 0"),
        ("set", "385F against 371F", "is not"),
    ],
)
def test_what_is_refused_says_why(name: str, text: str, wrong: str) -> None:
    with pytest.raises(Unclear) as caught:
        typed(FIGURES[name], text)
    assert wrong in str(caught.value)


def test_every_name_that_a_figure_is_held_under_is_known() -> None:
    assert set(FIGURES) < NAMES
    for name in COLOURS:
        assert set(colour(name, Lab(52.0, 40.0, 20.0))) < NAMES


@given(name=st.sampled_from(sorted(NAMES)), value=st.sampled_from((-1e6, 1e6)))
def test_what_no_instrument_shows_makes_no_sense(name: str, value: float) -> None:
    assert not sensible(name, value)
