"""Which item is meant, and the facts said beside it."""

import pytest

from diagnose.knowledge.conditions import FactValue
from diagnose.reasoning.words import Lexicon, answer, find_item, understand
from diagnose.reasoning.words.shares import polyester_share, thickness


@pytest.mark.parametrize(
    ("text", "item"),
    [
        ("mug", "mug"),
        ("coffe mug", "mug"),
        ("65/35 tea towel", "tea-towel-65-35"),
        ("65/35 polyester cotton tea towel", "tea-towel-65-35"),
        ("100% cotton t-shirt", "t-shirt-cotton"),
        ("cotton bag", "tote-bag-cotton"),
        ("glass coaster", "glass-coaster"),
        ("fleece", "fleece-blanket"),
        ("cushon", "cushion-cover"),
        ("phone case", "phone-case"),
        ("slate", "slate"),
        ("tea towl", "tea-towel-polyester"),
        ("65/35 teatowel", "tea-towel-65-35"),
        ("cotton tea towel", "tea-towel-cotton"),
        ("65 % polyester tea towel", "tea-towel-65-35"),
        ("all polyester tea towel", "tea-towel-polyester"),
        ("100% polyester t-shirt", "t-shirt-polyester"),
        ("a mug for the fete", "mug"),
    ],
)
def test_items_are_found_by_what_people_call_them(words: Lexicon, text: str, item: str) -> None:
    found = find_item(words, text)
    assert found is not None
    assert found.id == item


def test_every_name_of_an_item_leads_to_it_and_says_nothing_else_of_its_material(words: Lexicon) -> None:
    known = words.knowledge.items
    wrong = {
        name: found
        for item in known.values()
        for name in (item.id, item.title, *item.said)
        if (found := find_item(words, name)) is None or found.id != item.id or "item.polyester" in found.facts
    }
    assert wrong == {}


@pytest.mark.parametrize("text", ["", "thing", "a xylophonquix", "glass vase", "wooden spoon", "car"])
def test_no_item_is_made_up(words: Lexicon, text: str) -> None:
    assert find_item(words, text) is None


@pytest.mark.parametrize(
    ("text", "facts"),
    [
        ("black polyester tee", {"item.colour": "black"}),
        ("navy cushion cover", {"item.colour": "dark"}),
        ("35% cotton 65% polyester apron", {"item.polyester": 65, "item.family": "blend"}),
        ("slate 6 mm thick", {"item.thickness": 6.0}),
        ("white mug", {}),
        ("65/35 apron", {"item.polyester": 65, "item.family": "blend"}),
        ("30 % cotton tea towel", {"item.polyester": 70}),
        ("cotton cushion cover", {"item.polyester": 0}),
        ("65/35 mug", {}),
    ],
)
def test_facts_beside_the_item_take_the_place_of_its_own(
    words: Lexicon, text: str, facts: dict[str, FactValue]
) -> None:
    found = find_item(words, text)
    assert found is not None
    assert dict(found.facts) == facts


def test_facts_are_kept_where_the_item_is_not_known(words: Lexicon) -> None:
    found = find_item(words, "65/35 polyester cotton")
    assert found is not None
    assert found.facts.get("item.polyester", 65) == 65


@pytest.mark.parametrize(
    ("text", "share"),
    [
        ("65/35 polyester cotton", 65),
        ("65 35", 65),
        ("65/35 cotton polyester", 35),
        ("65% polyester", 65),
        ("35 % cotton", 65),
        ("100% cotton", 0),
        ("all cotton", 0),
        ("pure polyester", 100),
        ("fifty-fifty", 50),
        ("300% polyester", None),
        ("12/13", None),
        ("a mug", None),
    ],
)
def test_the_share_of_polyester(text: str, share: int | None) -> None:
    assert polyester_share(text) == share


def test_the_thickness() -> None:
    assert thickness("about 3.5 mm thick") == 3.5
    assert thickness("thick") is None


@pytest.mark.parametrize(
    ("text", "outcome"),
    [("reads low", "reads-low"), ("it is too cold", "reads-low"), ("spot on", "agrees"), ("reads-high", "reads-high")],
)
def test_an_answer_to_a_check_in_own_words(words: Lexicon, text: str, outcome: str) -> None:
    assert answer(words, "probe-the-platen", text) == outcome


def test_an_answer_that_says_nothing(words: Lexicon) -> None:
    assert answer(words, "probe-the-platen", "marmalade") == ""


@pytest.mark.parametrize(
    ("text", "stuff"),
    [
        ("silk scarf", "silk"),
        ("white silk scarf", "silk"),
        ("scarf of silk", "silk"),
        ("scarf in pure silk", "silk"),
        ("wool scarf", "wool"),
        ("a woollen thing", "wool"),
        ("bamboo socks", "viscose"),
        ("leather keyring", "leather"),
        ("nylon bag", "nylon"),
        ("PVC-coated polyester banner", "pvc"),
        ("polyester banner with a pvc coating", "pvc"),
        ("polyester banner coated with PVC", "pvc"),
        ("PU backed polyester bag", "polyurethane"),
    ],
)
def test_what_takes_no_dye_is_refused_by_the_stuff_it_is_of(words: Lexicon, text: str, stuff: str) -> None:
    found = find_item(words, text)
    assert found is not None
    assert (found.id, found.refused) == ("", stuff)


@pytest.mark.parametrize(
    ("text", "item"),
    [
        ("silk look scarf", "bandana"),
        ("white silk look scarf", "bandana"),
        ("linen tea towel", "tea-towel-cotton"),
        ("polyester scarf with a silk lining", "bandana"),
        ("mug with a leather handle", "mug"),
        ("cushion, wool look", "cushion-cover"),
        ("polyester banner, no pvc coating", "flag"),
    ],
)
def test_a_likeness_or_a_part_beside_is_not_refused(words: Lexicon, text: str, item: str) -> None:
    found = find_item(words, text)
    assert found is not None
    assert (found.id, found.refused) == (item, "")


@pytest.mark.parametrize(
    ("text", "stuff"),
    [
        ("my silk scarf is pale", "silk"),
        ("the print on a wool scarf is pale", "wool"),
        ("the scarf of silk is pale", "silk"),
        ("the print on my scarf shines like silk", ""),
        ("the mug looks like leather", ""),
        ("my silk look scarf is pale", ""),
        ("my PVC-free flag is pale", ""),
        ("the PVC-coated polyester banner is pale", "pvc"),
        ("our polyester banner coated with pvc is pale", "pvc"),
        ("polyester flags are pale, the vinyl coated hook is fine", ""),
    ],
)
def test_goods_named_in_passing_are_refused_alike(words: Lexicon, text: str, stuff: str) -> None:
    found = understand(words, text).item
    assert (found.refused if found else "") == stuff
    assert not (stuff and found and found.id)


@pytest.mark.parametrize(
    ("text", "item"),
    [
        ("cotton mix tea towel", "tea-towel-65-35"),
        ("cotton blend tea towel", "tea-towel-65-35"),
        ("poly blend t-shirt", "t-shirt-65-35"),
        ("cotton tea towel", "tea-towel-cotton"),
    ],
)
def test_a_mix_of_cotton_is_not_all_cotton(words: Lexicon, text: str, item: str) -> None:
    found = find_item(words, text)
    assert found is not None
    assert found.id == item


def test_a_colour_of_the_print_is_not_that_of_the_goods(words: Lexicon) -> None:
    print_of_it, ground = (
        find_item(words, text) for text in ("black comes out green on the slate", "a green ceramic mug")
    )
    assert print_of_it is None or "item.colour" not in print_of_it.facts
    assert ground is not None
    assert ground.facts["item.colour"] == "mid"
