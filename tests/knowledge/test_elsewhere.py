"""Other crafts and broken machines: enough ways of saying each, no way twice, and nobody named."""

import pytest

from diagnose.knowledge.loading import load
from diagnose.reasoning.words.dangers import dangers

CRAFTS = load().elsewhere


@pytest.mark.parametrize("craft", CRAFTS)
def test_there_are_ways_enough_of_saying_it(craft: str) -> None:
    assert 15 <= len(CRAFTS[craft].said) <= 25
    assert CRAFTS[craft].says.startswith("This is")
    assert "presslore" in CRAFTS[craft].says


def test_nothing_is_said_of_two() -> None:
    said = [text.casefold() for craft in CRAFTS.values() for text in craft.said]
    assert len(said) == len(set(said))


def test_a_broken_machine_is_no_danger() -> None:
    assert [text for craft in CRAFTS.values() for text in craft.said if dangers(text)] == []
