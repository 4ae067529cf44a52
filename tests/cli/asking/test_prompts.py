"""What a typed line is taken for, however it is made."""

import pytest

from diagnose.cli.asking.prompts import Reply, several, understand

LETTERS = {"b": "back"}


@pytest.mark.parametrize(
    ("typed", "reply"),
    [
        ("2", Reply(number=2)),
        ("0", None),
        ("4", None),
        ("1" * 5_000, None),
        ("back", Reply(letter="b")),
        ("it is pale", Reply(words="it is pale")),
    ],
)
def test_a_line_is_a_number_on_offer_a_letter_or_words(typed: str, reply: Reply | None) -> None:
    assert understand(typed, numbers=3, letters=LETTERS) == reply


@pytest.mark.parametrize(("typed", "numbers"), [("1, 3 1", [1, 3]), ("1 4", []), ("1 " + "1" * 5_000, []), ("", [])])
def test_several_numbers_are_taken_where_all_are_on_offer(typed: str, numbers: list[int]) -> None:
    assert several(Reply(words=typed), 3) == numbers
