"""How an item is pressed, as a whole."""

from dataclasses import replace

import pytest

from diagnose.foresight.settings import barred, recipe, refuted
from diagnose.knowledge.conditions import FactValue
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.preparing import PARTS


def test_every_item_is_told_every_part_in_the_order_of_the_work(knowledge: Knowledge) -> None:
    for item in knowledge.items.values():
        found = recipe(item, knowledge)
        assert (found is None) == bool(barred(knowledge, item.facts)), item.id
        if found is None:
            continue
        assert tuple(line.part for line in found.lines) == PARTS
        assert all(line.basis for line in found.lines)
        assert found.cautions


def test_the_more_cotton_the_longer_the_pre_press(knowledge: Knowledge) -> None:
    def pre_press(item: str) -> float:
        found = recipe(knowledge.items[item], knowledge)
        assert found is not None
        line = found.line("pre-press")
        assert line is not None
        assert line.seconds is not None
        return line.seconds[0]

    assert pre_press("tea-towel-polyester") < pre_press("tea-towel-65-35") < pre_press("t-shirt-50-50")
    assert pre_press("aluminium-panel") == 0.0


def test_an_item_keeps_its_own_words(knowledge: Knowledge) -> None:
    item = knowledge.items["flag"]
    found = recipe(item, knowledge)
    assert found is not None
    line = found.line("cover")
    assert line is not None
    assert item.settings is not None
    assert line.text == item.settings.handling["cover"]


def test_what_is_told_of_the_goods_picks_the_line(knowledge: Knowledge) -> None:
    plain = recipe(knowledge.items["cushion-cover"], knowledge)
    mixed = recipe(knowledge.items["cushion-cover"], knowledge, {"item.polyester": 50.0})
    assert plain is not None
    assert mixed is not None
    assert plain.line("pre-press") != mixed.line("pre-press")
    assert plain.against == ()


def test_what_speaks_against_pressing_is_told(knowledge: Knowledge) -> None:
    found = recipe(knowledge.items["apron"], knowledge, {"item.colour": "black"})
    assert found is not None
    assert [one.id for one in found.against] == ["light-ground"]
    cotton = {**knowledge.items["t-shirt-cotton"].facts, "item.colour": "black"}
    assert [one.id for one in refuted(knowledge, cotton)] == ["takes-dye", "light-ground"]
    assert [one.id for one in refuted(knowledge, knowledge.items["mug-uncoated"].facts)] == ["coated"]


@pytest.mark.parametrize(
    ("item", "told", "why"),
    [
        ("apron", {"item.polyester": 30.0}, "takes-dye"),
        ("ceramic-tile", {"item.coated": False}, "coated"),
        ("t-shirt-polyester", {"item.colour": "neon"}, "no-neon"),
    ],
)
def test_goods_that_are_barred_get_no_settings(
    knowledge: Knowledge, item: str, told: dict[str, FactValue], why: str
) -> None:
    goods = knowledge.items[item]
    assert recipe(goods, knowledge) is not None
    assert recipe(goods, knowledge, told) is None
    assert [one.id for one in barred(knowledge, {**goods.facts, **told})] == [why]


def test_items_that_take_no_dye_carry_no_settings(knowledge: Knowledge) -> None:
    bare = {item.id for item in knowledge.items.values() if barred(knowledge, item.facts)}
    assert bare == {"tea-towel-cotton", "t-shirt-cotton", "tote-bag-cotton", "mug-uncoated"}
    assert all(knowledge.items[item].settings is None for item in bare)


def test_a_step_that_can_hurt_carries_its_cautions(knowledge: Knowledge) -> None:
    for statement in knowledge.ready.values():
        if any(word in statement.do.lower() for word in ("platen", "turn the pressure", "pre-press", "wrap until")):
            assert statement.cautions, statement.id


def test_without_settings_there_is_no_recipe(knowledge: Knowledge) -> None:
    assert recipe(replace(knowledge.items["mug"], settings=None), knowledge) is None
