"""Content that went wrong on trial pieces: goods without what they may be, a cap that could have no seams under the
platen, a film left on that could not peel, and a fault that goes with the place of several pieces."""

import pytest

from diagnose.cli.shop.shelf import shipped
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Answered, CannotTell, Pressed, Saw
from diagnose.dialogue.session import Session
from diagnose.knowledge.conditions import Usual
from diagnose.knowledge.shop import Shop

KNOWN = shipped()
CHECK, HOW_MANY = "lay-out-as-pressed", "how-many-at-once"


def after(item: str, defect: str, *more: Answered | CannotTell, **facts: bool | str) -> Consultation:
    told = {name.replace("_", "."): value for name, value in facts.items()}
    return Consultation(KNOWN, Shop(), Session((Pressed(item, told), Saw((defect,)), *more)))


@pytest.mark.parametrize("item", [item for item in KNOWN.items.values() if item.settings], ids=lambda item: item.id)
def test_an_item_says_in_what_kind_of_press_it_goes(item: object) -> None:
    assert "press.kind" in getattr(item, "facts", {})


@pytest.mark.parametrize(
    ("item", "fact", "value"),
    [
        ("hoodie", "item.polyester", 65.0),
        ("leggings", "item.polyester", 0.0),
        ("cap", "item.seams", False),
        ("number-plate", "item.coated", False),
        ("acrylic-keyring", "item.coated", False),
        ("ceramic-plate", "press.kind", "swing-away"),
        ("pet-bowl", "press.kind", "oven"),
        ("tumbler", "press.kind", "mug-press"),
        ("cut-panel", "press.kind", "calender"),
        ("door-hanger", "press.kind", "swing-away"),
        ("cotton-with-spray", "item.colour", "white"),
    ],
)
def test_goods_added_lately_may_be_otherwise(item: str, fact: str, value: object) -> None:
    usual = KNOWN.items[item].job[fact]
    assert isinstance(usual, Usual)
    assert value in [share for share, _ in usual.shares]


def test_a_seam_may_hold_the_platen_off_a_cap_but_not_off_a_mug() -> None:
    for item, there in (("cap", True), ("mug", False)):
        net = after(item, "gaps-at-seams").net
        assert (net.priors[net.index["seams-hold-platen-off"]] > 0.0) == there


def test_a_film_left_on_may_take_the_coat_along() -> None:
    found = {suspect.cause for suspect in after("number-plate", "coating-peels").suspects}
    assert "film-left-on" in found


# --- several pieces under one platen ---


def lead(outcome: str, item: str = "hardboard-coaster", defect: str = "one-side-pale") -> list[str]:
    told = after(item, defect, Answered(CHECK, outcome), press_several=True)
    return [suspect.cause for suspect in told.suspects[:3]]


def test_the_same_place_speaks_for_the_press_and_not_for_the_piece() -> None:
    leads = lead("same-place")
    assert {*leads} & {"cold-zone", "platen-out-of-level", "pad-worn"}
    assert leads[0] != lead("with-the-piece")[0]
    assert "blank-not-flat" in lead("with-the-piece")


def test_a_head_that_drops_out_goes_with_the_picture() -> None:
    assert lead("with-the-picture", "aluminium-ornament", "banding")[0] == "nozzles-blocked"


def test_it_is_asked_only_of_whoever_presses_several() -> None:
    pale = ("hardboard-coaster", "one-side-pale")
    assert CHECK in after(*pale).net.checks
    assert CHECK in after(*pale, Answered(HOW_MANY, "several-at-once")).net.checks
    assert CHECK not in after(*pale, Answered(HOW_MANY, "one-at-a-time")).net.checks
    assert CHECK in after(*pale, CannotTell(HOW_MANY)).desk.closed
    assert CHECK not in after("mug", "one-side-pale").net.checks


def test_every_cause_it_speaks_of_is_known() -> None:
    shown = {cause for outcome in KNOWN.checks[CHECK].outcomes for cause in outcome.shows}
    assert shown <= {*KNOWN.causes}
