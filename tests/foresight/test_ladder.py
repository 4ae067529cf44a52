"""A starting point for goods that nobody has pressed, and the pieces to press."""

import pytest

from diagnose.foresight.ladder import COOLER, Goods, body_for, ladder, nearest, rounded
from diagnose.foresight.pressing import NoBody, usual_settings
from diagnose.knowledge.model import Knowledge
from diagnose.press.pressing import wanted


@pytest.mark.parametrize("item", ["tea-towel-65-35", "ceramic-tile", "mug", "slate"])
def test_goods_like_an_item_in_everything_begin_with_its_settings(knowledge: Knowledge, item: str) -> None:
    like = knowledge.items[item]
    made = ladder(Goods(like=like), knowledge)
    usual = usual_settings(like)
    assert made.start.temperature == pytest.approx(usual.temperature, abs=0.51)
    assert made.start.dwell == pytest.approx(usual.dwell, rel=0.12, abs=5.0)


def test_thicker_goods_take_longer(knowledge: Knowledge) -> None:
    tile = knowledge.items["ceramic-tile"]
    times = [ladder(Goods(like=tile, thickness=deep), knowledge).start.dwell for deep in (4e-3, 9e-3)]
    assert times[0] < 330.0 < times[1]


def test_what_they_want_is_what_their_like_wants(knowledge: Knowledge) -> None:
    like = knowledge.items["tea-towel-polyester"]
    same = wanted(body_for(Goods(like=like), knowledge))
    assert wanted(body_for(Goods(like=like, polyester=0.5, thickness=2e-3), knowledge)) == pytest.approx(same)


def test_the_pieces_stand_round_the_first_and_the_last_is_cooler(knowledge: Knowledge) -> None:
    made = ladder(Goods(like=knowledge.items["ceramic-tile"], thickness=9e-3), knowledge)
    first, longer, shorter, cooler = made.rungs
    assert shorter.dwell < first.dwell < longer.dwell
    assert shorter.result.share < first.result.share < longer.result.share
    assert cooler.temperature == first.temperature - COOLER
    assert cooler.result.over == pytest.approx(first.result.over, rel=0.15)
    low, high = made.dwells
    assert high is not None
    assert low < shorter.dwell < longer.dwell < high
    assert [rung.purpose for rung in made.rungs] == ["start", "longer", "shorter", "gentler"]


def test_pieces_that_a_timer_cannot_tell_apart_are_left_out(knowledge: Knowledge) -> None:
    for item in ("bandana", "aluminium-panel", "t-shirt-50-50"):
        rungs = ladder(Goods(like=knowledge.items[item]), knowledge).rungs
        assert len({(rung.temperature, rung.dwell) for rung in rungs}) == len(rungs) >= 3


def test_layers_find_what_they_are_like_and_get_a_coat(knowledge: Knowledge) -> None:
    layers = (("slate", 10e-3),)
    goods = Goods(like=nearest(layers, knowledge), layers=layers)
    assert goods.like.id == "slate"
    assert goods.gets_a_coat
    body = body_for(goods, knowledge)
    assert [round(layer.thickness, 5) for layer in body.item] == [3e-5, 0.01]
    coated = Goods(like=goods.like, layers=(("polyester-resin", 5e-5), *layers))
    assert not coated.gets_a_coat
    assert len(body_for(coated, knowledge).item) == 2


def test_stuff_that_is_not_known_is_named(knowledge: Knowledge) -> None:
    with pytest.raises(NoBody, match="moonstone"):
        nearest((("moonstone", 5e-3),), knowledge)
    with pytest.raises(NoBody, match="silicone-foam"):
        nearest((("silicone-foam", 5e-3),), knowledge)


@pytest.mark.parametrize(("exact", "set_to"), [(2.0, 5.0), (57.4, 55.0), (58.0, 60.0), (119.0, 120.0), (218.0, 225.0)])
def test_dwells_as_a_timer_is_set(exact: float, set_to: float) -> None:
    assert rounded(exact) == set_to
