"""The list of what may be seen: grouped as the eye meets it, without what the goods cannot have."""

from diagnose.dialogue.sights import possible
from diagnose.knowledge.model import MEETS
from diagnose.reasoning.network import network
from tests.handbook.browser import knowledge

KNOWN = knowledge()


def listed(item: str) -> list[str]:
    facts = KNOWN.items[item].facts if item else {}
    return [defect.id for group in possible(KNOWN, facts).values() for defect in group]


def test_without_an_item_every_defect_is_listed_once() -> None:
    assert sorted(listed("")) == sorted(KNOWN.defects)


def test_what_ships_says_what_meets_each_defect() -> None:
    groups = possible(KNOWN, {})
    assert tuple(groups) == MEETS[:-1]
    assert all(defect.meets == meets for meets, group in groups.items() for defect in group)
    assert all(len(group) >= 3 for group in groups.values())


def test_a_tile_has_no_pile_to_crush_and_a_towel_no_coat_to_blister() -> None:
    assert {"crushed-pile", "melted-cloth"}.isdisjoint(listed("ceramic-tile"))
    assert {"blisters", "cracking"}.isdisjoint(listed("tea-towel-polyester"))
    assert "blisters" in listed("ceramic-tile")
    assert "melted-cloth" in listed("tea-towel-polyester")


def test_only_what_no_cause_can_bring_on_is_left_out() -> None:
    for item in list(KNOWN.items.values())[::7]:
        net = network(KNOWN, item.facts)
        shown = set(listed(item.id))
        for defect, node in net.defects.items():
            assert (defect in shown) == any(net.priors[cause] for cause in node.links)
