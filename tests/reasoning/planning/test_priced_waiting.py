"""What a step waits for is priced apart from the minutes of hands, and told apart from them."""

from dataclasses import replace
from functools import cache

import pytest

from diagnose.dialogue import moves as said
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.session import Session
from diagnose.dialogue.telling import spared
from diagnose.knowledge.folders import shipped_folder
from diagnose.knowledge.loading import load
from diagnose.knowledge.model import WORKING_DAY, Knowledge, Wait
from diagnose.knowledge.shop import Rates, Shop
from diagnose.reasoning.estimate import finding_out
from diagnose.reasoning.planner import options
from diagnose.reasoning.trouble import Action, PlannedQuestion, Trouble
from diagnose.speech.talk import why_check
from tests.dialogue.workshop import KNOWLEDGE, opened

COOLING = Wait(minutes=60.0, what="the press to cool")
DELIVERY = Wait(days=3.0, what="the cloth to come")
FREE = Shop(rates=Rates(waiting=0.0))


@cache
def shipped() -> Knowledge:
    return load(shipped_folder())


def waiting(checks: dict[str, Wait], fixes: dict[str, Wait]) -> Knowledge:
    """The workshop's knowledge, in which these steps wait."""
    known_checks = {key: replace(check, waits=checks.get(key, Wait())) for key, check in KNOWLEDGE.checks.items()}
    known_fixes = {key: replace(fix, waits=fixes.get(key, Wait())) for key, fix in KNOWLEDGE.fixes.items()}
    return replace(KNOWLEDGE, checks=known_checks, fixes=known_fixes)


def toilsome() -> Knowledge:
    """The workshop's knowledge, in which fixes take so long that asking first pays."""
    return replace(KNOWLEDGE, fixes={key: replace(fix, minutes=40.0) for key, fix in KNOWLEDGE.fixes.items()})


def two_probes() -> Knowledge:
    """A probe of the cold press that takes little work, and one of the hot press that tells as much."""
    probe = KNOWLEDGE.checks["probe"]
    cold = replace(probe, id="cold-probe", minutes=3.0, waits=COOLING)
    hot = replace(probe, id="hot-probe", minutes=5.0)
    return replace(toilsome(), checks={cold.id: cold, hot.id: hot})


def test_a_minute_waited_costs_a_twentieth_of_a_minute_of_hands() -> None:
    assert Rates().minute_waited == pytest.approx(0.025)
    assert Rates(minute=4.0).minute_waited == pytest.approx(0.2)
    assert Rates(minute=4.0, waiting=0.3).minute_waited == 0.3


def test_a_step_costs_its_waiting_and_its_minutes_stay_those_of_hands() -> None:
    check = replace(KNOWLEDGE.checks["probe"], waits=COOLING)
    rates = Rates(waiting=0.1)
    assert rates.check_price(check, None) == pytest.approx(rates.check_price(KNOWLEDGE.checks["probe"], None) + 6.0)
    assert rates.worth(check) == pytest.approx(check.minutes + 6.0 / rates.minute)


def test_a_day_waited_is_a_working_day() -> None:
    assert Wait(days=3.0, minutes=20.0).time == 3.0 * WORKING_DAY + 20.0


def test_the_order_of_steps_hangs_on_the_price_of_waiting() -> None:
    session = opened("pale")
    assert Consultation(two_probes(), FREE, session).advice.id == "cold-probe"
    assert Consultation(two_probes(), Shop(), session).advice.id == "hot-probe"


def test_of_two_fixes_alike_the_one_that_waits_comes_later() -> None:
    known = waiting({}, {"pre-press": DELIVERY})
    known = replace(known, checks={})
    session = opened("steam-marks")
    assert Consultation(known, FREE, session).advice.id == "pre-press"
    assert Consultation(known, Shop(), session).advice.id == "iron-dry"


@pytest.mark.parametrize(
    ("item", "defect", "cold"),
    [
        ("tea-towel-polyester", "cold-corners", "pull-paper-corners"),
        ("mug", "embossed-marks", "seat-it-on-the-cold-form"),
        ("mug", "one-side-pale", "tug-the-wrap"),
    ],
)
def test_what_can_be_done_on_the_hot_press_comes_before_letting_it_cool(item: str, defect: str, cold: str) -> None:
    session = Session((said.Pressed(item, {}), said.Saw((defect,))))
    assert shipped().checks[cold].waits.time >= 30.0
    assert Consultation(shipped(), FREE, session).advice.id == cold
    advice = Consultation(shipped(), Shop(), session).advice
    assert advice.kind == "check"
    assert not shipped().checks[advice.id].waits.time


def test_where_waiting_costs_nothing_all_is_planned_as_if_nothing_waited() -> None:
    known = waiting({"probe": COOLING, "tape": COOLING}, {"turn-up-heat": DELIVERY, "pre-press": COOLING})
    session = opened("pale")
    bare, apart = (Consultation(each, FREE, session).advice for each in (KNOWLEDGE, known))
    assert (bare.id, bare.cost, bare.minutes) == (apart.id, apart.cost, apart.minutes)
    assert bare.waits == 0.0
    assert apart.waits > 0.0


def test_the_expected_wait_is_the_sum_over_what_may_come() -> None:
    first = Action("first", 1.0, ((0, 1.0),), 2.0, 30.0)
    second = Action("second", 5.0, ((1, 1.0),), 4.0, 480.0)
    best = options(Trouble((0.75, 0.25), (first, second), (), call=1000.0, call_minutes=9.0))[0]
    assert best.step is first
    assert best.waits == pytest.approx(30.0 + 0.25 * 480.0)
    assert best.minutes == pytest.approx(2.0 + 0.25 * 4.0)


def test_a_question_and_the_rough_estimate_count_their_waiting_too() -> None:
    asks = PlannedQuestion("asks", 0.5, ((1.0, 0.0), (0.0, 1.0)), 1.0, 60.0)
    fixes = (Action("one", 10.0, ((0, 1.0),), 2.0, 10.0), Action("other", 10.0, ((1, 1.0),), 2.0, 20.0))
    trouble = Trouble((0.5, 0.5), fixes, (asks,), call=1000.0)
    best = options(trouble)[0]
    assert best.step is asks
    assert best.waits == pytest.approx(60.0 + 15.0)
    assert finding_out(trouble).waits == pytest.approx(60.0 + 15.0)


def test_what_asking_first_saves_is_told_apart() -> None:
    known = waiting(
        {}, {"turn-up-heat": DELIVERY, "press-longer": DELIVERY, "pre-press": DELIVERY, "iron-dry": DELIVERY}
    )
    now = Consultation(known, Shop(), opened("pale"))
    work, waited = spared(now, now.advice.id)
    assert now.advice.kind == "check"
    assert waited > 60.0
    own = next(one for one in now.advice.options if one.step is not None and one.step.id == now.advice.id)
    act = next(one for one in now.advice.options if one.kind == "fix")
    whole = (act.cost - own.cost) / now.shop.rates.minute
    assert work == pytest.approx(max(0.0, whole - waited / 20.0), abs=0.75)
    assert "of waiting." in why_check(now, now.advice.id)
    plain = Consultation(toilsome(), Shop(), opened("pale"))
    assert plain.advice.kind == "check"
    assert spared(plain, plain.advice.id)[1] == 0.0
    assert "waiting" not in why_check(plain, plain.advice.id)
