"""A pair judged: whether it passes, and which kind of fault it looks like."""

import pytest

from diagnose.press.colour.judging import KINDS, judge
from diagnose.press.colour.lab import Lab

RED, NAVY, BLACK, WHITE = Lab(52, 40, 20), Lab(20, 5, -20), Lab(18, 0, 0), Lab(95, 0, 0)


@pytest.mark.parametrize(
    ("proof", "print_", "kind"),
    [
        (RED, Lab(58, 33, 18), "weaker"),
        (NAVY, Lab(30, 4, -28), "weaker"),  # a deep colour gains chroma on its way to pale
        (BLACK, Lab(26, 0, 1), "weaker"),
        (RED, Lab(45, 42, 20), "stronger"),
        (RED, Lab(50, 30, 15), "duller"),
        (RED, Lab(52, 34, 30), "turned"),
        (BLACK, Lab(21, 4, 6), "browned"),
        (BLACK, Lab(19, 0, -6), "turned"),
        (WHITE, Lab(92, 0, 6), "yellowed"),
        (WHITE, Lab(91, 5, -3), "tinted"),
    ],
)
def test_the_kind_of_fault(proof: Lab, print_: Lab, kind: str) -> None:
    found = judge(proof, print_)
    assert found.signs[0].kind == kind
    assert found.signs[0].size > 0.0
    assert kind in KINDS


def test_what_passes_has_no_fault() -> None:
    near = Lab(53, 39, 20)
    assert judge(RED, near).passes
    assert judge(RED, near).signs == ()
    assert not judge(RED, near, tolerance=0.5).passes
    assert judge(RED, near, tolerance=0.5).signs


def test_a_whiter_ground_is_no_fault() -> None:
    assert judge(Lab(88, 0, 0), Lab(95, 0, 0)).signs == ()


def test_all_of_it_in_one() -> None:
    found = judge(RED, Lab(58, 33, 18))
    assert found.ciede2000 == pytest.approx(6.2857, abs=1e-4)
    assert (found.change, found.staining) == ("2", "3-4")
    assert found.tolerance == 2.0
