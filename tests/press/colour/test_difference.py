"""CIEDE2000 against its authors' own test data, against two other libraries, and by its laws."""

import csv
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from skimage import color as skimage_color

from diagnose.press.colour.difference import Difference, ciede2000
from diagnose.press.colour.lab import Lab
from diagnose.press.colour.looks import towards

# G. Sharma, W. Wu, E. N. Dalal, "The CIEDE2000 color-difference formula: implementation notes, supplementary test
# data, and mathematical observations", Color Research and Application 30 (2005), table 1: all 34 pairs.
SHARMA = [
    tuple(map(float, row.values()))
    for row in csv.DictReader((Path(__file__).parent / "sharma.csv").read_text().splitlines())
]
colours = st.builds(Lab, st.floats(0, 100), st.floats(-90, 90), st.floats(-90, 90))


def test_every_pair_is_there() -> None:
    assert len(SHARMA) == 34


@pytest.mark.parametrize("row", SHARMA)
def test_the_authors_pairs(row: tuple[float, ...]) -> None:
    one, other = Lab(*row[:3]), Lab(*row[3:6])
    assert ciede2000(one, other) == pytest.approx(row[6], abs=5e-5)
    assert ciede2000(other, one) == pytest.approx(row[6], abs=5e-5)


def test_two_other_libraries_agree() -> None:
    from colour import difference as colour_science  # it takes seconds to load

    for row in SHARMA:
        if row[:5] == (50.0, -0.001, 2.49, 50.0, 0.001):
            continue  # on the branch of the hue: rounding decides
        ours = ciede2000(Lab(*row[:3]), Lab(*row[3:6]))
        assert ours == pytest.approx(float(skimage_color.deltaE_ciede2000(row[:3], row[3:6])), abs=1e-9)
        assert ours == pytest.approx(float(colour_science.delta_E_CIE2000(row[:3], row[3:6])), abs=1e-9)


@settings(max_examples=60, deadline=None)
@given(colours, colours)
def test_symmetric_never_below_zero_and_zero_for_the_same(one: Lab, other: Lab) -> None:
    assert ciede2000(one, other) == pytest.approx(ciede2000(other, one), abs=1e-9)
    assert ciede2000(one, other) >= 0.0
    assert ciede2000(one, one) == 0.0


@settings(max_examples=60, deadline=None)
@given(colours, colours)
def test_lightness_chroma_and_hue_make_up_the_plain_distance(one: Lab, other: Lab) -> None:
    found = Difference(one, other)
    whole = found.lightness**2 + found.chroma**2 + found.hue_distance**2
    assert whole**0.5 == pytest.approx(found.cielab, abs=1e-6)
    assert -180.0 <= found.hue <= 180.0


def test_a_turn_leads_to_the_next_hue_either_way() -> None:
    orange = Lab(60, 30, 50)
    assert towards(Difference(orange, Lab(60, 25, 53))) == "yellow"
    assert towards(Difference(orange, Lab(60, 40, 42))) == "red"
    purple_red = Lab(40, 50, 2)
    assert towards(Difference(purple_red, Lab(40, 50, -10))) == "purple"
    assert towards(Difference(purple_red, Lab(40, 50, 12))) == "red"
    yellow = Lab(85, 2, 78)
    assert towards(Difference(yellow, Lab(50, -40, 10))) == "green"
    assert towards(Difference(yellow, Lab(50, -20, -25))) == "blue"
