"""A job before it is pressed: what is likely to go wrong, from what, and whether to press."""

from dataclasses import replace

import pytest

from diagnose.foresight.dosing import Set
from diagnose.foresight.job import HEAVY, LIGHT, Job, confirmed, doubted, to_ask
from diagnose.foresight.ready import CARE, GO, LATER, STOP, Readiness, readiness
from diagnose.knowledge.model import Chance, Knowledge
from diagnose.knowledge.shop import SPOILT, Known, Rates

RATES = Rates()


def look(knowledge: Knowledge, item: str, **told: object) -> Readiness:
    return readiness(Job(item=knowledge.items[item], **told), knowledge, RATES)  # type: ignore[arg-type]


def test_a_black_cotton_shirt_stops_and_says_why(knowledge: Knowledge) -> None:
    found = look(knowledge, "t-shirt-cotton", facts={"item.colour": "black"}, rest_so=True)
    assert found.verdict == STOP
    assert found.spoilt > 0.95
    why = [change.statement.id for change in found.changes if change.statement]
    assert why == ["takes-dye", "light-ground"]
    assert "lost-on-dark" in [risk.defect for risk in found.risks]


@pytest.mark.parametrize(
    ("statement", "cause", "defect"),
    [
        ("print-side", "sheet-ink-up", "no-transfer"),
        ("nothing-between", "parting-sheet-between", "no-transfer"),
        ("sheet-unused", "sheet-used-before", "faint-colour"),
        ("coated-side", "wrong-side-printed", "wet-smears"),
        ("whole-and-warm", "blank-chipped", "cracking"),
    ],
)
def test_a_sheet_or_blank_that_is_not_right_leads_to_its_own_cause(
    knowledge: Knowledge, statement: str, cause: str, defect: str
) -> None:
    item = "glass-cutting-board" if cause == "blank-chipped" else "tea-towel-polyester"
    found = look(knowledge, item, not_so=[statement], rest_so=True)
    assert cause in found.changes[0].causes
    risk = next(risk for risk in found.risks if risk.defect == defect)
    assert risk.causes[0][0] == cause


def test_what_is_not_pressed_at_all_stops_whatever_the_chances(knowledge: Knowledge) -> None:
    mild = replace(knowledge.ready["no-neon"], not_so={"neon-ground": Chance(0.01)})
    gentle = replace(knowledge, ready={"no-neon": mild})
    facts = {"item.colour": "neon"}
    assert look(gentle, "apron", facts=facts, rest_so=True).verdict == STOP
    softer = replace(gentle, ready={"no-neon": replace(mild, bars=False)}, defects={})
    assert look(softer, "apron", facts=facts, rest_so=True).verdict != STOP


def test_an_uncoated_mug_stops(knowledge: Knowledge) -> None:
    found = look(knowledge, "mug-uncoated", rest_so=True)
    assert found.verdict == STOP
    assert found.risks[0].causes[0][0] == "no-coating"


@pytest.mark.parametrize("item", ["tea-towel-polyester", "mug", "ceramic-tile", "aluminium-panel", "fleece-blanket"])
def test_a_usual_job_goes(knowledge: Knowledge, item: str) -> None:
    found = look(knowledge, item, rest_so=True)
    assert found.verdict == GO
    assert found.changes == ()
    assert found.spoilt < found.usual


@pytest.mark.parametrize("spoilt", [0.01, SPOILT, 0.2])
def test_a_job_of_which_nothing_is_told_is_spoilt_as_often_as_usual(knowledge: Knowledge, spoilt: float) -> None:
    found = look(knowledge, "tea-towel-polyester", spoilt=spoilt)
    assert found.usual == pytest.approx(spoilt, abs=1e-9)
    assert found.spoilt == pytest.approx(spoilt, abs=1e-9)


def test_each_statement_that_is_not_so_counts(knowledge: Knowledge) -> None:
    for statement in knowledge.ready.values():
        item = next(
            (one for one in knowledge.items.values() if statement.condition.holds(one.facts) is not False), None
        )
        if item is None:  # what is told of the goods alone calls it up, and settles it
            assert statement.bars
            continue
        fine = readiness(Job(item=item, rest_so=True), knowledge, RATES)
        wrong = readiness(Job(item=item, rest_so=True, not_so=[statement.id]), knowledge, RATES)
        unsure = readiness(Job(item=item, rest_so=True, unsure=[statement.id]), knowledge, RATES)
        assert fine.spoilt < unsure.spoilt < wrong.spoilt, statement.id
        assert statement.id in [change.statement.id for change in wrong.changes if change.statement]
        assert wrong.verdict != GO


def test_a_statement_that_does_not_go_with_the_goods_counts_for_nothing(knowledge: Knowledge) -> None:
    assert (
        look(knowledge, "tea-towel-polyester", not_so=["film-off"]).spoilt
        == look(knowledge, "tea-towel-polyester").spoilt
    )


def test_what_facts_or_figures_settle_is_not_asked(knowledge: Knowledge) -> None:
    job = Job(item=knowledge.items["tea-towel-polyester"])
    asked = {one.id for one in to_ask(job, knowledge)}
    assert {"mirrored", "pressure-enough", "covered"} <= asked
    assert not {"takes-dye", "coated", "film-off", "wrap-tight"} & asked
    told = replace(job, pressure=LIGHT, set=Set(cover_sheets=0))
    assert not {"pressure-enough", "covered"} & {one.id for one in to_ask(told, knowledge)}
    assert {one.id for one, _ in doubted(told, knowledge)} == {"pressure-enough", "covered"}
    assert "pressure-not-more" in {one.id for one in confirmed(told, knowledge)}


def test_the_pressure_counts_both_ways(knowledge: Knowledge) -> None:
    for pressure, cause in ((LIGHT, "pressure-light"), (HEAVY, "pressure-heavy")):
        found = look(knowledge, "mouse-mat", pressure=pressure, rest_so=True)
        assert found.changes[0].causes == (cause,)


def test_a_blend_goes_with_care_until_the_customer_has_agreed(knowledge: Knowledge) -> None:
    assert look(knowledge, "tea-towel-65-35").verdict == CARE
    assert look(knowledge, "tea-towel-65-35", so=["blend-agreed"]).verdict == GO
    assert look(knowledge, "tea-towel-65-35", not_so=["blend-agreed"]).verdict == STOP


def test_settings_outside_the_window_stop_and_are_named(knowledge: Knowledge) -> None:
    found = look(knowledge, "ceramic-tile", set=Set(temperature=200.0, dwell=60.0), rest_so=True)
    assert found.verdict == STOP
    assert found.changes[0].causes == ("dwell-short",)
    assert found.risks[0].causes[0][0] == "dwell-short"
    assert look(knowledge, "ceramic-tile", set=Set(temperature=200.0, dwell=330.0), rest_so=True).verdict == GO


def test_what_comes_after_the_press_is_left_out(knowledge: Knowledge) -> None:
    later = {cause.id for cause in knowledge.causes.values() if cause.family == LATER}
    assert later
    assert not later & set(look(knowledge, "mug").chances)


def test_every_number_is_a_chance_and_money_follows(knowledge: Knowledge) -> None:
    found = look(knowledge, "tea-towel-65-35", pieces=24, not_so=["dry"])
    assert all(0.0 <= chance <= 1.0 for chance in found.chances.values())
    assert all(0.0 <= risk.chance <= 1.0 for risk in found.risks)
    piece = RATES.piece(knowledge.items["tea-towel-65-35"])
    assert found.loss == pytest.approx(24 * piece * found.spoilt)
    assert found.usual_loss == pytest.approx(24 * piece * found.usual)
    assert all(change.saves == pytest.approx(24 * piece * change.spoils) for change in found.changes)


def test_what_is_known_of_the_press_counts(knowledge: Knowledge) -> None:
    cool = Known(cause="platen-runs-cool", turns_up=Chance(0.9), note="reads 8 °C low")
    found = look(knowledge, "tea-towel-polyester", known=(cool,))
    assert "platen-runs-cool" in [cause for risk in found.risks for cause, _ in risk.causes[:1]]
    assert found.verdict != GO


def test_goods_that_are_not_known_are_looked_over_as_well(knowledge: Knowledge) -> None:
    found = readiness(Job(facts={"item.hard": True, "item.coated": False}), knowledge, RATES)
    assert found.verdict == STOP
    assert [change.statement.id for change in found.changes if change.statement] == ["coated"]
