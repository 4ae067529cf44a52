"""From figures to what they say of causes, with the knowledge that ships."""

from dataclasses import replace
from math import log

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.foresight.figures import AXES, COLOURS, FIGURES, colour
from diagnose.foresight.likelihood import MOST
from diagnose.foresight.measures import FORMULAS, Bench, Told, Values, beyond, gone_through
from diagnose.foresight.readings import Reading, asked_by, readings
from diagnose.knowledge.loading import load
from diagnose.knowledge.model import Item
from diagnose.press.colour.lab import Lab
from diagnose.speech.readings import WORDS, reckoned, told, weighed
from tests.trials import daily

KNOWLEDGE = load()
CUSHION, MUG = KNOWLEDGE.items["cushion-cover"], KNOWLEDGE.items["mug"]
F385, F371 = (385 - 32) / 1.8, (371 - 32) / 1.8


def read(*figures: Values, item: Item | None = CUSHION) -> dict[str, Reading]:
    return told_over([(0, each) for each in figures], item)


def told_over(figures: Told, item: Item | None = CUSHION) -> dict[str, Reading]:
    return {each.id: each for each in readings(figures, item, KNOWLEDGE)}


def test_every_measure_has_its_formula_its_knowledge_and_its_words() -> None:
    assert set(FORMULAS) == set(WORDS) == set(KNOWLEDGE.readings)


def test_no_figure_counts_twice_for_a_cause() -> None:
    """Measures with the same figure at their heart share it out: no cause is spoken of by two of them. Of the colour
    measures the three axes of a patch are one figure."""
    spoken: dict[tuple[str, str], str] = {}
    for measure in KNOWLEDGE.readings.values():
        heart = FORMULAS[measure.id].own.partition(".")[0]
        for cause in measure.speaks:
            assert (heart, cause) not in spoken, (measure.id, spoken[heart, cause], cause)
            spoken[heart, cause] = measure.id


def test_what_settles_a_check_says_more_of_its_causes_than_nothing() -> None:
    for measure in KNOWLEDGE.readings.values():
        for check in measure.settles:
            shown = {cause for outcome in KNOWLEDGE.checks[check].outcomes for cause in outcome.shows}
            assert shown & set(measure.speaks), (measure.id, check)


def test_a_cool_platen_in_fahrenheit() -> None:
    reading = read({"set": F385, "probe": F371})["platen-gap"]
    assert reading.taken.value == pytest.approx(-14 / 1.8)
    assert reading.ratios["platen-runs-cool"] > 8
    assert reading.ratios["platen-runs-hot"] < 0.1
    assert told(reading, "F") == ("The probe read 371 °F (188 °C) where 385 °F (196 °C) was set: 14 °F (8 °C) short")
    assert weighed(reading, "platen-runs-cool") == "such a gap shows 8 times as often with this cause as without it"


def test_what_others_add_to_a_figure_or_make_up_for_is_said() -> None:
    """Ten degrees under the window, and time enough to make up for it: the gap is told, and that it is not alone."""
    alone = read({"set": 183.0})["set-gap"]
    made_up = read({"set": 183.0, "dwell": 150.0})["set-gap"]
    assert alone.counts == 1.0
    assert weighed(alone, "set-temp-low").startswith("such a gap shows ")
    assert made_up.ratios["set-temp-low"] < 1 < alone.ratios["set-temp-low"]
    assert weighed(made_up, "set-temp-low").startswith("such a figure, taken together with the others, shows ")
    assert made_up.ratios["degrees-mixed-up"] == alone.ratios["degrees-mixed-up"]
    assert weighed(made_up, "degrees-mixed-up").startswith("such a gap shows ")


def test_a_figure_alone_says_nothing_until_the_one_beside_it_is_told() -> None:
    assert read({"probe": F371}) == {}
    assert read({"probe": F371}, {"set": F385})["platen-gap"].taken.value == pytest.approx(-14 / 1.8)


def test_the_figure_beside_it_is_the_one_in_force_at_the_time() -> None:
    """A probe's reading keeps the display it was read against, though more heat was set since; a new reading is held
    against the new display, and speaks of what outlived the fix."""
    first = [(0, {"set": 196.0, "probe": 188.0}), (1, {"set": 204.0})]
    assert told_over(first)["platen-gap"].taken.value == -8.0
    assert told_over(first)["set-gap"].taken.period == 1
    again = told_over([*first, (1, {"probe": 203.0})])["platen-gap"]
    assert (again.taken.value, again.taken.period) == (-1.0, 1)


def test_windows() -> None:
    assert [beyond(value, (190.0, 200.0)) for value in (180.0, 190.0, 195.0, 203.0)] == [-10.0, 0.0, 0.0, 3.0]
    assert CUSHION.settings is not None
    least, most = CUSHION.settings.dwell
    assert read({"dwell": least / 2})["dwell-gap"].taken.value == pytest.approx(-log(2))
    assert read({"dwell": (least + most) / 2})["dwell-gap"].taken.value == 0.0
    assert told(read({"dwell": least - 10})["dwell-gap"], "C").endswith(": 10 s under the window of this item")
    assert told(read({"set": 250.0})["set-gap"], "C").endswith("over the window of this item")


def test_without_an_item_only_what_needs_none_is_said() -> None:
    everything = {name: FIGURES[name].read(FIGURES[name].example) for name in FIGURES}
    assert set(read(everything, item=None)) == {"platen-gap", "clock-gap", "layers"}


def test_more_sheets_take_more_off_the_dose() -> None:
    dose = [read({"sheets": float(count)})["layers-dose"] for count in (1, 2, 4, 8)]
    values = [reading.taken.value for reading in dose]
    assert values[0] == pytest.approx(0.0, abs=1e-12)
    assert values == sorted(values, reverse=True)
    assert dose[0].ratios["stack-too-thick"] < 1 < dose[2].ratios["stack-too-thick"]
    assert told(dose[2], "C").startswith("4 sheets over the transfer: about ")


def test_a_thick_blank_drinks_heat_and_cloth_is_not_asked() -> None:
    thick = read({"thickness": 0.008}, item=MUG)["thickness-dose"]
    assert thick.taken.value < -0.5
    assert thick.ratios["heavy-item-drinks-heat"] > 3
    assert "thickness-dose" not in read({"thickness": 0.008})


def test_a_strip_is_held_against_the_platen_as_the_probe_found_it() -> None:
    alone = read({"set": 196.0, "strip": 178.0})["stack-gap"]
    probed = read({"set": 196.0, "strip": 178.0, "probe": 188.0})["stack-gap"]
    assert alone.taken.value < probed.taken.value - 5
    assert "platen-runs-cool" in alone.ratios
    assert "platen-runs-cool" not in probed.ratios
    assert "pressure-light" in probed.ratios


def test_colours() -> None:
    """The proof L* 52, a* 40, b* 20 beside a print of 58, 33, 18: 6 lighter; chroma from 44.72 to 37.59; what is left
    of the distance is hue."""
    found = read({**colour("proof", Lab(52.0, 40.0, 20.0)), **colour("print", Lab(58.0, 33.0, 18.0))})
    assert found["lightness"].taken.value == 6.0
    assert found["chroma"].taken.value == pytest.approx(37.590 - 44.721, abs=1e-3)
    assert found["hue"].taken.value ** 2 == pytest.approx(49 + 4 - 7.131**2, abs=2e-2)
    assert told(found["lightness"], "C") == "The print is 6.0 L* lighter than the proof"
    assert told(found["chroma"], "C") == "The print is 7.1 C* duller than the proof"


SWEPT: dict[
    str, tuple[dict[str, float], list[float]]
] = {  # what is told beside a figure, and the figure from low to high
    "set": ({}, [120.0 + 5 * step for step in range(24)]),
    "dwell": ({}, [5.0, 10.0, 20.0, 30.0, 40.0, 60.0, 90.0, 150.0, 200.0, 300.0, 400.0]),
    "probe": ({"set": 200.0}, [100.0 + 10 * step for step in range(15)]),
    "watch": ({"dwell": 60.0}, [10.0 * step for step in range(1, 15)]),
    "sheets": ({}, [float(count) for count in range(9)]),
    "thickness": ({}, [0.0005 * 2**step for step in range(6)]),
    "strip": ({"set": 200.0}, [120.0 + 20 * step for step in range(6)]),
}


def never_turns_back(item: Item, figure: str) -> None:
    """The figure over all that an instrument may show, in the order of what its measures make of it: every cause that
    they speak of rises or falls all the way, or, where both ways count alike, falls and then rises."""
    beside, values = SWEPT[figure]
    said: dict[tuple[str, str], list[tuple[float, float]]] = {}
    for value in values:
        for reading in readings([(0, {**beside, figure: value})], item, KNOWLEDGE):
            for cause, ratio in reading.ratios.items():
                if FORMULAS[reading.id].own == figure:
                    said.setdefault((reading.id, cause), []).append((reading.taken.value, ratio))
    for (measure, cause), found in said.items():
        row = [ratio for _, ratio in sorted(found)]
        least = row.index(min(row)) if KNOWLEDGE.readings[measure].speaks[cause].either else 0
        falling, rising = (row[: least + 1], row[least:]) if least else (row, row)
        falls, rises = falling == sorted(falling, reverse=True), rising == sorted(rising)
        assert (falls and rises) if least else (falls or rises), (measure, cause, row)


@pytest.mark.parametrize("figure", ["set", "dwell", "watch"])
def test_for_every_item_a_figure_further_off_never_speaks_less(figure: str) -> None:
    for item in KNOWLEDGE.items.values():
        never_turns_back(item, figure)


@daily(10, of=150)
@given(item=st.sampled_from(list(KNOWLEDGE.items.values())), figure=st.sampled_from(list(SWEPT)))
def test_nor_does_one_that_the_heat_model_makes_a_measure_of(item: Item, figure: str) -> None:
    never_turns_back(item, figure)


FIGURES_OF_ANY_SIZE = st.fixed_dictionaries(
    {},
    optional={
        **{name: st.floats(*figure.window) for name, figure in FIGURES.items() if name != "sheets"},
        "sheets": st.integers(0, 20).map(float),
        **{f"{name}.{axis}": st.floats(0, 100) for name in COLOURS for axis in AXES},
    },
)


@settings(max_examples=25, deadline=None)
@given(figures=FIGURES_OF_ANY_SIZE, item=st.sampled_from([None, *KNOWLEDGE.items.values()]), unit=st.sampled_from("CF"))
def test_whatever_is_told_makes_readings_that_can_be_said(figures: Values, item: Item | None, unit: str) -> None:
    for reading in readings([(0, figures)], item, KNOWLEDGE):
        assert all(1 / MOST <= ratio <= MOST for ratio in reading.ratios.values())
        assert told(reading, unit)
        assert not told(reading, unit).endswith(".")
        assert all(weighed(reading, cause).startswith("such a ") for cause in reading.ratios)


@settings(max_examples=20, deadline=None)
@given(figures=FIGURES_OF_ANY_SIZE, item=st.sampled_from([None, *KNOWLEDGE.items.values()]))
def test_whatever_is_told_can_be_reckoned_with_or_is_not_enough(figures: Values, item: Item | None) -> None:
    result = gone_through([(0, figures)], Bench(item, KNOWLEDGE))
    if result is None:
        assert not {"set", "dwell"} <= set(figures) or item is None or item.settings is None
    else:
        assert 0.0 <= result.share_band[0] <= result.share <= result.share_band[1] <= 1.0
        assert reckoned(result, "C").startswith("Reckoned from the figures: ")


def test_a_measure_that_a_shop_retired_says_nothing() -> None:
    less = {name: measure for name, measure in KNOWLEDGE.readings.items() if name != "platen-gap"}
    retired = replace(KNOWLEDGE, readings=less)
    assert "platen-gap" not in {each.id for each in readings([(0, {"set": F385, "probe": F371})], CUSHION, retired)}


@pytest.mark.parametrize(
    ("check", "figure"),
    [
        ("probe-the-platen", "probe"),
        ("read-the-set-temperature", "set"),
        ("read-the-set-dwell", "dwell"),
        ("time-with-a-watch", "watch"),
        ("count-the-layers", "sheets"),
        ("strip-inside-the-stack", "strip"),
    ],
)
def test_checks_that_a_figure_answers(check: str, figure: str) -> None:
    found = asked_by(check, CUSHION, KNOWLEDGE)
    assert found is FIGURES[figure]


def test_no_figure_is_asked_for_that_would_say_nothing() -> None:
    assert asked_by("read-the-set-temperature", None, KNOWLEDGE) is None
    assert asked_by("edges-under-magnifier", CUSHION, KNOWLEDGE) is None
