"""Colours of screens and of instruments, there and back, and against another library."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from skimage import color as skimage_color

from diagnose.press.colour.conversion import from_hex, from_srgb, from_xyz, hexed, shown, to_srgb, to_xyz, under_d65
from diagnose.press.colour.lab import Lab

bytes_ = st.integers(0, 255)


@settings(max_examples=60, deadline=None)
@given(bytes_, bytes_, bytes_)
def test_a_screen_colour_comes_back(red: int, green: int, blue: int) -> None:
    colour = from_srgb(red, green, blue)
    assert to_srgb(colour) == (red, green, blue)
    assert shown(colour)
    assert from_hex(hexed(colour)) == colour


@settings(max_examples=60, deadline=None)
@given(st.floats(0, 100), st.floats(-100, 100), st.floats(-100, 100))
def test_xyz_comes_back(lightness: float, a: float, b: float) -> None:
    back = from_xyz(to_xyz(Lab(lightness, a, b)))
    assert (back.lightness, back.a, back.b) == pytest.approx((lightness, a, b), abs=1e-6)


def test_another_library_agrees() -> None:
    for red, green, blue in ((255, 0, 0), (12, 200, 90), (3, 3, 3), (250, 250, 250), (90, 20, 160)):
        theirs = skimage_color.rgb2lab([[[red / 255, green / 255, blue / 255]]])[0][0]
        ours = from_srgb(red, green, blue)
        assert (ours.lightness, ours.a, ours.b) == pytest.approx(tuple(theirs), abs=0.02)


@pytest.mark.parametrize("light", ["D65", "D50"])
def test_white_is_white_under_both_lights(light: str) -> None:
    assert to_srgb(Lab(100, 0, 0), light) == (255, 255, 255)
    carried = under_d65(Lab(50, 0, 0), light)
    assert (carried.lightness, carried.a, carried.b) == pytest.approx((50, 0, 0), abs=0.02)


def test_a_colour_under_d50_against_the_published_transform() -> None:
    """sRGB red is 54.29, 80.81, 69.89 under D50 by the Bradford transform and 53.24, 80.09, 67.20 under D65."""
    assert to_srgb(Lab(54.29, 80.81, 69.89), "D50") == (255, 0, 0)
    red = from_srgb(255, 0, 0)
    assert (red.lightness, red.a, red.b) == pytest.approx((53.24, 80.09, 67.20), abs=0.01)


def test_a_colour_beyond_the_screen_says_so() -> None:
    assert not shown(Lab(60, -90, 20))
    assert all(0 <= part <= 255 for part in to_srgb(Lab(60, -90, 20)))
