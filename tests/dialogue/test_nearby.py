"""What comes nearest to words that name nothing."""

import pytest

from diagnose.cli.shop import shelf
from diagnose.dialogue.nearby import features, nearest_defects, nearest_items
from diagnose.knowledge.conditions import FactValue
from diagnose.reasoning.words import lexicon

KNOWLEDGE = shelf.knowledge()


def test_at_most_three_items_share_a_word_or_nearly() -> None:
    near = nearest_items(KNOWLEDGE, "hardbord coastr big")
    assert near[0] == "hardboard-coaster"
    assert len(near) <= 3
    assert nearest_items(KNOWLEDGE, "garden gnome") == ()
    assert nearest_items(KNOWLEDGE, "") == ()


def test_at_most_three_defects_that_the_words_speak_for() -> None:
    near = nearest_defects(lexicon(KNOWLEDGE), "second copy")
    assert "ghosting" in near
    assert len(near) <= 3
    assert nearest_defects(lexicon(KNOWLEDGE), "qwert") == ()


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("hard, flat, coated", {"item.hard": True, "item.shape": "flat", "item.coated": True}),
        ("cloth", {"item.hard": False}),
        ("curved, not coated", {"item.shape": "curved", "item.coated": False}),
        ("I wish I knew", {}),
    ],
)
def test_what_goods_on_no_list_are_like(words: str, told: dict[str, FactValue]) -> None:
    assert features(KNOWLEDGE, words) == told
