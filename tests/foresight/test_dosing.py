"""Whether a job's settings miss what the item takes, and what is to blame."""

from dataclasses import replace
from math import prod

import pytest

from diagnose.foresight.dosing import LITTLE, MUCH, Set, dosing, spread_of
from diagnose.knowledge.model import Item, Knowledge
from diagnose.press.dye.dose import share
from diagnose.press.pressing import NINETY, Result

ITEMS = ["tea-towel-65-35", "ceramic-tile", "mug", "aluminium-panel"]


@pytest.fixture(params=ITEMS)
def item(request: pytest.FixtureRequest, knowledge: Knowledge) -> Item:
    return knowledge.items[request.param]


def windows(item: Item) -> tuple[tuple[float, float], tuple[float, float]]:
    assert item.settings is not None
    return item.settings.temperature, item.settings.dwell


def test_nothing_told_nothing_said(item: Item, knowledge: Knowledge) -> None:
    assert dosing(item, knowledge, Set()) is None


def test_the_middle_of_the_window_clears_the_settings(item: Item, knowledge: Knowledge) -> None:
    heat, time = windows(item)
    found = dosing(item, knowledge, Set(temperature=sum(heat) / 2, dwell=sum(time) / 2))
    assert found is not None
    assert max(found.causes.values()) < 0.01


@pytest.mark.parametrize("corner", [0, 1])
def test_a_corner_of_the_window_is_seldom_wrong(item: Item, knowledge: Knowledge, corner: int) -> None:
    heat, time = windows(item)
    found = dosing(item, knowledge, Set(temperature=heat[corner], dwell=time[corner]))
    assert found is not None
    assert found.little + found.much < 0.15


def test_ten_degrees_and_the_shortest_time_are_as_likely_too_little_as_not(item: Item, knowledge: Knowledge) -> None:
    """Ten degrees short halves what crosses over: common practice, and the vapour pressure of Disperse Red 60 in
    Landolt-Börnstein vol. 20 (200 to 210 °C: a factor of 2.1)."""
    heat, time = windows(item)
    found = dosing(item, knowledge, Set(temperature=heat[0] - 10.0, dwell=time[0]))
    assert found is not None
    assert 0.4 < found.little < 0.75
    assert found.causes["dwell-short"] == 0.0  # the time lies in the window, the heat does not
    assert found.causes["set-temp-low"] == pytest.approx(found.little)


def test_more_heat_is_never_likelier_too_little(item: Item, knowledge: Knowledge) -> None:
    heat, _ = windows(item)
    told = [dosing(item, knowledge, Set(temperature=heat[0] + step)) for step in (-20, -10, 0, 10, 30)]
    little = [found.little for found in told if found]
    assert little == sorted(little, reverse=True)
    much = [found.much for found in told if found]
    assert much == sorted(much)


def test_what_is_to_blame_makes_up_the_whole(item: Item, knowledge: Knowledge) -> None:
    heat, time = windows(item)
    found = dosing(item, knowledge, Set(temperature=heat[0] - 8.0, dwell=0.8 * time[0], cover_sheets=3))
    assert found is not None
    parts = [chance for cause, chance in found.causes.items() if cause in LITTLE.values()]
    assert 1.0 - prod(1.0 - part for part in parts) == pytest.approx(found.little)
    assert all(chance > 0.0 for chance in parts)


def test_a_platen_that_was_probed_is_named_and_not_the_set_heat(item: Item, knowledge: Knowledge) -> None:
    heat, _ = windows(item)
    found = dosing(item, knowledge, Set(temperature=sum(heat) / 2, offset=-20.0))
    assert found is not None
    assert found.causes["platen-runs-cool"] == pytest.approx(found.little)
    assert found.little > 0.2


def test_what_is_as_usual_takes_no_blame_away(item: Item, knowledge: Knowledge) -> None:
    heat, time = windows(item)
    told = Set(temperature=heat[0], dwell=time[0])
    alone, beside = dosing(item, knowledge, told), dosing(item, knowledge, replace(told, offset=0.0))
    assert alone is not None
    assert beside is not None
    assert beside.causes["set-temp-low"] > 0.0
    assert beside.causes["platen-runs-cool"] == 0.0


def test_what_is_blamed_is_known(knowledge: Knowledge) -> None:
    assert {*LITTLE.values(), *MUCH.values()} <= set(knowledge.causes)


def test_the_spread_is_read_back_from_the_band_of_colour() -> None:
    from math import exp

    result = Result(190.0, 20.0, share(1.0), (share(exp(-NINETY * 0.4)), share(exp(NINETY * 0.4))), 1.0)
    assert spread_of(result) == pytest.approx(0.4)


@pytest.mark.parametrize("degrees", [217.0, 220.0, 226.0])
def test_a_mug_far_too_hot_is_reckoned_to_the_end(degrees: float, knowledge: Knowledge) -> None:
    """In steps so long that the heater's bend lies within one, Newton's method went to and fro and never settled."""
    found = dosing(knowledge.items["mug"], knowledge, Set(temperature=degrees, dwell=180.0))
    assert found is not None
    assert found.much > 0.5
