"""Grey-scale grades against the standards' own steps."""

from math import cos, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.press.colour import grades
from diagnose.press.colour.lab import Lab

CHANGE = list(zip(grades.CHANGE_STEPS, grades.GRADES, strict=True))
STAINING = list(zip(grades.STAINING_STEPS, grades.GRADES, strict=True))
RATINGS = (5.0, 4.49, 3.99, 3.50, 3.00, 2.50, 2.00, 1.49, 0.98)  # of the steps for staining, worked from the formula
STAINING_RATINGS = list(zip(grades.STAINING_STEPS, RATINGS, strict=True))
colours = st.builds(Lab, st.floats(0, 100), st.floats(-90, 90), st.floats(-90, 90))


@pytest.mark.parametrize(("distance", "rating"), [(0.0, 5.0), (1.7, 4.0), (3.4, 3.0), (6.8, 2.0), (13.6, 1.0)])
def test_change_of_colour_at_whole_grades(distance: float, rating: float) -> None:
    """ISO 105-A05."""
    assert grades.change_rating(distance) == pytest.approx(rating, abs=1e-12)


@pytest.mark.parametrize(
    ("distance", "grade"),
    [
        (0.0, "5"), (0.39, "5"), (0.40, "4-5"), (1.24, "4-5"), (1.25, "4"), (2.09, "4"), (2.10, "3-4"), (2.94, "3-4"),
        (2.95, "3"), (4.09, "3"), (4.10, "2-3"), (5.79, "2-3"), (5.80, "2"), (8.19, "2"), (8.20, "1-2"),
        (11.59, "1-2"), (11.60, "1"), (60.0, "1"),
    ],
)  # fmt: skip
def test_steps_for_change_of_colour(distance: float, grade: str) -> None:
    """ISO 105-A05, the limits between steps."""
    assert grades.change_grade(distance) == grade


@pytest.mark.parametrize(("distance", "grade"), CHANGE)
def test_the_grey_scales_own_steps_get_their_own_grades(distance: float, grade: str) -> None:
    """ISO 105-A02: each step of the scale is two greys apart by this much in lightness. Graded by A05 it is itself."""
    grey, lighter = Lab(40.0, 0.0, 0.0), Lab(40.0 + distance, 0.0, 0.0)
    assert grades.change_distance(grey, lighter) == pytest.approx(distance)
    assert grades.change_grade(grades.change_distance(grey, lighter)) == grade


@pytest.mark.parametrize(
    ("distance", "rating"),
    STAINING_RATINGS,
)
def test_staining_at_the_steps_of_its_grey_scale(distance: float, rating: float) -> None:
    """ISO 105-A04 at the steps of ISO 105-A03, as pure differences of lightness."""
    white, stained = Lab(95.0, 0.0, 0.0), Lab(95.0 - distance, 0.0, 0.0)
    assert grades.staining_rating(grades.staining_distance(white, stained)) == pytest.approx(rating, abs=0.006)


@pytest.mark.parametrize(("distance", "grade"), STAINING)
def test_steps_for_staining(distance: float, grade: str) -> None:
    assert grades.staining_grade(distance) == grade


def test_a_shift_of_colour_stains_less_than_as_much_loss_of_lightness() -> None:
    """ISO 105-A04: ΔE_GS = ΔE − 0.4 √(ΔE² − ΔL²); at ΔE 10 in colour only, 6."""
    white = Lab(90.0, 0.0, 0.0)
    assert grades.staining_distance(white, Lab(90.0, 0.0, 10.0)) == pytest.approx(6.0)
    assert grades.staining_distance(white, Lab(80.0, 0.0, 0.0)) == pytest.approx(10.0)


def test_chroma_counts_for_less_the_more_there_is() -> None:
    """ISO 105-A05 by hand for C 30 to 34 at hue 100: D = 0 (far from blue), ΔC_F = 4 / (1 + 0.64²) = 2.8376."""
    angle = radians(100.0)
    one, other = (Lab(50.0, c * cos(angle), c * sin(angle)) for c in (30.0, 34.0))
    assert grades.change_distance(one, other) == pytest.approx(4.0 / (1.0 + 0.64**2), abs=1e-6)


def test_blue_is_graded_more_gently() -> None:
    """ISO 105-A05 by hand at hue 280, C 30 to 34: D = 4 · 32 / 100 = 1.28, ΔC_F = 2.72 / 1.4096."""
    angle = radians(280.0)
    one, other = (Lab(50.0, c * cos(angle), c * sin(angle)) for c in (30.0, 34.0))
    assert grades.change_distance(one, other) == pytest.approx(2.72 / 1.4096, abs=1e-6)


@settings(max_examples=40, deadline=None)
@given(colours, colours)
def test_a_grade_is_a_step_and_no_change_is_the_best(one: Lab, other: Lab) -> None:
    assert grades.change_grade(grades.change_distance(one, other)) in grades.GRADES
    assert grades.staining_grade(grades.staining_distance(one, other)) in grades.GRADES
    assert grades.change_grade(grades.change_distance(one, one)) == "5"
    assert grades.staining_grade(grades.staining_distance(one, one)) == "5"


@settings(max_examples=40, deadline=None)
@given(st.floats(0, 60), st.floats(0, 60))
def test_a_larger_difference_never_gets_a_better_grade(one: float, other: float) -> None:
    small, large = sorted((one, other))
    assert grades.change_rating(small) >= grades.change_rating(large)
    assert grades.GRADES.index(grades.change_grade(small)) <= grades.GRADES.index(grades.change_grade(large))
    assert grades.GRADES.index(grades.staining_grade(small)) <= grades.GRADES.index(grades.staining_grade(large))
