"""What becomes of the spoiled piece, and whether to go on with the order."""

from dataclasses import replace
from itertools import pairwise

import pytest

from diagnose.dialogue import aftermath
from diagnose.dialogue.aftermath import RestOfOrder, SpoiledPiece, rest_of_order, spoiled_piece
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Answered, Cured, HandedOver, Move, Pressed, Saw, TriedFix
from diagnose.dialogue.session import Session
from diagnose.foresight.forecast import CARE, GO, STOP
from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.preparing import CLEAN_UP, DISCARD, PRESS_AGAIN, PRINT_OVER, SECOND, salvage_of
from diagnose.knowledge.shop import Rates, Shop
from diagnose.speech.afterwards import afterwards
from tests.dialogue.workshop import at_work, opened

SHIPPED = load(shipped_folder())
RUN = "which-pieces"


def on(item: str, seen: tuple[str, ...], *moves: Move, shop: Shop | None = None) -> Consultation:
    return Consultation(SHIPPED, shop or Shop(), Session((Pressed(item), Saw(seen), *moves)))


def piece(item: str, *seen: str, shop: Shop | None = None) -> SpoiledPiece:
    found = spoiled_piece(on(item, seen, shop=shop))
    assert found is not None
    return found


def rest(item: str, seen: str, *moves: Move, shop: Shop | None = None) -> RestOfOrder:
    found = rest_of_order(on(item, (seen,), *moves, shop=shop))
    assert found is not None
    return found


def chances(found: SpoiledPiece) -> dict[str, float]:
    return {way.way: way.chance for way in found.ways}


# --- the piece ---


def test_something_is_said_of_every_defect_whatever_was_pressed() -> None:
    for defect in SHIPPED.defects:
        assert salvage_of(SHIPPED.salvage.values(), defect, {}) is not None
        for item in ("", *SHIPPED.items):
            ways = [way.way for way in piece(item, defect).ways]
            assert {PRESS_AGAIN, PRINT_OVER, SECOND, DISCARD} <= {*ways}


@pytest.mark.parametrize(
    ("item", "defect", "again"),
    [
        ("tea-towel-polyester", "faint-colour", True),
        ("slate", "faint-colour", True),
        ("t-shirt-cotton", "faint-colour", False),
        ("mug-uncoated", "faint-colour", False),
        ("tea-towel-polyester", "ghosting", False),
        ("tea-towel-polyester", "scorching", False),
        ("tea-towel-polyester", "press-box", False),
        ("ceramic-tile", "coating-peels", False),
        ("tote-bag-cotton", "wash-out", False),
        ("t-shirt-polyester", "rubs-off", True),
        ("t-shirt-cotton", "rubs-off", False),
        ("aluminium-panel", "warping", True),
        ("ceramic-tile", "warping", False),
    ],
)
def test_what_can_be_pressed_again_hangs_on_the_fault_and_the_goods(item: str, defect: str, again: bool) -> None:
    assert (chances(piece(item, defect))[PRESS_AGAIN] > 0.0) == again


def test_what_is_dangerous_or_comes_off_is_never_sold() -> None:
    for defect in ("cracking", "coating-peels", "blisters", "melted-cloth", "rubs-off"):
        assert chances(piece("ceramic-tile", defect))[SECOND] == 0.0


def test_of_several_faults_the_worst_counts() -> None:
    box, ghost, both = (piece("hoodie", *seen) for seen in (("press-box",), ("ghosting",), ("press-box", "ghosting")))
    assert CLEAN_UP in chances(box)
    assert CLEAN_UP not in chances(both)
    for way in (PRESS_AGAIN, PRINT_OVER, SECOND):
        assert chances(both)[way] == min(chances(box)[way], chances(ghost)[way])


def test_the_best_way_comes_first_and_discarding_is_worth_nothing() -> None:
    for item in ("lanyard", "hoodie", "slate", ""):
        for defect in ("faint-colour", "press-box", "haze", "melted-cloth", "paper-sticks"):
            ways = piece(item, defect).ways
            assert all(one.worth >= other.worth for one, other in pairwise(ways))
            assert next(way.worth for way in ways if way.way == DISCARD) == 0.0


def test_a_way_is_worth_the_piece_that_it_saves_less_what_it_takes() -> None:
    rates = Rates(minute=1.0, paper=0.5, blank=9.0)
    ways = {way.way: way for way in piece("slate", "haze", shop=Shop(rates=rates)).ways}
    whole = 6.0 + 0.5 + 20.0  # blank, sheet, and the minutes of a press
    assert ways[CLEAN_UP].worth == pytest.approx(ways[CLEAN_UP].chance * whole - 2.0)
    assert ways[PRESS_AGAIN].worth == pytest.approx(-20.0)
    assert ways[PRINT_OVER].worth == pytest.approx(-20.5)
    assert ways[SECOND].worth == pytest.approx(ways[SECOND].chance * aftermath.BRINGS * 6.0)
    unnamed = {way.way: way for way in piece("", "haze", shop=Shop(rates=rates)).ways}
    assert unnamed[SECOND].worth == pytest.approx(unnamed[SECOND].chance * aftermath.BRINGS * 9.0)


def test_pressing_again_carries_the_cautions_of_a_press() -> None:
    for each in SHIPPED.salvage.values():
        again = [way for name, way in each.ways.items() if name in (PRESS_AGAIN, PRINT_OVER) and way.comes_out.value]
        if each.ways[PRESS_AGAIN].comes_out.value >= 0.1:
            assert {"hot-platen", "pinch"} <= {*each.cautions}, each.id
        assert all(way.says for way in again)
    assert {"broken-glass", "hot-platen"} <= {*piece("slate", "faint-colour").cautions}


# --- the rest of the order ---


def test_a_fault_of_every_piece_stops_the_order_and_one_of_this_piece_alone_does_not() -> None:
    every = rest("tea-towel-polyester", "ghosting", Answered(RUN, "every-piece"))
    some = rest("tea-towel-polyester", "ghosting", Answered(RUN, "now-and-then"))
    alone = rest("tea-towel-polyester", "ghosting", Answered(RUN, "only-this"))
    assert (every.verdict, some.verdict, alone.verdict) == (STOP, CARE, GO)
    assert every.chance > some.chance > alone.chance
    assert (every.every, alone.every) == (0, 0)
    assert some.every * some.chance <= 1.0


def test_a_cause_that_comes_now_and_then_spoils_the_next_piece_less_than_one_of_every_piece() -> None:
    cool = rest("tea-towel-polyester", "faint-colour")
    lint = rest("tea-towel-polyester", "dark-specks")
    assert cool.chance > lint.chance
    assert cool.verdict == STOP


def test_what_came_after_the_press_does_not_hold_up_the_order() -> None:
    found = on("tea-towel-polyester", ("faded-in-light",))
    assert found.suspects[0].cause == "left-in-sun"
    faded = rest_of_order(found)
    assert faded is not None
    assert faded.chance <= 1.0 - found.suspects[0].behind
    assert faded.verdict != STOP


def test_stopping_is_held_against_going_on_in_the_shops_prices() -> None:
    dear = Shop(rates=Rates(blank=80.0))
    cheap = Shop(rates=Rates(minute=0.05, paper=0.01, blank=0.05))
    told = Answered(RUN, "now-and-then")
    assert rest("", "ghosting", told, shop=dear).verdict == STOP
    assert rest("", "ghosting", told, shop=cheap).verdict != STOP
    for shop in (dear, cheap, Shop()):
        found = rest("", "ghosting", told, shop=shop)
        assert found.going == pytest.approx(aftermath.ORDER * found.piece * found.chance)
        assert found.stopping == pytest.approx(on("", ("ghosting",), told, shop=shop).advice.cost)


def test_after_a_cure_the_order_goes_on_and_what_comes_now_and_then_is_watched() -> None:
    """One good test piece says much of a fault that every piece has, and little of one that comes now and then."""
    start = on("tea-towel-polyester", ("ghosting",))
    fix = start.advice.id
    every = rest("tea-towel-polyester", "ghosting", Answered(RUN, "every-piece"), Cured(fix))
    some = rest("tea-towel-polyester", "ghosting", Answered(RUN, "now-and-then"), Cured(fix))
    before = rest("tea-towel-polyester", "ghosting", Answered(RUN, "every-piece"))
    assert every.chance < 0.25 * before.chance
    assert some.verdict == CARE
    assert some.every in aftermath.EVERIES
    assert rest("tea-towel-polyester", "ghosting", HandedOver()).verdict == STOP


def test_looks_lie_closer_the_likelier_the_next_piece_is_spoiled() -> None:
    told = Answered(RUN, "now-and-then")
    found = [rest("tea-towel-polyester", defect, told) for defect in ("ghosting", "dark-specks", "creases", "blotches")]
    found += [rest("tea-towel-polyester", "ghosting", told, Cured(fix)) for fix in list(SHIPPED.fixes)[:4]]
    watched = [each for each in found if each.verdict == CARE]
    assert len(watched) > 3
    assert all(each.every == 1 or each.every * each.chance <= 1.0 for each in watched)
    assert all(each.every == 0 for each in found if each.verdict != CARE)


def test_nothing_is_said_where_the_knowledge_says_nothing() -> None:
    now = at_work(opened("pale"))
    assert (spoiled_piece(now), rest_of_order(now), afterwards(now)) == (None, None, [])
    assert afterwards(Consultation(SHIPPED, Shop(), Session((Pressed("mug"),)))) == []


def test_the_answer_is_taken_as_often_wrong_as_it_is() -> None:
    sure = {check.id: check for check in SHIPPED.checks.values()}
    assert sure[RUN].wrong > 0.0
    told = rest("tea-towel-polyester", "ghosting", Answered(RUN, "only-this"))
    assert told.chance > 0.03


# --- in words ---


@pytest.mark.parametrize("item", ["tea-towel-polyester", "slate", "mug", ""])
@pytest.mark.parametrize("seen", [("faint-colour",), ("melted-cloth",), ("ghosting", "press-box"), ("haze",)])
def test_it_takes_three_short_lines_at_most(item: str, seen: tuple[str, ...]) -> None:
    start = on(item, seen)
    fix = min(SHIPPED.fixes)
    for now in (start, *(start.then(start.session.make(end)) for end in (TriedFix(fix, "better"), Cured(fix)))):
        lines = afterwards(now)
        assert len(lines) == 3
        assert all(len(line) <= 260 for line in lines)
        assert lines[0].startswith("The spoiled piece: ")
        assert lines[-1].startswith("The rest of the order: ")


def test_care_says_how_often_to_look() -> None:
    now = on("tea-towel-polyester", ("ghosting",), Answered(RUN, "now-and-then"))
    found = rest_of_order(now)
    assert found is not None
    assert found.every == 3
    assert "go on with care, and look at every 3rd piece." in afterwards(now)[-1]
    shop = replace(now.shop, currency="GBP")
    assert "GBP 4.40" in afterwards(Consultation(SHIPPED, shop, now.session))[-1]


@pytest.mark.parametrize("item", ["mug", "tea-towel-polyester"])
def test_what_is_said_of_cotton_is_said_of_blends_alone(item: str) -> None:
    knowledge = load(shipped_folder())
    pure, blend = (
        " ".join(afterwards(Consultation(knowledge, Shop(), Session((Pressed(goods), Saw(("poor-uptake",)))))))
        for goods in (item, "tea-towel-65-35")
    )
    assert "vintage look" in blend
    assert "vintage look" not in pure
