"""How times are said: those of hands, and those of waiting beside them."""

from dataclasses import replace

import pytest

from diagnose.knowledge.model import Wait
from diagnose.speech.amounts import fix_taking, taking, wait
from tests.dialogue.workshop import KNOWLEDGE

COOLING = Wait(minutes=60.0, what="the press to cool")


@pytest.mark.parametrize(
    ("time", "words"),
    [
        (5.0, "5 min"),
        (59.6, "an hour"),
        (60.0, "an hour"),
        (80.0, "1 h 20 min"),
        (240.0, "4 h"),
        (250.0, "4 h 10 min"),
        (480.0, "a day"),
        (1440.0, "3 days"),
    ],
)
def test_a_wait_in_words(time: float, words: str) -> None:
    assert wait(time) == words


def test_what_a_step_waits_for_is_told_beside_its_minutes() -> None:
    check = replace(KNOWLEDGE.checks["probe"], minutes=6.0)
    assert taking(check) == "6 min"
    assert taking(replace(check, waits=COOLING)) == "6 min, and an hour for the press to cool"


def test_a_fix_tells_its_test_press_then_its_wait() -> None:
    fix = KNOWLEDGE.fixes["turn-up-heat"]
    assert fix_taking(fix, 4.0, " · 1 sheet") == "Fix · 14 min with the test press · 1 sheet"
    later = replace(fix, waits=Wait(days=3, what="the cloth to come"))
    assert fix_taking(later, 4.0, "") == "Fix · 14 min with the test press, and 3 days for the cloth to come"
