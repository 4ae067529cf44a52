"""The causes that the last cases on a press were put down to count likelier for a while, once, and on that press."""

from datetime import UTC, datetime, timedelta

import pytest

from diagnose.casebook.case import Case
from diagnose.casebook.lately import LASTS, LIFT, SURELY, found_lately, since
from diagnose.casebook.looking_back import looked_back
from diagnose.cli.shop.shelf import shipped
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Answered, Cured, FoundLately, HandedOver, Move, Pressed, Saw
from diagnose.dialogue.session import Session
from diagnose.knowledge.learned import with_numbers
from diagnose.knowledge.model import Chance, Knowledge
from diagnose.knowledge.numbers import Learned, LearnedCause
from diagnose.knowledge.shop import Known, Press, Shop
from diagnose.problems import Place

KNOWN = shipped()
NOW = datetime(2026, 11, 30, 12, 0, tzinfo=UTC)
CAUSE = "cold-zone"
FOUND: tuple[Move, ...] = (Saw(("cold-corners",)), Answered("map-the-platen", "place-cooler"))
FIX = max(
    (fix for fix in KNOWN.fixes.values() if CAUSE in fix.cures), key=lambda fix: (fix.cures[CAUSE].value, fix.id)
).id
SHOP = Shop(presses={name: Press(id=name, title=name) for name in ("left", "right")})


def a_case(days: float, press: str = "left", ending: Move | None = None, number: int = 1) -> Case:
    moves = (Pressed("tea-towel-polyester", {}, press), *FOUND, ending or Cured(FIX))
    return Case(id=f"{number:032x}", ended=NOW - timedelta(days=days), session=Session(moves), press=press)


def begun(press: str = "left", shop: Shop = SHOP, knowledge: Knowledge = KNOWN) -> Consultation:
    return Consultation(knowledge, shop, Session((Pressed("mouse-mat", {}, press), Saw(("faint-colour",)))))


def times(*cases: Case, start: Consultation | None = None) -> float:
    found = {each.cause: each.times for each in found_lately(cases, start or begun(), NOW)}
    return found.get(CAUSE, 1.0)


def test_the_case_was_surely_put_down_to_it() -> None:
    found = looked_back(begun(), a_case(0))
    assert found is not None
    assert found.causes[CAUSE] > SURELY


def test_it_counts_most_today_and_wears_off() -> None:
    counted = [times(a_case(days)) for days in (0, 7, 14, 21, LASTS)]
    assert counted == sorted(counted, reverse=True)
    assert counted[0] == pytest.approx(LIFT, rel=0.2)
    assert counted[-1] == 1.0
    assert since(NOW) == NOW - timedelta(days=LASTS)


def test_several_cases_count_for_more_but_never_beyond_the_lift() -> None:
    one = times(a_case(14))
    many = times(*(a_case(14, number=n) for n in range(8)))
    assert 1.0 < one < many <= LIFT


def test_the_day_of_the_last_one_is_told() -> None:
    (found,) = [each for each in found_lately([a_case(2), a_case(5, number=2)], begun(), NOW) if each.cause == CAUSE]
    assert found.on == "2026-11-28"


def test_another_press_and_a_case_that_was_not_solved_say_nothing() -> None:
    assert times(a_case(0, press="right")) == 1.0
    assert times(a_case(0, ending=HandedOver())) == 1.0


def test_what_is_known_of_the_press_stands_as_it_is() -> None:
    known = Press(id="left", title="left", known=(Known(cause=CAUSE, turns_up=Chance(0.5), note="cold at the back"),))
    shop = Shop(presses={"left": known, "right": SHOP.presses["right"]})
    assert times(a_case(0), start=begun(shop=shop)) == 1.0


def test_what_is_learnt_and_what_is_recent_lift_a_cause_once() -> None:
    usual = begun().net.priors[begun().net.index[CAUSE]]
    place = Place("kb/learned.yaml")
    learnt = Learned(causes={CAUSE: LearnedCause(turns_up=Chance(2 * usual), shapes=(), place=place)})
    taught = with_numbers(KNOWN, learnt)
    plain, start = times(a_case(0)), begun(knowledge=taught)
    now = start.net.priors[start.net.index[CAUSE]]
    lifted = (now / (1 - now)) / (usual / (1 - usual))
    assert lifted > 1.5
    assert times(a_case(0), start=start) == pytest.approx(plain / lifted, rel=0.1)


def test_a_case_is_no_evidence_for_itself_by_way_of_the_next() -> None:
    case = a_case(0)
    told = Session((*case.session.moves[:-1], FoundLately(CAUSE, "2026-11-29", 4.0), case.session.moves[-1]))
    assert looked_back(begun(), Case(id=case.id, ended=NOW, session=told, press="left")) == looked_back(begun(), case)


def test_what_lay_in_other_goods_says_nothing_of_these() -> None:
    cause = "too-much-cotton"
    fix = max((fix for fix in KNOWN.fixes.values() if cause in fix.cures), key=lambda fix: fix.cures[cause].value).id
    moves = (Pressed("tea-towel-cotton"), Saw(("faint-colour", "poor-uptake")), Cured(fix))
    cotton = Case(id="1".zfill(32), ended=NOW, session=Session(moves))
    same, other = (
        Consultation(KNOWN, Shop(), Session((Pressed(item), Saw(("faint-colour",)))))
        for item in ("tea-towel-cotton", "tea-towel-polyester")
    )
    assert cause not in {each.cause for each in found_lately([cotton], other, NOW)}
    looked = looked_back(same, cotton)
    assert looked is not None
    assert looked.causes[cause] > SURELY
