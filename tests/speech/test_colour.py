"""A colour difference, a distance and a colour as a person would put them."""

from itertools import pairwise

import pytest

from diagnose.press.colour.difference import Difference
from diagnose.press.colour.lab import Lab
from diagnose.speech.colour import in_words, name, seen

PROOF = Lab(52, 40, 20)


@pytest.mark.parametrize(
    ("proof", "print_", "words"),
    [
        (PROOF, PROOF, "no difference to the eye"),
        (PROOF, Lab(52.4, 40.4, 20.2), "no difference to the eye"),
        (PROOF, Lab(52.4, 40.9, 20.4), "hardly a difference to the eye"),
        (PROOF, Lab(53.2, 38, 19), "a little lighter and a little less colourful"),
        (PROOF, Lab(58, 33, 18), "much lighter, less colourful and slightly turned towards yellow"),
        (PROOF, Lab(45, 42, 20), "much darker, a little more colourful and slightly turned towards red"),
        (Lab(95, 0, 0), Lab(93, 0, 5), "yellower and a little darker"),
        (Lab(40, 0, 0), Lab(40, -3, -3), "greener and bluer"),
        (Lab(50, -40, 0), Lab(50, -39, -7), "turned towards blue"),
        (Lab(50, -40, 0), Lab(50, -38, -14), "far turned towards blue"),
    ],
)
def test_what_a_person_would_call_it(proof: Lab, print_: Lab, words: str) -> None:
    assert in_words(Difference(proof, print_)) == words


def test_a_distance_in_words_rises_with_it() -> None:
    told = [seen(distance) for distance in (0.2, 0.7, 1.5, 3.0, 9.0)]
    assert len(set(told)) == 5
    assert all(one != other for one, other in pairwise(told))


@pytest.mark.parametrize(
    ("colour", "called"),
    [
        (Lab(18, 0, -1), "black"),
        (Lab(95, 0, 2), "white"),
        (Lab(55, 0, 0), "grey"),
        (Lab(25, 15, -45), "dark blue"),
        (Lab(45, 65, 45), "red"),
        (Lab(88, -2, 25), "pale yellow"),
        (Lab(40, 20, 35), "brown"),
        (Lab(70, 40, -3), "pink"),
        (Lab(91, 1, 11), "cream"),
        (Lab(50, -35, 25), "green"),
    ],
)
def test_a_plain_name(colour: Lab, called: str) -> None:
    assert name(colour) == called
