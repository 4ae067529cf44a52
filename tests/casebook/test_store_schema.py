"""A casebook that comes from anybody: nothing in it is run, and nothing is read of one that holds what no casebook
holds."""

import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest

from diagnose.casebook.store import engine as store_engine
from diagnose.casebook.store import importing, tables
from diagnose.casebook.store.backup import restore
from diagnose.casebook.store.casebook import open_book
from diagnose.casebook.store.importing import read_files
from diagnose.casebook.store.rows import case_row, pattern_of
from diagnose.casebook.store.seals import seal
from diagnose.problems import PressloreError
from tests.casebook.some import some_case, some_cases

STRANGE: dict[str, list[str]] = {
    "a view": ["CREATE VIEW more AS SELECT * FROM cases"],
    "a view in place of the cases": ["ALTER TABLE cases RENAME TO kept", "CREATE VIEW cases AS SELECT * FROM kept"],
    "a view that passes for the version": [
        "DROP TABLE book",
        "CREATE VIEW book AS WITH RECURSIVE n(v) AS (SELECT 1 UNION ALL SELECT v FROM n) SELECT v AS version FROM n",
    ],
    "a trigger": ["CREATE TRIGGER gone AFTER INSERT ON cases BEGIN DELETE FROM took; END"],
    "a table": ["CREATE TABLE songs (name TEXT)"],
    "an index on an expression": ["CREATE INDEX odd ON cases (hex(zeroblob(length(moves))))"],
    "a partial index": ["CREATE INDEX odd ON cases (id) WHERE length(hex(zeroblob(spoilt))) > 3"],
    "a generated column": ["ALTER TABLE cases ADD COLUMN twice TEXT AS (moves || moves) VIRTUAL"],
    "a column more": ["ALTER TABLE cases ADD COLUMN more TEXT"],
    "an index less": ["DROP INDEX cases_alike"],
    "a table less": ["DROP TABLE figure"],
    "a table without its checks": ["DROP TABLE seen", "CREATE TABLE seen (pattern, defect, there)"],
    "a virtual table": ["CREATE VIRTUAL TABLE found USING fts5(words)"],
    "letters that act": ['CREATE TABLE "\x1b]52;c;AAAA\x07\u202e" (name TEXT)'],
}


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "theirs.sqlite3"
    with open_book(path) as book:
        book.add(some_cases(20))
    return path


def run_on(file: Path, *statements: str) -> None:
    raw = sqlite3.connect(file)
    for statement in statements:
        raw.execute(statement)
    raw.commit()
    raw.close()


def opened(file: Path, _: Path) -> None:
    open_book(file).close()


def imported(file: Path, folder: Path) -> None:
    with open_book(folder / "ours.sqlite3") as book:
        book.add(read_files([file]))


def restored(file: Path, folder: Path) -> None:
    restore(file, folder / "ours.sqlite3")


@pytest.mark.parametrize("strange", STRANGE)
@pytest.mark.parametrize("way", [opened, imported, restored])
def test_what_no_casebook_holds_is_refused(
    strange: str, way: Callable[[Path, Path], None], file: Path, tmp_path: Path
) -> None:
    run_on(file, *STRANGE[strange])
    before = file.read_bytes()
    with pytest.raises(PressloreError, match=r"no casebook|missing from it|not as presslore") as caught:
        way(file, tmp_path)
    assert str(caught.value).startswith(str(file))
    assert str(caught.value).isprintable()
    assert file.read_bytes() == before
    assert {path.name for path in tmp_path.iterdir()} <= {"theirs.sqlite3", "ours.sqlite3"}


def test_statistics_of_the_file_are_no_strangers(file: Path) -> None:
    run_on(file, "ANALYZE")
    with open_book(file) as book:
        assert book.faults() == []


def test_nothing_can_be_written_while_it_is_read(file: Path) -> None:
    with (
        open_book(file) as book,
        pytest.raises(PressloreError, match="cannot be written"),
        book.database.reading() as connection,
    ):
        connection.exec_driver_sql("DELETE FROM took")


def test_a_foreign_database_stays_as_it_is(tmp_path: Path) -> None:
    songs = tmp_path / "songs.sqlite3"
    run_on(songs, "CREATE TABLE songs (name)")
    before = songs.read_bytes()
    with pytest.raises(PressloreError, match=r"no casebook \(it holds songs\)"):
        open_book(songs)
    assert songs.read_bytes() == before


def test_a_connection_is_one_to_a_strangers_file(file: Path) -> None:
    with open_book(file) as book, book.database.reading() as connection:
        settings = {
            name: connection.exec_driver_sql(f"PRAGMA {name}").scalar()
            for name in ("trusted_schema", "cell_size_check", "query_only")
        }
        raw = connection.connection.driver_connection
        assert isinstance(raw, sqlite3.Connection)
        assert raw.getlimit(sqlite3.SQLITE_LIMIT_LENGTH) == store_engine.LARGEST
        assert raw.getlimit(sqlite3.SQLITE_LIMIT_ATTACHED) == 0
    assert settings == {"trusted_schema": 0, "cell_size_check": 1, "query_only": 1}


# --- taking cases in from one ---


def test_a_huge_value_is_refused(file: Path, tmp_path: Path) -> None:
    run_on(file, "UPDATE cases SET knowledge = hex(zeroblob(8000000)) WHERE rowid = 3")
    with pytest.raises(PressloreError, match=r"theirs\.sqlite3: .*larger than any|theirs\.sqlite3: .*too big"):
        imported(file, tmp_path)
    with open_book(tmp_path / "ours.sqlite3") as book:
        assert book.count() == 0


def taken_from(file: Path, folder: Path) -> tuple[set[int], list[str]]:
    """Which cases were taken in, and what was said of those left out."""
    said: list[str] = []
    with open_book(folder / "ours.sqlite3") as book:
        book.add(read_files([file], said.append))
        return {int(case.id, 16) for case in book.cases()}, said


def test_what_is_not_as_it_was_written_is_named_and_left_out(file: Path, tmp_path: Path) -> None:
    run_on(file, f"UPDATE cases SET spoilt = 99 WHERE id IN ('{some_case(3).id}', '{some_case(7).id}')")
    there, said = taken_from(file, tmp_path)
    assert there == {*range(20)} - {3, 7}
    assert [line.split(" cannot be read")[0] for line in said] == [f"Case {some_case(one).id}" for one in (3, 7)]


def test_cases_that_show_what_was_not_written_are_left_out(file: Path, tmp_path: Path) -> None:
    digest = pattern_of(some_case(3)).digest
    run_on(file, f"UPDATE pattern SET press = 'elsewhere' WHERE digest = '{digest}'")
    there, said = taken_from(file, tmp_path)
    assert there == {one for one in range(20) if pattern_of(some_case(one)).digest != digest}
    assert len(said) == 20 - len(there)


def test_a_case_that_no_line_could_bring_comes_from_no_casebook_either(file: Path, tmp_path: Path) -> None:
    """Written, and sealed, by somebody who means no good."""
    case = some_case(3)
    row = {**case_row(case, pattern_of(case).digest), "knowledge": "\x1b]52;c;AAAA\x07"}
    with open_book(file) as book, book.database.writing() as connection:
        connection.execute(
            tables.cases.update().where(tables.cases.c.id == case.id).values(**{**row, "digest": seal(row, case.took)})
        )
    there, said = taken_from(file, tmp_path)
    assert there == {*range(20)} - {3}
    assert len(said) == 1
    assert said[0].isprintable()


def test_their_file_stays_as_it_is(file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from tests.casebook.test_checking import older

    old = tmp_path / "old.sqlite3"
    older(str(old), some_cases(25), monkeypatch)
    before = {path: path.read_bytes() for path in (file, old)}
    imported(file, tmp_path)
    imported(old, tmp_path)
    assert {path: path.read_bytes() for path in (file, old)} == before
    with open_book(tmp_path / "ours.sqlite3") as book:
        assert list(book.cases()) == some_cases(25)


def test_a_casebook_larger_than_any_is_not_copied(file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(importing, "LARGEST_BOOK", 10_000)
    with pytest.raises(PressloreError, match="too large - expected at most 10,000 bytes"):
        imported(file, tmp_path)


def test_a_casebook_in_use_is_taken_in_with_its_last_cases(file: Path, tmp_path: Path) -> None:
    with open_book(file) as book:
        book.add(some_cases(25))
        assert file.with_name("theirs.sqlite3-wal").exists()
        imported(file, tmp_path)
    with open_book(tmp_path / "ours.sqlite3") as book:
        assert book.count() == 25
