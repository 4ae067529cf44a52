"""Blends: published values of the ways to add fibres up, their order, and what a blend must do to a print."""

from collections.abc import Iterable
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from diagnose.press.colour import mixing
from diagnose.press.colour.blend import WHITE_CLOTH, blend
from diagnose.press.colour.conversion import to_xyz
from diagnose.press.colour.difference import ciede2000
from diagnose.press.colour.lab import Lab
from diagnose.press.colour.observer import WAVELENGTHS, WHITE
from diagnose.press.colour.spectrum import NoSurface, colour_of, nearest, smoothest

HALVES = [(0.5, 0.05), (0.5, 0.80)]
shares = st.floats(0, 1)
reflectances = st.floats(0.001, 1.0)
SOLID = [Lab(18, 0, -1), Lab(45, 60, 40), Lab(25, 15, -45), Lab(85, 0, 80), Lab(52, 40, 20), Lab(50, -40, 25)]


def side_by_side(parts: Iterable[tuple[float, float]], wavelength: float = 555.0) -> float:
    """Threads with no light passing between them: plain addition, the lightest that can be."""
    return sum(share * value for share, value in parts)


@pytest.mark.parametrize(
    ("reflected", "depth"), [(0.02, 24.01), (0.05, 9.025), (0.1, 4.05), (0.2, 1.6), (0.5, 0.25), (1.0, 0.0)]
)
def test_k_over_s(reflected: float, depth: float) -> None:
    """P. Kubelka and F. Munk (1931): K/S = (1 − R)² / 2R, there and back."""
    assert mixing.absorption(reflected) == pytest.approx(depth, abs=1e-9)
    assert mixing.reflectance(depth) == pytest.approx(reflected, abs=1e-9)


def test_half_and_half_by_every_way() -> None:
    """Worked by hand from the published formulas for reflectances .05 and .80; b = 0.15 is Stearns and Noechel's own,
    0.09 in Friele's is quoted from memory."""
    assert mixing.kubelka_munk(HALVES) == pytest.approx(0.0913, abs=5e-5)
    assert mixing.friele(HALVES) == pytest.approx(0.1091, abs=5e-5)
    assert mixing.stearns_noechel_with(0.15, HALVES) == pytest.approx(0.1330, abs=5e-5)
    assert side_by_side(HALVES) == pytest.approx(0.425)


EVERY_WAY: tuple[mixing.Way, ...] = (*mixing.WAYS.values(), side_by_side)


@settings(max_examples=60, deadline=None)
@given(shares, reflectances, reflectances)
def test_every_way_stays_between_the_two(share: float, one: float, other: float) -> None:
    parts = [(share, one), (1.0 - share, other)]
    for way in EVERY_WAY:
        assert min(one, other) - 1e-9 <= way(parts, 555.0) <= max(one, other) + 1e-9


@settings(max_examples=60, deadline=None)
@given(shares, st.floats(0.02, 0.3), st.floats(0.5, 0.95))
def test_dyed_among_bare_fibres_the_ways_keep_their_order(share: float, dyed: float, bare: float) -> None:
    parts = [(share, dyed), (1.0 - share, bare)]
    found = [mixing.kubelka_munk(parts), mixing.friele(parts), side_by_side(parts)]
    assert all(low <= high + 1e-9 for low, high in pairwise(found))
    assert found[0] - 1e-9 <= mixing.stearns_noechel(parts) <= found[2] + 1e-9


@settings(max_examples=30, deadline=None)
@given(reflectances)
def test_fibres_all_of_one_colour_keep_it(value: float) -> None:
    for way in EVERY_WAY:
        assert way([(0.3, value), (0.7, value)], 555.0) == pytest.approx(value, abs=1e-9)


def test_b_rises_with_the_wavelength() -> None:
    """D. Philips-Invernizzi and others (2002): b = (0.12 nm + 42.75) / 1000."""
    assert mixing.stearns_noechel(HALVES, 400.0) == mixing.stearns_noechel_with(0.09075, HALVES)
    assert mixing.stearns_noechel(HALVES, 700.0) == mixing.stearns_noechel_with(0.12675, HALVES)


@pytest.mark.parametrize("colour", SOLID)
def test_a_reflectance_gives_its_colour_back(colour: Lab) -> None:
    spectrum = smoothest(colour)
    assert ciede2000(colour_of(spectrum), colour) < 1e-4
    assert len(spectrum) == len(WAVELENGTHS)
    assert all(0.0 <= value <= 1.0 for value in spectrum)


def test_grey_is_flat() -> None:
    assert max(smoothest(Lab(50, 0, 0))) == pytest.approx(min(smoothest(Lab(50, 0, 0))), abs=1e-9)


@settings(max_examples=25, deadline=None)
@given(st.floats(2, 99), st.floats(-70, 70), st.floats(-70, 70))
def test_any_colour_a_surface_can_have_comes_back_and_any_other_is_told(lightness: float, a: float, b: float) -> None:
    colour = Lab(lightness, a, b)
    spectrum, taken = nearest(colour)
    assert ciede2000(colour_of(spectrum), taken) < 1e-3
    if taken != colour:
        with pytest.raises(NoSurface):
            smoothest(colour)


def test_the_table_of_the_eye_against_another_library() -> None:
    """CIE 1931 observer and D65: the white that another library gives for them."""
    from colour import models as science  # it takes seconds to load

    xy = (WHITE[0] / sum(WHITE), WHITE[1] / sum(WHITE))
    assert xy == pytest.approx((0.3127, 0.3290), abs=3e-4)
    colour = Lab(52, 40, 20)
    theirs = science.Lab_to_XYZ([52, 40, 20], xy)
    assert to_xyz(colour, WHITE) == pytest.approx(tuple(theirs), abs=1e-9)


@pytest.mark.parametrize("colour", SOLID)
def test_all_polyester_keeps_its_colour_and_the_wash_takes_nothing(colour: Lab) -> None:
    (only,) = blend(colour, [1.0]).on
    for ways in (only.fresh, only.washed):
        assert all(ciede2000(each, colour) < 0.05 for each in ways.by.values())
        assert ways.spread < 0.01
    assert (only.lost, only.threads) == (pytest.approx(0.0, abs=0.01), 0.0)


@pytest.mark.parametrize("colour", SOLID)
def test_all_cotton_is_bare_after_the_wash(colour: Lab) -> None:
    (only,) = blend(colour, [0.0]).on
    assert ciede2000(only.washed.stated, WHITE_CLOTH) < 0.05
    assert ciede2000(only.fresh.stated, WHITE_CLOTH) > 2.0


@settings(max_examples=15, deadline=None)
@given(st.sampled_from(SOLID), st.floats(0, 1), st.floats(0, 1))
def test_the_more_cotton_the_paler_and_the_more_the_wash_takes(colour: Lab, one: float, other: float) -> None:
    """Heywood and Lambert (1977): untreated blends print paler and wash out, the more so the more cotton."""
    assume(abs(one - other) > 1e-6)
    low, high = sorted((one, other))
    more, less = blend(colour, [high, low]).on
    assert less.lost >= more.lost - 1e-9
    assert less.off >= more.off - 1e-9
    assert less.washed.stated.lightness >= more.washed.stated.lightness - 1e-9


def test_blended_threads_differ_which_is_what_looks_heathered() -> None:
    half, full = blend(Lab(25, 15, -45), [0.5, 1.0]).on
    assert half.threads > 40.0
    assert full.threads == 0.0


def test_no_ink_makes_a_tinted_cloth_lighter() -> None:
    tinted = Lab(80, 5, 25)
    pale = blend(Lab(92, 0, 0), [1.0, 0.5], ground=tinted)
    assert pale.full.lightness <= tinted.lightness + 0.01
    assert ciede2000(pale.full, tinted) < 4.0  # a pale tint hardly shows on it
    blue = blend(Lab(45, -5, -40), [1.0], ground=tinted)
    assert blue.full.b > -40  # blue over yellow leans to green


def test_a_brightened_ground_is_taken_as_the_nearest_a_surface_can_be() -> None:
    ground = Lab(94, 3, -14)
    found = blend(Lab(45, 60, 40), [0.5], ground=ground)
    assert found.taken[ground].lightness == 94
    assert found.taken[ground].chroma < ground.chroma
    assert blend(Lab(45, 60, 40), [0.5]).taken == {}


def test_more_dye_on_cotton_means_more_to_lose() -> None:
    little, much = (blend(Lab(45, 60, 40), [0.5], on_cotton=share).on[0] for share in (0.1, 0.5))
    assert much.lost > little.lost
    assert much.off == pytest.approx(little.off)
