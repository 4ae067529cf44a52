"""What is set speaks the more the further off it is, and says the same before the press as after it."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Answered, Measured, Pressed, Saw
from diagnose.dialogue.session import Session
from diagnose.foresight import dosing
from diagnose.foresight.dosing import LITTLE, MUCH, Set
from diagnose.foresight.job import Job
from diagnose.foresight.readings import readings, spoken
from diagnose.foresight.ready import BLAMED, EVEN, GO, STOP, readiness
from diagnose.knowledge.loading import load
from diagnose.knowledge.model import Item
from diagnose.knowledge.shop import Rates, Shop
from diagnose.press.pressing import Body, PressSettings, dose_of
from tests.trials import daily

KNOWLEDGE = load()
TOWEL = KNOWLEDGE.items["tea-towel-65-35"]
SET = [item for item in KNOWLEDGE.items.values() if item.settings]
OF_SETTINGS = {*LITTLE.values(), *MUCH.values(), "degrees-mixed-up", "settings-not-written", "heater-dead"}
CLEAR = 0.3  # a defect so likely before the press is one that the settings stand to bring
ROUNDING = 1e-9
SHARED = 0.03  # what two causes that explain the same take from each other, for they are not independent


def spoiled(item: Item, figures: dict[str, float], defect: str = "faint-colour") -> Consultation:
    return Consultation(KNOWLEDGE, Shop(), Session((Pressed(item.id, {}), Saw((defect,)), Measured(figures))))


def belief(consultation: Consultation, *causes: str) -> float:
    """The chance that one of the causes is there, as if they were there independently."""
    none = 1.0
    for cause in causes:
        none *= 1.0 - consultation.beliefs.alive[consultation.net.index[cause]]
    return 1.0 - none


def first(consultation: Consultation) -> str:
    """The first cause that comes up and that the goods do not bring along by themselves."""
    net = consultation.net
    return next((net.causes[one.index] for one in consultation.suspects if net.priors[one.index] < EVEN), "")


def test_a_probed_platen_is_blamed_the_more_the_cooler_it_is() -> None:
    found = [spoiled(TOWEL, {"set": 200.0, "probe": float(probe)}) for probe in range(190, 139, -2)]
    assert {first(each) for each in found} <= {"platen-runs-cool", "heater-dead"}
    believed = [belief(each, "platen-runs-cool", "heater-dead") for each in found]
    assert all(later >= earlier - SHARED for earlier, later in pairwise(believed))
    assert believed[0] > 0.6
    assert believed[-1] > 0.8


@pytest.mark.parametrize(("defect", "way"), [("faint-colour", -1), ("scorching", 1)])
def test_a_set_heat_is_blamed_the_more_the_further_off_it_is(defect: str, way: int) -> None:
    outward = range(194, 119, -2) if way < 0 else range(206, 231, 2)
    blamed = ("set-temp-low" if way < 0 else "set-temp-high", "degrees-mixed-up")
    found = [spoiled(TOWEL, {"set": float(degrees)}, defect) for degrees in outward]
    believed = [belief(each, *blamed) for each in found]
    assert all(later >= earlier - SHARED for earlier, later in pairwise(believed))
    assert all(first(each) in blamed for each in found[4:])


@pytest.mark.parametrize(("way", "cause"), [(-1, "dwell-short"), (1, "dwell-long")])
def test_a_mugs_dwell_is_blamed_the_more_the_further_off_it_is(way: int, cause: str) -> None:
    outward = (150, 140, 120, 100, 80, 60, 40, 30, 20, 15, 10, 5) if way < 0 else (210, 220, 240, 270, 300, 350, 400)
    found = [spoiled(KNOWLEDGE.items["mug"], {"dwell": float(seconds)}) for seconds in outward]
    believed = [belief(each, cause) for each in found]
    assert all(later >= earlier - ROUNDING for earlier, later in pairwise(believed))
    assert first(found[-1]) == cause


@daily(12, of=120)
@given(
    item=st.sampled_from(SET),
    beside=st.fixed_dictionaries({}, optional={"set": st.floats(-25, 25), "dwell": st.floats(0.4, 2.0)}),
    swept=st.sampled_from(["set", "dwell", "probe"]),
    way=st.sampled_from([-1, 1]),
)
def test_beside_whatever_else_is_told_the_further_off_never_speaks_less(
    item: Item, beside: dict[str, float], swept: str, way: int
) -> None:
    """One figure goes further and further off, all others stand: no cause of the dose is spoken of less by its own
    figure. Below that the model's own curve bends: a share in a hundred."""
    assert item.settings is not None
    heat, time = sum(item.settings.temperature) / 2, sum(item.settings.dwell) / 2
    told = {"set": heat + beside.get("set", 0.0)} | ({"dwell": time * beside["dwell"]} if "dwell" in beside else {})
    said: dict[str, list[float]] = {}
    for step in range(9):
        off = {
            "set": heat + way * 6.0 * step,
            "dwell": time * 1.25 ** (way * step),
            "probe": told["set"] + way * 6 * step,
        }
        for reading in readings([(0, {**told, swept: off[swept]})], item, KNOWLEDGE):
            if reading.taken.measure == {"set": "set-gap", "dwell": "dwell-gap", "probe": "platen-gap"}[swept]:
                for cause in (LITTLE if way < 0 else MUCH).values():
                    said.setdefault(cause, []).append(reading.ratios.get(cause, 0.0))
    assert all(later >= 0.99 * earlier for row in said.values() for earlier, later in pairwise(row))


@st.composite
def settings_of(draw: st.DrawFn) -> tuple[Item, Set]:
    """An item with settings from far too little to far too much, those within its window not seldom."""
    item = draw(st.sampled_from(SET))
    assert item.settings is not None
    heat, time = item.settings.temperature, item.settings.dwell
    degrees = st.sampled_from([120.0, 150.0, heat[0] - 15, heat[0] - 6, heat[0], heat[1], heat[1] + 8, heat[1] + 25])
    seconds = st.sampled_from([0.1, 0.4, 0.7, 0.9, 1.0]).map(lambda part: time[0] * part)
    longer = st.sampled_from([1.0, 1.3, 2.5]).map(lambda part: time[1] * part)
    temperature, dwell = draw(st.none() | degrees), draw(st.none() | seconds | longer)
    offset = draw(st.none() | st.sampled_from([-25.0, -10.0, 0.0, 8.0])) if temperature is not None else None
    if temperature is None and dwell is None:
        temperature = heat[0] - 15
    return item, Set(temperature=temperature, dwell=dwell, offset=offset)


def figures_of(told: Set) -> dict[str, float]:
    probe = None if told.offset is None or told.temperature is None else told.temperature + told.offset
    figures = {"set": told.temperature, "dwell": told.dwell, "probe": probe}
    return {name: value for name, value in figures.items() if value is not None}


@daily(15, of=400)
@given(job=settings_of())
def test_before_the_press_and_after_it_the_settings_are_judged_alike(job: tuple[Item, Set]) -> None:
    """Where ``ready`` says stop because of what is set, and a defect comes that it foresaw from it, what is set comes
    first among the causes that the goods do not bring along. And where a figure brings what is set to the first place,
    ``ready`` does not let the job go."""
    item, told = job
    ready, bare = (readiness(Job(item=item, set=each), KNOWLEDGE, Rates()) for each in (told, Set()))
    said = spoken(item, KNOWLEDGE, told)
    for risk in ready.risks:
        cause = first(spoiled(item, figures_of(told), risk.defect))
        if ready.verdict == STOP != bare.verdict and risk.chance >= CLEAR and risk.causes[0][0] in OF_SETTINGS:
            assert cause in OF_SETTINGS, risk.defect
        if said.get(cause, 0.0) >= BLAMED:
            assert ready.verdict != GO, risk.defect


@daily(15, of=200)
@given(job=settings_of())
def test_a_figure_says_the_same_before_the_press_and_after_it(job: tuple[Item, Set]) -> None:
    item, told = job
    after = {
        cause: ratio
        for reading in spoiled(item, figures_of(told)).readings
        for cause, ratio in reading.ratios.items()
        if cause in spoken(item, KNOWLEDGE, told)
    }
    assert after == spoken(item, KNOWLEDGE, told)


def test_small_faults_that_add_up_are_blamed_together() -> None:
    """Each a little off, and the dose a third of what the towel wants: alone they say little, together much."""
    alone = [spoken(TOWEL, KNOWLEDGE, each) for each in (Set(temperature=192.0), Set(dwell=42.0))]
    both = spoken(TOWEL, KNOWLEDGE, Set(temperature=192.0, dwell=42.0))
    assert both["set-temp-low"] > 1.5 * alone[0]["set-temp-low"]
    assert both["dwell-short"] > 1.5 * alone[1]["dwell-short"]


def test_what_makes_up_for_a_fault_takes_the_blame_off_it() -> None:
    """Ten degrees short and twice the time give the towel what it wants: neither is blamed for a pale print."""
    alone, made_up = (spoken(TOWEL, KNOWLEDGE, Set(temperature=188.0, dwell=each)) for each in (57.5, 120.0))
    assert alone["set-temp-low"] > 4
    assert made_up["set-temp-low"] < 1
    assert made_up["dwell-long"] < 1


def test_what_is_told_of_the_dose_counts_once() -> None:
    """A cause of the dose is spoken of by one figure each, and nothing speaks of it by the dose besides."""
    found = spoiled(TOWEL, {"set": 180.0, "dwell": 30.0, "probe": 170.0, "sheets": 3.0})
    weighed = [one.cause for one in found.evidence.weighed if one.cause in OF_SETTINGS]
    assert sorted(weighed) == sorted(set(weighed))


def test_heat_is_reckoned_with_once_for_the_same_figures_and_handed_on(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each thing told alone, and all of it: then nothing more, as long as no figure is told."""
    reckoned = list[Body]()

    def counted(body: Body, at: PressSettings) -> float:
        reckoned.append(body)
        return dose_of(body, at)

    monkeypatch.setattr(dosing, "dose_of", counted)
    begun = spoiled(TOWEL, {"set": 200.0, "probe": 185.0, "dwell": 50.0})
    assert begun.readings
    assert len(reckoned) == 4
    later = begun.then(begun.session.make(Answered("which-pieces", "every-piece")))
    assert later.readings == begun.readings
    assert len(reckoned) == 4
    assert later.then(later.session.make(Measured({"dwell": 40.0}))).readings != begun.readings
    assert len(reckoned) > 4
