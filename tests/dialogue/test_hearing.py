"""Words, or ids, become what the session understands."""

import pytest

from diagnose.cli.shop import shelf
from diagnose.dialogue.hearing import Heard, hear
from diagnose.knowledge.model import Knowledge
from diagnose.reasoning.words import Lexicon, lexicon


@pytest.fixture(scope="module")
def knowledge() -> Knowledge:
    return shelf.knowledge()


@pytest.fixture(scope="module")
def words(knowledge: Knowledge) -> Lexicon:
    return lexicon(knowledge)


def test_every_id_and_title_of_a_defect_names_it(knowledge: Knowledge, words: Lexicon) -> None:
    for defect in knowledge.defects.values():
        assert hear(knowledge, words, f" {defect.id} ") == Heard(defects=(defect.id,))
    taken = {
        defect.title: (defect.id, hear(knowledge, words, defect.title).defects) for defect in knowledge.defects.values()
    }
    assert {title: heard for title, (own, heard) in taken.items() if own not in heard} == {}


def test_several_things_at_once(knowledge: Knowledge, words: Lexicon) -> None:
    heard = hear(knowledge, words, "colours are dull and there is a second copy of the text")
    assert sorted(heard.defects) == ["faint-colour", "ghosting"]
    assert heard.not_understood == ()


def test_what_is_denied_is_not_seen(knowledge: Knowledge, words: Lexicon) -> None:
    heard = hear(knowledge, words, "colours are dull, no ghost")
    assert (heard.defects, heard.not_seen) == (("faint-colour",), ("ghosting",))


def test_the_item_and_its_facts_are_heard(knowledge: Knowledge, words: Lexicon) -> None:
    heard = hear(knowledge, words, "the 65/35 tea towel shows ghosting")
    assert heard.item == "tea-towel-65-35"
    assert heard.defects == ("ghosting",)


@pytest.mark.parametrize("text", ["", " ", "zxcvbn", "!?", "\x00", "12", "é" * 2000, "no", "a"])
def test_nonsense_names_nothing(text: str, knowledge: Knowledge, words: Lexicon) -> None:
    heard = hear(knowledge, words, text)
    assert (heard.defects, heard.answers) == ((), ())
