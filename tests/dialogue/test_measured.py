"""Figures in a session: what they move, what they settle, how they are kept, and that going back undoes them."""

import json

import pytest

from diagnose.dialogue.moves import Answered, Measured, Saw, TriedFix
from diagnose.dialogue.saving import VERSION, to_json
from diagnose.dialogue.session import Session
from diagnose.problems import PressloreError
from diagnose.speech.readings import idle_words
from diagnose.speech.report import to_plain
from diagnose.speech.talk import summary, told
from tests.dialogue.saved import from_json
from tests.dialogue.workshop import at_work, opened

COOL = Measured({"set": 196.0, "probe": 187.0}, "probe")


def cool(session: Session) -> float:
    consultation = at_work(session)
    return consultation.beliefs.alive[consultation.net.index["runs-cool"]]


def test_a_figure_moves_its_cause() -> None:
    assert cool(opened("pale").make(COOL)) > 0.9 > 0.5 > cool(opened("pale"))
    assert cool(opened("pale").make(Measured({"set": 196.0, "probe": 196.0}))) < cool(opened("pale"))


def test_a_figure_takes_the_place_of_what_was_answered_by_eye() -> None:
    """The same probe may not count twice, whichever was told first."""
    by_figure, by_eye = opened("pale").make(COOL), Answered("probe", "reads-low")
    assert cool(by_figure.make(by_eye)) == cool(by_figure)
    assert cool(opened("pale").make(by_eye).make(COOL)) == cool(by_figure)
    assert at_work(by_figure).evidence.answers == {}


def test_what_is_answered_after_a_further_fix_counts_beside_an_older_figure() -> None:
    later = opened("pale").make(COOL).make(TriedFix("turn-up-heat", "same")).make(Answered("probe", "nothing"))
    assert at_work(later).evidence.answers == {"probe": ("nothing", 1)}
    assert cool(later) < cool(Session(later.moves[:-1]))


def test_a_check_that_a_figure_settles_is_not_asked() -> None:
    for check in ("probe", ""):
        consultation = at_work(opened("pale").make(Measured(COOL.figures, check)))
        asked = {option.step.id for option in consultation.advice.options if option.step}
        assert "probe" not in asked
    asked = {option.step.id for option in at_work(opened("pale")).advice.options if option.step}
    assert "probe" in asked


def idle(session: Session) -> list[str]:
    return list(map(idle_words, at_work(session).idle))


def test_a_figure_that_says_nothing_says_why() -> None:
    assert idle(opened("pale").make(Measured({"probe": 187.0}))) == [
        "what the probe reads on the platen says nothing without the temperature on the display",
    ]
    assert idle(Session((Saw(("pale",)), Measured({"dwell": 30.0})))) == [
        "the time on the press's clock says nothing while the item is not named",
    ]
    assert idle(opened("pale").make(COOL)) == []


def test_its_reason_says_the_figures_and_how_they_speak() -> None:
    consultation = at_work(opened("pale").make(COOL))
    first = told(consultation, 1)[0]
    assert first.title == "runs-cool"
    assert first.reasons[0].startswith(
        "The probe read 187 °C (369 °F) where 196 °C (385 °F) was set: 9 °C (16 °F) short; such a gap shows "
    )
    assert "- The probe read 187 °C (369 °F) where 196 °C (385 °F) was set: 9 °C (16 °F) short" in summary(consultation)


def test_the_report_tells_the_reading_and_what_it_moved() -> None:
    whole = to_plain(at_work(opened("pale").make(COOL)), {})
    [reading] = whole["readings"]
    assert (reading["id"], reading["value"], reading["error"]) == ("platen-gap", -9.0, 1.0)
    assert reading["figures"] == {"probe": 187.0, "set": 196.0}
    assert reading["settles"] == ["probe"]
    assert reading["speaks"][0]["cause"] == "runs-cool"
    assert reading["speaks"][0]["times"] > 20
    assert whole["causes"][0]["for"][0]["kind"] == "reading"


def test_a_session_without_figures_is_written_as_it_always_was() -> None:
    assert json.loads(to_json(opened("pale"), "x"))["version"] == 1
    written = json.loads(to_json(opened("pale").make(COOL), "x"))
    assert written["version"] == 2 < VERSION
    assert written["moves"][-1] == {
        "move": "measured",
        "figures": {"set": 196.0, "probe": 187.0},
        "check": "probe",
    }


@pytest.mark.parametrize(
    "figures", [{"set": "hot"}, {"set": 1e6}, {"dwell": 0}, {"probe": True}, ["set"], {"sheets": -1}]
)
def test_figures_that_no_instrument_shows_are_refused(figures: object) -> None:
    whole = json.loads(to_json(opened("pale").make(COOL), "x"))
    whole["moves"][-1]["figures"] = figures
    with pytest.raises(PressloreError, match="damaged"):
        from_json(json.dumps(whole))
