"""The windows of the items against the heat model: no corner of one tells a person what the model calls wrong."""

from dataclasses import replace
from itertools import product

import pytest

from diagnose.foresight.pressing import body_of, usual_settings
from diagnose.foresight.settings import recipe
from diagnose.knowledge.loading import load
from diagnose.knowledge.model import Item, Knowledge
from diagnose.press.dye.dose import SOFTENS
from diagnose.press.pressing import dwell_for, press

PALE = 0.8  # of full colour: less is seen as pale
KNOWN = load()
PRESSED = [item for item in KNOWN.items.values() if item.settings]


@pytest.fixture(scope="module")
def knowledge() -> Knowledge:
    return KNOWN


@pytest.mark.parametrize("item", PRESSED, ids=lambda item: item.id)
def test_every_corner_of_a_window_gives_colour_and_no_soft_edges(item: Item, knowledge: Knowledge) -> None:
    assert item.settings is not None
    body, usual = body_of(item, knowledge), usual_settings(item)
    for heat, dwell in product(item.settings.temperature, item.settings.dwell):
        got = press(body, replace(usual, temperature=heat, dwell=dwell))
        assert got.share >= PALE, (heat, dwell)
        assert got.over <= SOFTENS, (heat, dwell)


@pytest.mark.parametrize("item", PRESSED, ids=lambda item: item.id)
def test_low_heat_goes_with_long_time(item: Item, knowledge: Knowledge) -> None:
    """At the lower end of the heat the right time lies in the longer half, at the upper end in the shorter."""
    assert item.settings is not None
    body, usual = body_of(item, knowledge), usual_settings(item)
    low, high = (dwell_for(body, replace(usual, temperature=heat)) for heat in item.settings.temperature)
    assert high < usual.dwell < low


def test_a_flat_glass_is_not_mirrored_where_its_coat_is_on_the_back(knowledge: Knowledge) -> None:
    for name in ("glass-photo-panel", "glass-cutting-board", "glass-coaster"):
        found = recipe(knowledge.items[name], knowledge)
        assert found is not None
        line = found.line("artwork")
        assert line is not None
        assert line.text.startswith("Not mirrored where the coat is on the back"), name
    other = recipe(knowledge.items["frosted-glass-mug"], knowledge)
    assert other is not None
    assert (line := other.line("artwork")) is not None
    assert line.text.startswith("Mirrored")
