"""The groups of everyday words that ship, and how units are read through them."""

import pytest

from diagnose.knowledge.model import WordGroup
from diagnose.problems import Place
from diagnose.reasoning.words import Lexicon
from diagnose.reasoning.words.groups import Groups
from diagnose.reasoning.words.slips import Speller
from diagnose.reasoning.words.spelling import clauses
from diagnose.reasoning.words.units import Reader


def group(name: str, *members: str, as_written: tuple[str, ...] = (), plain: bool = False) -> WordGroup:
    return WordGroup(
        id=name, note="test", members=members, as_written=as_written, plain=plain, place=Place("words.yaml")
    )


GROUPS = Groups.of(
    [
        group("plain", "is", "looks", "no idea", plain=True),
        group("pale", "pale", "weak", "not bright", as_written=("washed out",)),
        group("wash", "wash", "laundry"),
    ]
)
READER = Reader(GROUPS)


def features(text: str) -> list[set[str]]:
    units = READER.typed(clauses(text), Speller.of([*GROUPS.words, "washed", "out", "bright", "green"]))
    return [{feature for feature, _ in unit.features} for unit in units]


@pytest.mark.parametrize("text", ["It looks weak", "is it pale", "not bright", "washed out"])
def test_words_and_phrases_stand_for_their_group(text: str) -> None:
    (found,) = features(text)
    assert "#pale" in found


def test_a_phrase_as_written_counts_in_no_other_form() -> None:
    assert {"wash", "#wash"} in features("it washes out")


def test_plain_phrases_say_nothing() -> None:
    assert features("no idea") == []


def test_what_follows_a_not_is_denied_up_to_the_end_of_the_clause() -> None:
    assert features("no green wash, weak") == [{"!green"}, {"!wash", "!#wash"}, {"weak", "#pale"}]


def test_there_are_about_a_hundred_groups_and_every_phrase_says_something(words: Lexicon) -> None:
    knowledge = words.knowledge
    groups = [group for name, group in knowledge.words.items() if name not in knowledge.defects]
    assert len(groups) >= 100
    assert all(group.note for group in groups)


def test_further_names_lead_to_one_defect(words: Lexicon) -> None:
    knowledge = words.knowledge
    owners: dict[str, str] = {}
    for name, defect in knowledge.defects.items():
        further = knowledge.words[name].members if name in knowledge.words else ()
        for said in (*defect.said, *further, *knowledge.heard.get(name, ())):
            assert owners.setdefault(said.lower(), name) == name, said
