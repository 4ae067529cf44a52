"""What a job got, and what to set instead."""

import pytest

from diagnose.foresight.heating import Heating, HeatJob, foresee
from diagnose.knowledge.model import Knowledge


@pytest.fixture
def towel(knowledge: Knowledge) -> Heating:
    """A tea towel by a platen that stands 8 °C under its display."""
    job = HeatJob(temperature=200.0, dwell=60.0, probe=192.0, instead=190.0)
    return foresee(knowledge.items["tea-towel-polyester"], knowledge, job)


def test_a_probe_takes_the_place_of_the_display(towel: Heating) -> None:
    assert towel.settings.offset == -8.0
    assert max(platen for _, _, platen in towel.track) == pytest.approx(192.0)


def test_what_to_set_gives_what_is_wanted(towel: Heating, knowledge: Knowledge) -> None:
    assert towel.temperature is not None
    assert towel.dwell is not None
    for job in (
        HeatJob(temperature=towel.temperature, dwell=60.0, probe=towel.temperature - 8.0),
        HeatJob(temperature=200.0, dwell=towel.dwell, probe=192.0),
    ):
        assert foresee(towel.item, knowledge, job).result.over == pytest.approx(1.0, abs=0.01)


def test_instead_gives_the_same(towel: Heating, knowledge: Knowledge) -> None:
    assert towel.instead is not None
    assert towel.instead.same is not None
    there = foresee(towel.item, knowledge, HeatJob(temperature=190.0, dwell=towel.instead.same, probe=182.0))
    assert there.result.dose == pytest.approx(towel.result.dose, rel=0.01)
    assert towel.instead.same > 60.0


def test_steady_is_within_five_of_the_end(towel: Heating) -> None:
    end = towel.track[-1][1]
    assert all(dye >= end - 5.01 for time, dye, _ in towel.track if time >= towel.steady)
    assert any(dye < end - 4.99 for time, dye, _ in towel.track if time < towel.steady)


def test_two_more_sheets_cost_dose(knowledge: Knowledge) -> None:
    mug = knowledge.items["mug"]
    assert foresee(mug, knowledge, HeatJob()).sheets_leave is None
    thicker = foresee(mug, knowledge, HeatJob(sheets=2))
    assert thicker.sheets_leave == pytest.approx(thicker.result.over)
    assert 0.4 < thicker.result.over < 0.95


def test_far_over_is_told(knowledge: Knowledge) -> None:
    towel = knowledge.items["tea-towel-polyester"]
    found = [foresee(towel, knowledge, HeatJob(dwell=dwell)) for dwell in (52.5, 110.0, 240.0)]
    assert [each.softens for each in found] == [False, True, True]
    assert [each.wanders for each in found] == [False, False, True]
    assert [each.as_wanted for each in found] == [True, False, False]
