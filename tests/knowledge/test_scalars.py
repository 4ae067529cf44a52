import pytest

from diagnose.knowledge.documents.scalars import hint_for_text, resolve


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("true", True),
        ("false", False),
        ("null", None),
        ("", None),
        ("0", 0),
        ("-7", -7),
        (".5", 0.5),
        ("0.50", 0.5),
    ],
)
def test_words_with_a_value(text: str, value: object) -> None:
    resolved = resolve(text)
    assert resolved == value
    assert type(resolved) is type(value)


@pytest.mark.parametrize(
    "text",
    "yes no on off True ~ 014 12:30 1_000 0x10 1e3 .inf .nan 5. +5 2026-11-24 1,5 ٣".split(),
)
def test_everything_else_stays_text(text: str) -> None:
    assert resolve(text) == text


def test_a_number_past_counting_is_refused() -> None:
    with pytest.raises(OverflowError):
        resolve("9" * 5000)


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("no", "write false"),
        ("Yes", "write true"),
        ("014", "leading noughts"),
        ("1_000", "without _"),
        ("0x10", "decimal number"),
        ("12:30", "without a colon"),
        ("1e3", "in full"),
        ("0,5", "full stop"),
        ("90 %", "without a sign or unit"),
        ("60s", "without a sign or unit"),
        ("+5", "leave the + out"),
        (".nan", "ordinary number"),
        ("0.5", "quotes"),
        ("rather hot", ""),
    ],
)
def test_hints(text: str, part: str) -> None:
    hint = hint_for_text(text)
    assert part in hint
    assert bool(hint) == bool(part)


def test_no_truth_is_advised_where_none_is_wanted() -> None:
    assert hint_for_text("no", truth=False) == ""
    assert "write the number" in hint_for_text("80 %", truth=False)
