"""What to set by what was measured, and how a fix says it."""

import pytest

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Measured, Move, Pressed, Saw, TriedFix
from diagnose.dialogue.session import Session
from diagnose.foresight.setting_right import MOST_OFFSET, TO
from diagnose.knowledge.loading import load
from diagnose.knowledge.shop import Shop
from diagnose.speech.report import to_plain
from diagnose.speech.talk import steps_of, window

KNOWLEDGE = load()
TOWEL = "tea-towel-65-35"  # 196–204 °C, 50–65 s


def after(*moves: Move, item: str = TOWEL, shop: Shop | None = None) -> Consultation:
    return Consultation(KNOWLEDGE, shop or Shop(), Session((Pressed(item, {}), Saw(("faint-colour",)), *moves)))


def steps(fix: str, consultation: Consultation) -> tuple[str, ...]:
    return steps_of(KNOWLEDGE.fixes[fix], consultation)


def test_what_goes_by_a_figure_can_be_worked_out_and_said() -> None:
    by = {fix.by_figure for fix in KNOWLEDGE.fixes.values()} - {""}
    assert by == set(TO)
    assert all(len(fix.steps) > 1 for fix in KNOWLEDGE.fixes.values() if fix.by_figure)


@pytest.mark.parametrize(
    ("fix", "figures", "said"),
    [
        (
            "set-heat-by-probe",
            {"set": 200.0, "probe": 188.0},
            "It stands 12 °C (22 °F) low: set 212 °C (414 °F), and wait ten minutes.",
        ),
        (
            "set-heat-by-probe",
            {"set": 200.0, "probe": 209.0},
            "It stands 9 °C (16 °F) high: set 191 °C (376 °F), and wait ten minutes.",
        ),
        (
            "set-heat-by-probe",  # what is set lies under the window as well: the platen should come to its middle
            {"set": 180.0, "probe": 175.0},
            "It stands 5 °C (9 °F) low: set 205 °C (401 °F), and wait ten minutes.",
        ),
        (
            "set-heat-as-recipe",
            {"set": 180.0},
            "It is set to 180 °C (356 °F), and 196–204 °C (385–399 °F) is right: make it 200 °C (392 °F).",
        ),
        ("set-dwell-as-recipe", {"dwell": 30.0}, "It is set to 30 s, and 50–65 s is right: make it 58 s."),
        ("add-the-lost-seconds", {"dwell": 60.0, "watch": 52.0}, "It rings 8 s early: for 60 s set 68 s."),
        ("add-the-lost-seconds", {"dwell": 60.0, "watch": 66.0}, "It rings 6 s late: for 60 s set 54 s."),
        ("thin-the-stack", {"sheets": 4.0}, "4 sheets lie over the transfer: leave 1 thin, clean one."),
    ],
)
def test_a_fix_uses_the_figure(fix: str, figures: dict[str, float], said: str) -> None:
    told = steps(fix, after(Measured(figures)))
    assert told == (said, KNOWLEDGE.fixes[fix].steps[-1])


def test_it_counts_in_the_units_of_the_shop() -> None:
    told = steps("set-heat-by-probe", after(Measured({"set": 200.0, "probe": 188.0}), shop=Shop(temperature="F")))
    assert told[0] == "It stands 22 °F (12 °C) low: set 414 °F (212 °C), and wait ten minutes."


@pytest.mark.parametrize(
    "figures", [{}, {"probe": 188.0}, {"set": 200.0, "probe": 200.2}, {"set": 200.0, "probe": 199.0 - MOST_OFFSET}]
)
def test_without_a_figure_that_says_what_to_set_the_steps_stay(figures: dict[str, float]) -> None:
    """Nothing measured, half of it, as it should be, or so far off that the display is not what is to be set right."""
    consultation = after(*([Measured(figures)] if figures else []))
    assert steps("set-heat-by-probe", consultation) == KNOWLEDGE.fixes["set-heat-by-probe"].steps


def test_a_figure_read_before_a_fix_that_changed_it_is_no_longer_used() -> None:
    cool = Measured({"set": 200.0, "probe": 188.0})
    assert len(steps("set-heat-by-probe", after(cool, TriedFix("set-heat-by-probe", "same")))) == 3
    assert len(steps("set-heat-by-probe", after(cool, TriedFix("add-the-lost-seconds", "same")))) == 2
    again = after(cool, TriedFix("set-heat-by-probe", "same"), Measured({"set": 212.0, "probe": 206.0}))
    assert steps("set-heat-by-probe", again)[0].startswith("It stands 6 °C (11 °F) low: set 206 °C")


def test_a_check_on_a_setting_shows_the_items_window() -> None:
    assert window("read-the-set-temperature", after()) == (
        "Tea towel, 65/35 polyester and cotton: 196–204 °C (385–399 °F) is right."
    )
    assert window("read-the-set-dwell", after()) == "Tea towel, 65/35 polyester and cotton: 50–65 s is right."
    assert window("probe-the-platen", after()) == ""
    assert window("read-the-set-dwell", after(item="")) == ""


def test_the_report_tells_both() -> None:
    plain = to_plain(after(Measured({"set": 200.0, "probe": 178.0, "dwell": 57.0})), {})
    assert plain["next"]["id"] == "set-heat-by-probe"
    assert plain["next"]["steps"][0].startswith("It stands 22 °C (40 °F) low: set 222 °C")
