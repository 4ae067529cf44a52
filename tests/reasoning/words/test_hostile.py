"""No text, however it is made, keeps anybody waiting: what is read of it is short, and so is the work."""

from time import process_time

import pytest

from diagnose.dialogue.hearing import hear
from diagnose.reasoning.words import Lexicon, answer, find_item, rank_defects, understand
from diagnose.reasoning.words.spelling import LONGEST_TEXT
from diagnose.reasoning.words.understand import THE_REST
from tests.reasoning.words.hostile import HOSTILE

PATIENCE = 10.0  # seconds of work that would be a hang: each of these takes well under one


@pytest.mark.parametrize("text", HOSTILE, ids=lambda text: repr(text[:12]))
def test_hostile_words_are_answered_in_a_moment(words: Lexicon, text: str) -> None:
    check = next(iter(words.knowledge.checks))
    start = process_time()
    understand(words, text)
    rank_defects(words, text)
    find_item(words, text)
    answer(words, check, text)
    hear(words.knowledge, words, text)
    assert process_time() - start < PATIENCE


def test_blanks_between_two_words_cost_what_their_number_costs(words: Lexicon) -> None:
    """Eight times the blanks take about eight times as long, where their square would take 64 times."""
    few, many = (_quickest(words, "65" + " " * count + "x") for count in (20_000, 160_000))
    assert many < 32 * max(few, 1e-4)


def _quickest(words: Lexicon, text: str) -> float:
    def once() -> float:
        start = process_time()
        understand(words, text)
        return process_time() - start

    return min(once() for _ in range(5))


def test_of_a_text_that_is_too_long_it_is_said_how_much_was_read(words: Lexicon) -> None:
    short = "pale " * (LONGEST_TEXT // 5)
    assert THE_REST not in understand(words, short).not_understood
    told = understand(words, f"{short} doubled")
    assert told.not_understood[-1] == THE_REST == "all after the first 2,000 letters"
    assert [match.id for match in told.defects] == ["faint-colour"]
    assert hear(words.knowledge, words, "x " * LONGEST_TEXT).not_understood[-1] == THE_REST
