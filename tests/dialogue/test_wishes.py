"""What a person wants of the dialogue itself, in words; and how a test piece came out."""

import pytest

from diagnose.dialogue.wishes import adds, came_out, corrected, gone_by, wish


@pytest.mark.parametrize(
    ("words", "wanted"),
    [
        *dict.fromkeys(
            (
                "I don't know",
                "no idea",
                "can't tell",
                "dunno",
                "Not sure, sorry",
                "i have no idea what that is",
                "hard to say",
                "I can't remember",
                "haven't checked",
                "skip this one",
            ),
            "cannot-tell",
        ).items(),
        *dict.fromkeys(
            ("just tell me what to try", "skip the questions", "What should I do?", "stop asking me questions"), "try"
        ).items(),
        *dict.fromkeys(("stop", "quit", "enough", "that's enough", "I have to go"), "stop").items(),
        *dict.fromkeys(("back", "go back"), "back").items(),
        *dict.fromkeys(("why?", "why do you ask", "how do I do that"), "why").items(),
        ("that's right", "yes"),
        ("none of these", "no"),
    ],
)
def test_a_wish_is_known_by_its_words(words: str, wanted: str) -> None:
    assert wish(words) == wanted


@pytest.mark.parametrize(
    "words", ["", "pale", "not taped", "I don't know but it is blurry", "also a grey ring", "no ghost", "?" * 3000]
)
def test_whatever_says_more_is_no_wish(words: str) -> None:
    assert wish(words) == ""


@pytest.mark.parametrize(
    ("words", "result"),
    [
        ("it's gone", 1),
        ("that did it", 1),
        ("slightly better", 2),
        ("better but still not right", 2),
        ("still the same", 3),
        ("it didn't help", 3),
        ("something else", 4),
        ("ok", 0),
        ("no", 0),
        ("now it is shiny", 0),
        ("the ghost is gone but it is pale", 0),
    ],
)
def test_a_result_is_known_by_its_words_and_never_guessed_at(words: str, result: int) -> None:
    assert came_out(words) == result


@pytest.mark.parametrize(
    ("words", "instead"),
    [
        ("no, it's a tile not a mug", "a tile"),
        ("it is a tile, not a mug", "a tile"),
        ("sorry, I meant 385F", "385F"),
        ("no ghost", ""),
        ("not taped", ""),
        ("it's pale", ""),
    ],
)
def test_a_correction_says_what_stands_instead(words: str, instead: str) -> None:
    assert corrected(words) == instead


def test_what_comes_on_top_says_so() -> None:
    assert adds("also there is a grey ring round it")
    assert adds("and it is pale")
    assert not adds("I don't know")
    assert not adds("reads too cold")


def test_what_has_gone_is_told_from_what_stayed() -> None:
    assert gone_by("the ghost is gone but it is pale") == ("the ghost", " but it is pale")
    assert gone_by("still pale") == ("", "")
