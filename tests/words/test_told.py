"""The messages that listening is measured on speak of what there is, and enough of it."""

from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml

from diagnose.knowledge.loading import load, shipped_folder
from tests.words.told import Message, locked_away, to_tune_by

KNOWLEDGE = load(shipped_folder())
DANGERS = {"", "fire", "shock", "burn", "fumes", "crush", "glass", "stuck"}
LATER = {  # defects that are known since the messages were written
    *("white-when-stretched", "white-at-folds", "overlap-lines", "film-peels", "film-cracks", "stiff-hand"),
    *("starved-solids", "wrap-join", "bowed-image", "pale-hollow", "sleeve-marks"),
}
HALVES: dict[str, Callable[[], list[Message]]] = {"tuning": to_tune_by, "locked": locked_away}


@pytest.mark.parametrize("half", HALVES)
def test_they_name_only_what_is_known(half: str) -> None:
    steps = KNOWLEDGE.checks.keys() | KNOWLEDGE.fixes.keys()
    outcomes = {(check.id, outcome.id) for check in KNOWLEDGE.checks.values() for outcome in check.outcomes}
    for message in HALVES[half]():
        assert {message.item} <= {"", *KNOWLEDGE.items}
        assert message.facts.keys() <= KNOWLEDGE.facts.keys()
        assert {*message.seen, *message.not_seen} <= KNOWLEDGE.defects.keys()
        assert {told[:2] for told in message.outcomes} <= outcomes
        assert {*message.causes, *message.cause_named} <= KNOWLEDGE.causes.keys()
        assert {*message.sensible, *message.silly} <= steps
        assert message.danger in DANGERS


@pytest.mark.parametrize("half", HALVES)
def test_there_are_enough_of_each_kind(half: str) -> None:
    messages = HALVES[half]()
    assert len(messages) >= 400
    assert sum(len(message.seen) > 1 for message in messages) >= 100
    assert sum(message.outside for message in messages) >= len(messages) / 12
    assert {defect for message in messages for defect in message.seen} == KNOWLEDGE.defects.keys() - LATER
    assert min(Counter(message.writer for message in messages).values()) >= 80


def test_no_message_stands_in_both_halves_or_in_the_knowledge() -> None:
    texts = [message.text.casefold() for half in HALVES.values() for message in half()]
    assert len(texts) == len(set(texts))
    stored = {text.casefold() for defect in KNOWLEDGE.defects.values() for text in (defect.title, *defect.said)}
    stored |= {text.casefold() for heard in KNOWLEDGE.heard.values() for text in heard}
    assert len(stored & set(texts)) <= 2  # a few words may be put alike by chance


def test_the_words_that_carry_an_outcome_stand_in_the_message() -> None:
    for message in to_tune_by():
        for _, _, words in message.outcomes:
            assert " ".join(words.casefold().split()) in " ".join(message.text.casefold().split())


def test_no_other_test_opens_the_locked_half() -> None:
    """It serves to measure only: whoever tunes by it has nothing left to measure with."""
    tests = Path(__file__).parents[1]
    users = {path.relative_to(tests).as_posix() for path in tests.rglob("*.py") if "locked_away" in path.read_text()}
    assert users == {"words/told.py", "words/test_told.py", "bench/listening.py"}
    assert yaml.safe_load((tests / "words" / "messages" / "tuning.yaml").read_bytes())
