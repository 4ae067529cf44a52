"""How the listener's table is made, and that the one that ships was made from what ships."""

import random

import pytest

from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.ways import stamp
from diagnose.reasoning.words.groups import Groups
from diagnose.reasoning.words.names import own_tokens
from diagnose.reasoning.words.runs import Spoken
from diagnose.reasoning.words.slips import Speller
from diagnose.reasoning.words.table import from_plain, table
from diagnose.reasoning.words.units import Reader
from tests.teaching.marked import messages
from tests.teaching.material import IDLE, Example, Material
from tests.teaching.teaching import table_of

WORDS = {
    "pale": "weak dull faint",
    "doubled": "twice copy shadow",
    IDLE: "hello thanks monday",
    "bent": "curved bow rocks",
}
COMMON = "the print mug picture looks".split()
NEVER = frozenset[str]()  # classes of the table that have been retired since


def example(told: str, dice: random.Random) -> Example:
    words = [dice.choice(WORDS[told].split()), dice.choice(COMMON), dice.choice(COMMON)]
    dice.shuffle(words)
    speller = Speller.of([*COMMON, *" ".join(WORDS.values()).split()])
    return own_tokens(Reader(Groups.of([])), speller, " ".join(words)), told, 1.0


def toy(seed: int) -> Material:
    dice = random.Random(seed)
    examples = [example(told, dice) for told in WORDS for _ in range(40)]
    return Material(examples, examples, sorted(COMMON), "a stamp", {"pale": 0.2, "doubled": 0.1, "bent": 0.1})


def test_the_same_material_gives_the_same_table() -> None:
    assert table_of(toy(1)) == table_of(toy(1))
    assert table_of(toy(1)) != table_of(toy(2))


@pytest.mark.parametrize("layer", ["sights", "answers"])
def test_what_can_be_told_apart_is_learnt(layer: str) -> None:
    learnt = getattr(from_plain(table_of(toy(1))), layer)
    dice = random.Random(99)
    for tokens, told, _ in (example(told, dice) for told in WORDS for _ in range(20)):
        runs = Spoken(learnt, tokens).ranked(0.0)
        assert [learnt.classes[run.told] for run in runs[:1]] == ([] if told == IDLE else [told])


def test_the_table_was_made_from_the_ways_of_saying_that_ship() -> None:
    assert table().stamp == stamp(), "the ways of saying have changed since the table was made: run ./dev teach"


def test_the_table_tells_what_is_known_and_nothing_else() -> None:
    known, ships = load(shipped_folder()), table()
    outcomes = {f"{check.id} {outcome.id}" for check in known.checks.values() for outcome in check.outcomes}
    elsewhere = {f"elsewhere {name}" for name in known.elsewhere}
    assert set(ships.sights.classes) - NEVER == {IDLE, *known.defects, *elsewhere}
    assert set(ships.answers.classes) - NEVER <= {IDLE, *outcomes, *(f"cause {name}" for name in known.causes)}
    assert len(outcomes - set(ships.answers.classes)) == 0


def test_marked_messages_tell_of_what_there_is() -> None:
    told = {each.removeprefix("not ") for message in messages() for span in message for each in span.told if each}
    ships = table()
    items = {each for each in told if each.startswith("item ")}
    assert told - items <= {*ships.sights.classes, *ships.answers.classes}
