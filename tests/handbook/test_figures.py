"""Figures on the page: the solver carried over to it, the measures and words made of them, and the form."""

import json
from typing import Any

import pytest

from diagnose.dialogue import moves as said
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.saving import to_json
from diagnose.dialogue.session import Session
from diagnose.foresight.figures import COLOURS, FIGURES, NAMES
from diagnose.foresight.likelihood import MOST
from diagnose.foresight.measures import FORMULAS
from diagnose.foresight.pressing import body_of, usual_settings
from diagnose.knowledge.shop import Shop
from diagnose.press.pressing import dose_of, track
from tests.handbook.browser import by_command, by_page, differences, engine, knowledge, shipped_engine

KNOWN = knowledge()
SAME = 1e-9  # the same steps in the same order: only the last digits of exp, log and pow may differ
PALE = (said.Pressed("mug", {}), said.Saw(("faint-colour",)))
ALL = {name: figure.read(figure.example) for name, figure in FIGURES.items()} | {
    f"{name}.{axis}": value
    for name, lab in zip(COLOURS, ((52, 40, 20), (58, 33, 18), (95, 0, 2), (93, 1, 8)), strict=True)
    for axis, value in zip("lab", lab, strict=True)
}


def reckoned(item: str, thickness: float | None) -> tuple[float, float]:
    """Dose and highest temperature at the dye, as the page reckons them by the item's usual settings."""
    code = (
        f"const item = known.items.get({json.dumps(item)}); const thick = {json.dumps(thickness)} || undefined;"
        "JSON.stringify([presslore.heat.dose(known.press, item, item.usual, thick),"
        " presslore.heat.peak(known.press, item, item.usual, thick)])"
    )
    dose, peak = json.loads(str(shipped_engine().eval(f"(function () {{ {code.replace('JSON', 'return JSON')} }})()")))
    return dose, peak


@pytest.mark.parametrize("item", [item.id for item in KNOWN.items.values() if item.settings])
def test_every_item_gets_the_same_on_the_page(item: str) -> None:
    kind = KNOWN.items[item]
    for thickness in (None, 0.004):
        body, usual = body_of(kind, KNOWN, thickness=thickness), usual_settings(kind)
        moments, stack = track(body, usual)
        dose, peak = reckoned(item, thickness)
        assert dose == pytest.approx(dose_of(body, usual), rel=SAME)
        assert peak == pytest.approx(max(moment.at_dye(stack) for moment in moments), rel=SAME)


def test_all_figures_at_once_make_all_readings_on_both_sides() -> None:
    session = Session((*PALE, said.Measured(ALL)))
    found = by_page(session)
    assert [reading[0] for reading in found["readings"]] == list(KNOWN.readings)
    assert differences(by_command(Consultation(KNOWN, Shop(), session)), found) == []


def test_a_shop_that_counts_in_fahrenheit() -> None:
    shop = Shop(temperature="F")
    session = Session((*PALE, said.Measured({"set": 196.0, "probe": 188.0})))
    found = by_page(session, engine(KNOWN, shop))
    assert differences(by_command(Consultation(KNOWN, shop, session)), found) == []
    assert found["readings"][0][-1].startswith("The probe read 370 °F (188 °C)")


def test_the_page_knows_the_same_figures_and_the_same_measures() -> None:
    page: Any = json.loads(
        str(shipped_engine().eval("JSON.stringify([Array.from(presslore.measures.WINDOWS), presslore.measures.MOST])"))
    )
    windows, most = dict(page[0]), page[1]
    assert set(windows) == NAMES
    assert {name: tuple(windows[name]) for name in FIGURES} == {name: one.window for name, one in FIGURES.items()}
    assert most == MOST
    assert set(KNOWN.readings) <= set(FORMULAS)


def test_heat_is_reckoned_with_once_for_the_same_figures_and_handed_on() -> None:
    """Each thing told alone, all of it, and what is usual: then nothing more, as long as no figure is told. A new time
    is reckoned with beside the old one, which was set when the probe was read."""
    figures = {"set": 200.0, "probe": 185.0, "dwell": 50.0}
    begun = Session((said.Pressed("tea-towel-65-35", {}), said.Saw(("faint-colour",)), said.Measured(figures)))
    later = begun.make(said.Answered("which-pieces", "every-piece"))
    told = [to_json(session, KNOWN.version) for session in (begun, later, later.make(said.Measured({"dwell": 40.0})))]
    code = """(function (texts) {
      const sessions = texts.map((text) => presslore.session.resume(text, known));
      const { dose } = presslore.heat;
      let count = 0;
      presslore.heat.dose = (...given) => { count += 1; return dose(...given); };
      const counts = [];
      let now = new presslore.Consultation(known, sessions[0]);
      sessions.forEach((session) => {
        now = now.then(session);
        now.readings;
        counts.push(count);
        count = 0;
      });
      presslore.heat.dose = dose;
      return JSON.stringify(counts);
    })(%s)"""
    assert json.loads(str(shipped_engine().eval(code % json.dumps(told)))) == [5, 0, 10]
