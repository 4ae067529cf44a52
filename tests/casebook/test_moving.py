"""Cases out of the casebook and in again: every case comes back exactly, or every wrong line is named and none is kept;
and copies of a whole casebook."""

import csv
import io
import json
import sqlite3
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.casebook.case import LONGEST, VERSION, line, to_plain
from diagnose.casebook.store import importing
from diagnose.casebook.store.backup import back_up, look_over, restore
from diagnose.casebook.store.casebook import Casebook, open_book
from diagnose.casebook.store.exporting import COLUMNS, FORMULA, defused, json_lines, table
from diagnose.casebook.store.importing import MOST_NAMED, read_files
from diagnose.dialogue.moves import Saw
from diagnose.problems import PressloreError
from tests.casebook.some import a_case, some_case, some_cases


def written(tmp_path: Path, text: str | bytes, name: str = "cases.jsonl") -> Path:
    file = tmp_path / name
    file.write_bytes(text if isinstance(text, bytes) else text.encode())
    return file


def test_what_was_exported_comes_back_exactly(book: Casebook, tmp_path: Path) -> None:
    cases = some_cases(700)
    book.add(cases)
    file = written(tmp_path, "".join(json_lines(book.cases())))
    with open_book(tmp_path / "other.sqlite3") as other:
        assert other.add(read_files([file])) == 700
        assert list(other.cases()) == cases


def test_two_shops_make_one_casebook_in_either_order(tmp_path: Path) -> None:
    one = written(tmp_path, "".join(json_lines(some_cases(30))), "one.jsonl")
    other = written(tmp_path, "".join(json_lines(some_cases(30, first=20))), "other.jsonl")
    with open_book(tmp_path / "a") as first, open_book(tmp_path / "b") as second:
        assert (first.add(read_files([one])), first.add(read_files([other]))) == (30, 20)
        second.add(read_files([other, one]))
        assert list(first.cases()) == list(second.cases()) == some_cases(50)
        assert list(first.patterns()) == list(second.patterns())


def test_a_whole_casebook_can_be_taken_in(book: Casebook, tmp_path: Path) -> None:
    with open_book(tmp_path / "theirs.sqlite3") as theirs:
        theirs.add(some_cases(12))
    assert book.add(read_files([tmp_path / "theirs.sqlite3"])) == 12


def changed(**values: Any) -> str:
    return json.dumps({**to_plain(some_case(1)), **values})


@pytest.mark.parametrize(
    ("bad", "says"),
    [
        ("{", "no JSON"),
        ("[]", "damaged"),
        ("null", "damaged"),
        (changed(format="a song"), "not a case"),
        (changed(version=VERSION + 1), "newer presslore"),
        (changed(id="../../etc"), "damaged"),
        (changed(minutes=-1), "damaged"),
        (changed(minutes="long"), "damaged"),
        (changed(ended="0001-01-01T00:00:00Z"), "ended in 1"),
        (changed(press="left\0"), "cannot be written"),
        (changed(moves=[{"move": "saw", "defects": ["\ud800"]}]), "cannot be written"),
        (changed(moves=[{"move": "danced"}]), "damaged"),
        (changed().replace('"spoilt":', '"spoilt": NaN, "x":'), "no JSON"),
        ("[" * 100_000, "no JSON"),
    ],
)
def test_every_bad_line_is_named_and_nothing_is_kept(bad: str, says: str, book: Casebook, tmp_path: Path) -> None:
    lines = [line(some_case(5)), f"{bad}\n", "\n", line(some_case(6)), f"{bad}\n"]
    file = written(tmp_path, "".join(lines))
    with pytest.raises(PressloreError) as caught:
        book.add(read_files([file]))
    told = str(caught.value).splitlines()
    assert [row.startswith(f"{file}:{number}:1: ") for row, number in zip(told, (2, 5), strict=True)] == [True, True]
    assert all(says in row for row in told)
    assert book.count() == 0


def test_a_line_without_an_end_and_one_that_is_no_text(book: Casebook, tmp_path: Path) -> None:
    with pytest.raises(PressloreError, match=f"longer than {LONGEST} bytes"):
        book.add(read_files([written(tmp_path, b"x" * (LONGEST + 2))]))
    with pytest.raises(PressloreError, match="no text in UTF-8"):
        book.add(read_files([written(tmp_path, b"\xff\xfe{}")]))
    with pytest.raises(PressloreError) as caught:
        book.add(read_files([written(tmp_path, "{\n" * 5000)]))
    assert len(str(caught.value).splitlines()) == MOST_NAMED
    assert book.add(read_files([written(tmp_path, "\ufeff" + line(some_case(1)))])) == 1


def test_a_casebook_may_be_so_large_and_no_larger(
    book: Casebook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert (importing.LARGEST_BOOK, MOST_NAMED) == (1_073_741_824, 100)
    file = tmp_path / "theirs.sqlite3"
    with open_book(file) as theirs:
        theirs.add(some_cases(3))
    size = file.stat().st_size
    monkeypatch.setattr(importing, "LARGEST_BOOK", size)
    assert book.add(read_files([file])) == 3
    monkeypatch.setattr(importing, "LARGEST_BOOK", size - 1)
    with pytest.raises(PressloreError, match=f"too large - expected at most {size - 1:,} bytes"):
        book.add(read_files([file]))


@given(st.binary(max_size=200))
def test_any_bytes_are_read_or_refused_in_plain_words(data: bytes) -> None:
    import tempfile

    with tempfile.TemporaryDirectory() as folder:
        file = written(Path(folder), data)
        try:
            assert list(read_files([file])) == []
        except PressloreError as error:
            refused = str(error)
            assert refused


# --- for a spreadsheet ---


def test_the_table_shows_every_case_and_runs_nothing() -> None:
    cases = [*some_cases(5), a_case(9, [Saw(("=1+1", "b"))], press='=HYPERLINK("x")', knowledge="@sum")]
    rows = list(csv.DictReader(io.StringIO("".join(table(cases)))))
    assert tuple(rows[0]) == COLUMNS
    assert [row["id"] for row in rows] == [case.id for case in cases]
    assert rows[5]["press"] == '\'=HYPERLINK("x")'
    assert rows[5]["seen"] == "'=1+1 b"
    assert not [cell for row in rows for cell in row.values() if cell.startswith(FORMULA)]


@given(st.text(), st.sampled_from(FORMULA))
def test_a_cell_is_changed_only_where_it_would_be_run(text: str, mark: str) -> None:
    assert defused(mark + text) == "'" + mark + text
    assert defused("a" + mark + text) == "a" + mark + text
    assert defused(-1.5) == -1.5


# --- copies ---


def test_a_copy_is_made_while_the_casebook_is_written_to(book: Casebook, tmp_path: Path) -> None:
    book.add(some_cases(40))
    target = tmp_path / "copy.sqlite3"
    with open_book(book.place) if book.database.path else book as other:
        other.add(some_cases(10, first=40))
        assert back_up(book, target) == 50
    assert [file.name for file in tmp_path.iterdir() if "copy" in file.name] == ["copy.sqlite3"]
    with open_book(target, create=False) as copy:
        assert list(copy.cases()) == some_cases(50)
    with pytest.raises(PressloreError, match="such a file already: name another, or add --force"):
        back_up(book, target)
    assert back_up(book, target, force=True) == 50


def test_a_damaged_casebook_is_not_copied(tmp_path: Path) -> None:
    with open_book(tmp_path / "book.sqlite3") as book:
        book.add(some_cases(60))
        book.close()
        data = bytearray((tmp_path / "book.sqlite3").read_bytes())
        data[4096 * 3 : 4096 * 6] = b"\xee" * (4096 * 3)
        (tmp_path / "book.sqlite3").write_bytes(data)
        with pytest.raises(PressloreError, match="damaged"):
            back_up(book, tmp_path / "copy.sqlite3")
    assert not (tmp_path / "copy.sqlite3").exists()


@pytest.mark.parametrize("damaged", [False, True])
def test_restoring_keeps_what_was_there(damaged: bool, tmp_path: Path) -> None:
    file, copy = tmp_path / "book.sqlite3", tmp_path / "copy.sqlite3"
    with open_book(file) as book:
        book.add(some_cases(40))
        back_up(book, copy)
        book.add(some_cases(5, first=40))
    if damaged:
        file.write_bytes(b"\xee" * 10_000)
    before = file.read_bytes()
    with pytest.raises(PressloreError, match="there is a casebook already: add --force"):
        restore(copy, file)
    assert file.read_bytes() == before
    old = restore(copy, file, force=True)
    assert old is not None
    if damaged:
        assert old.read_bytes() == before
    else:
        assert look_over(old) == 45
    assert look_over(file) == 40
    with open_book(file) as book:
        assert book.add(some_cases(45)) == 5


def test_restoring_waits_for_nobody_to_have_it_open(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("diagnose.casebook.store.backup.WAIT", 0.2)
    file, copy = tmp_path / "book.sqlite3", tmp_path / "copy.sqlite3"
    with open_book(file) as book:
        book.add(some_cases(4))
        back_up(book, copy)
        with pytest.raises(PressloreError, match="another program has kept the casebook busy"):
            restore(copy, file, force=True)
        assert book.add(some_cases(6)) == 2


@pytest.mark.parametrize("content", [b"", b"Dear diary", b"SQLite format 3\0" + b"\xee" * 5000])
def test_what_is_no_copy_is_not_restored(content: bytes, tmp_path: Path) -> None:
    file, copy = tmp_path / "book.sqlite3", written(tmp_path, content, "copy.sqlite3")
    with open_book(file) as book:
        book.add(some_cases(4))
    with pytest.raises(PressloreError, match=r"copy\.sqlite3"):
        restore(copy, file, force=True)
    with pytest.raises(PressloreError, match="no such file"):
        restore(tmp_path / "nothing", file, force=True)
    assert look_over(file) == 4
    assert sorted(each.name for each in tmp_path.iterdir()) == ["book.sqlite3", "copy.sqlite3"]


def test_a_database_of_something_else_is_not_restored(tmp_path: Path) -> None:
    other = tmp_path / "songs.sqlite3"
    with sqlite3.connect(other) as connection:
        connection.execute("CREATE TABLE songs (name)")
    connection.close()
    with pytest.raises(PressloreError, match="no casebook"):
        restore(other, tmp_path / "book.sqlite3")
    assert not (tmp_path / "book.sqlite3").exists()
