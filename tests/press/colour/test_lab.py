"""Colours as they are typed."""

import pytest

from diagnose.press.colour.conversion import from_hex
from diagnose.press.colour.lab import Lab, lab
from diagnose.press.quantities import Unclear


@pytest.mark.parametrize(
    "text",
    [
        "52,40,-20", "52.0, 40.0, -20.0", "52;40;-20", "52,0; 40,0; -20,0", "52 40 -20", "52,0 40,0 -20,0",
        "L*=52 a*=40 b*=-20", "L: 52, a: 40, b: −20", "lab(52 40 -20)", " 52/40/-20 ", "CIE L*=52 a*=40 b*=-20",
    ],
)  # fmt: skip
def test_every_way_of_writing_one(text: str) -> None:
    assert lab(text) == Lab(52, 40, -20)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("52,40", "three numbers"),
        ("red", "three numbers"),
        ("52,40,20,9", "three numbers"),
        ("", "three numbers"),
        ("120,0,0", "0 (black) to 100 (white)"),
        ("-3,0,0", "0 (black) to 100 (white)"),
        ("50,0,999", "within -200 to 200"),
    ],
)
def test_what_is_none_says_what_to_write(text: str, says: str) -> None:
    with pytest.raises(Unclear, match=says.replace("(", r"\(").replace(")", r"\)")):
        lab(text)


@pytest.mark.parametrize("text", ["#12345", "#gggggg", "", "b03a2e00"])
def test_what_is_no_screen_colour(text: str) -> None:
    with pytest.raises(Unclear, match="#b03a2e"):
        from_hex(text)
