"""What was heard, said back: the goods as they were said, each figure with its unit, the words where they differ."""

import pytest

from diagnose.cli.shop import shelf
from diagnose.dialogue.moves import Measured, Named, Pressed, Saw, TriedFix
from diagnose.dialogue.taking import Telling
from diagnose.knowledge.conditions import FactValue
from diagnose.speech.heard import Echo, goods

KNOWLEDGE = shelf.knowledge()
ECHO = Echo(KNOWLEDGE, "F")


@pytest.mark.parametrize(
    ("item", "facts", "ground", "shown"),
    [
        ("mug", {}, "", "Mug, ceramic, coated"),
        ("t-shirt-polyester", {"item.polyester": 85, "item.family": "blend"}, "", "T-shirt, 85 % polyester"),
        ("t-shirt-polyester", {"item.polyester": 85, "item.colour": "mid"}, "red", "T-shirt, red, 85 % polyester"),
        ("mug", {"item.colour": "dark"}, "", "Mug, ceramic, coated, dark ground"),
        ("", {}, "", "Item not named"),
        ("", {"item.hard": True, "item.shape": "curved"}, "", "Not on my list, hard, curved"),
    ],
)
def test_goods_are_never_rounded_to_the_nearest_of_the_list(
    item: str, facts: dict[str, FactValue], ground: str, shown: str
) -> None:
    assert goods(KNOWLEDGE, item, facts, ground) == shown


def test_figures_are_shown_with_their_unit() -> None:
    assert ECHO.move(Measured({"set": (385 - 32) / 1.8})) == "The temperature on the display: 385 °F (196 °C)"
    assert ECHO.move(Measured({"dwell": 40.0})) == "The time on the press's clock: 40 s"
    assert ECHO.move(Measured({"thickness": 0.006})).endswith(": 6 mm")


def test_the_words_stand_beside_it_where_they_are_others() -> None:
    assert ECHO.line(Telling(Saw(("ghosting",)), "letters doubled")).endswith(" (“letters doubled”)")
    assert "“" not in ECHO.line(Telling(Saw(("ghosting",)), "ghosting"))
    assert "“" not in ECHO.line(Telling(Measured({"set": 196.1}), "385F"))
    assert "“" not in ECHO.line(Telling(Pressed("mug"), "mug"))


def test_a_cause_a_fix_and_what_has_gone() -> None:
    assert ECHO.move(Named("pressure-light")) == "You think it is this: The pressure is too light"
    assert ECHO.move(TriedFix("set-heat-by-probe", "same")).startswith("Tried: ")
    assert ECHO.move(TriedFix("set-heat-by-probe", "better", ("ghosting",))) == "Gone now: Ghosting"
