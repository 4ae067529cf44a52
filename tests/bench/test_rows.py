"""The report of a measurement, and how the command ends."""

import pytest

from tests.bench import __main__ as command
from tests.bench.rows import Row, markdown, table

ROWS = [Row("speed", "2 ms", "at most 5 ms", True), Row("size", "9 MiB", "at most 8 MiB", False)]


def test_a_table_is_aligned_and_names_what_misses_its_limit() -> None:
    assert table([*ROWS, Row("shown only", "1")]).splitlines() == [
        "what        measured  limit",
        "----------  --------  -------------  ------",
        "speed       2 ms      at most 5 ms   ok",
        "size        9 MiB     at most 8 MiB  MISSED",
        "shown only  1",
    ]


def test_a_markdown_table() -> None:
    assert markdown([Row("P(a|b)", "1")]).splitlines() == [
        "| what | measured | limit |  |",
        "| --- | --- | --- | --- |",
        "| P(a\\|b) | 1 |  |  |",
    ]


@pytest.mark.parametrize("given", [("speed", "2 ms"), ("speed", "2 ms", ""), ("speed", "2 ms", None, None)])
def test_plain_tuples_pass_for_rows(given: tuple[object, ...]) -> None:
    assert Row.of(given) == Row("speed", "2 ms")


@pytest.mark.parametrize(("rows", "code"), [(ROWS[:1], 0), (ROWS, 1), ([("shown only", 1)], 0)])
def test_a_missed_limit_is_told_by_the_exit_code(
    rows: list[Row], code: int, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(command, "measurements", lambda: {"speed": lambda: rows, "other": list})
    assert command.main(["speed"]) == code
    assert command.main(["other"]) == 0
    assert "measured" in capsys.readouterr().out


def test_an_unknown_name_is_refused_with_the_known_ones(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(command, "measurements", lambda: {"speed": list})
    with pytest.raises(SystemExit):
        command.main(["spede"])
    assert "no measurement called spede; there are: speed" in capsys.readouterr().err
