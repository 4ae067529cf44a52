"""A flipped byte, wherever it falls, is told or changes nothing that is read."""

import random
import sqlite3
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import Connection, text

from diagnose.casebook.case import Case
from diagnose.casebook.store import casebook as store
from diagnose.casebook.store import migrations as store_migrations
from diagnose.casebook.store import reading as store_reading
from diagnose.casebook.store import rows as store_rows
from diagnose.casebook.store import tables
from diagnose.casebook.store.backup import back_up
from diagnose.casebook.store.casebook import Casebook, Skipped, open_book
from diagnose.casebook.store.checking import RowFault
from diagnose.casebook.store.rows import case_row, pattern_of, took_rows
from diagnose.casebook.store.seals import pattern_digest, seal
from diagnose.dialogue.moves import Measured, Saw
from diagnose.problems import PressloreError
from tests.casebook.some import a_case, some_case, some_cases

CASES = 200
FEW, ALL = 60, 400  # flips


def with_figures(number: int) -> Case:
    return a_case(number, [Saw(("ghosting",)), Measured({"platen-left": 185.5})])


def test_a_sound_casebook_has_no_faults(book: Casebook) -> None:
    book.add([*some_cases(1200), with_figures(5000), a_case(6000, [Saw(("été", "\N{GREEK SMALL LETTER ALPHA}"))])])
    assert book.faults() == []


# --- each row, in both databases ---

FIRST = some_case(0)
DIGEST = pattern_of(FIRST).digest
CHANGES: list[tuple[str, str, str]] = [
    ("UPDATE cases SET spoilt = spoilt + 1 WHERE id = :id", "cases", FIRST.id),
    ("UPDATE cases SET minutes = minutes + 0.5 WHERE id = :id", "cases", FIRST.id),
    ("UPDATE cases SET minutes = NULL WHERE id = :id", "cases", FIRST.id),
    ("UPDATE cases SET ended = '2026-01-05T09:00:01Z' WHERE id = :id", "cases", FIRST.id),
    ("UPDATE cases SET moves = replace(moves, 'edges-', 'edge-') WHERE id = :id", "cases", FIRST.id),
    ("UPDATE cases SET knowledge = 'x' WHERE id = :id", "cases", FIRST.id),
    ("UPDATE cases SET digest = '' WHERE id = :id", "cases", FIRST.id),
    ("UPDATE cases SET pattern = (SELECT max(digest) FROM pattern) WHERE id = :id", "cases", FIRST.id),
    ("UPDATE took SET minutes = minutes * 2 WHERE case_id = :id", "cases", FIRST.id),
    ("DELETE FROM took WHERE case_id = :id", "cases", FIRST.id),
    ("UPDATE pattern SET press = 'middle' WHERE digest = :digest", "pattern", DIGEST),
    ("UPDATE pattern SET item = 'plate' WHERE digest = :digest", "pattern", DIGEST),
    ("UPDATE pattern SET moves = '[]' WHERE digest = :digest", "pattern", DIGEST),
    ("UPDATE seen SET there = 1 - there WHERE pattern = :digest", "seen", DIGEST),
    ("UPDATE answer SET outcome = 'y' WHERE pattern = :digest", "answer", DIGEST),
    ("DELETE FROM answer WHERE pattern = :digest", "answer", DIGEST),
    ("INSERT INTO tried VALUES (:digest, 9, 'f', 'same')", "tried", DIGEST),
    ("INSERT INTO figure VALUES (:digest, 'platen-left', 0, 185.5)", "figure", DIGEST),
]


@pytest.mark.parametrize(("change", "table", "row"), CHANGES)
def test_every_row_that_was_changed_is_named(change: str, table: str, row: str, book: Casebook, tmp_path: Path) -> None:
    book.add(some_cases(30))
    with book.database.writing() as connection:
        wanted = {"id": FIRST.id, "digest": DIGEST}
        change_one(connection, change, {name: value for name, value in wanted.items() if f":{name}" in change})
    assert [(fault.table, fault.row) for fault in book.faults()] == [(table, row)]
    if book.database.path is not None:
        with pytest.raises(PressloreError, match=row):
            back_up(book, tmp_path / "copy.sqlite3")
        assert not (tmp_path / "copy.sqlite3").exists()


def change_one(connection: Connection, change: str, wanted: dict[str, Any]) -> None:
    done = connection.execute(text(change), wanted)
    assert done.rowcount >= 1


def test_rows_without_what_they_belong_to_are_named(tmp_path: Path) -> None:
    file = tmp_path / "book.sqlite3"
    with open_book(file) as book:
        book.add(some_cases(3))
    with sqlite3.connect(file) as raw:
        raw.execute("DELETE FROM pattern WHERE digest = ?", (DIGEST,))
    raw.close()
    with open_book(file) as book:
        assert {fault.table for fault in book.faults()} >= {"cases", "seen", "answer"}


def test_letters_that_are_none_are_named_by_their_row_and_the_rest_is_gone_through(tmp_path: Path) -> None:
    file = tmp_path / "book.sqlite3"
    with open_book(file) as book:
        book.add(some_cases(30))
    with sqlite3.connect(file) as raw:
        raw.execute("UPDATE cases SET moves = CAST(X'5BFF5D' AS TEXT) WHERE id = ?", (FIRST.id,))
        raw.execute("UPDATE cases SET spoilt = 9 WHERE id = ?", (some_case(7).id,))
    raw.close()
    with open_book(file) as book:
        assert [(fault.table, fault.row) for fault in book.faults()] == [
            ("cases", FIRST.id),
            ("cases", some_case(7).id),
        ]


OF_ANOTHER_KIND = pytest.mark.parametrize(
    ("change", "table"),
    [
        ("UPDATE cases SET moves = CAST(moves AS BLOB) WHERE rowid = 1", "cases"),
        ("UPDATE cases SET moves = 7 WHERE rowid = 1", "cases"),
        ("UPDATE cases SET id = 7 WHERE rowid = 1", "cases"),
        ("UPDATE cases SET ended = 7.5 WHERE rowid = 1", "cases"),
        ("UPDATE cases SET ended = CAST(ended AS BLOB) WHERE rowid = 1", "cases"),
        ("UPDATE cases SET knowledge = 7 WHERE rowid = 1", "cases"),
        ("UPDATE cases SET digest = 7 WHERE rowid = 1", "cases"),
        ("UPDATE cases SET spoilt = 'x' WHERE rowid = 1", "cases"),
        ("UPDATE took SET minutes = 'x' WHERE rowid = 1", "cases"),
        ("UPDATE pattern SET moves = 7 WHERE rowid = 1", "pattern"),
        ("UPDATE pattern SET press = 7 WHERE rowid = 1", "pattern"),
        ("UPDATE pattern SET digest = 7 WHERE rowid = 1", "pattern"),
        ("UPDATE cases SET minutes = CAST('x' AS BLOB) WHERE rowid = 1", "cases"),
        ("UPDATE cases SET id = CAST(id AS BLOB) WHERE rowid = 1", "cases"),
        ("UPDATE cases SET id = CAST(X'1B5DFF' AS TEXT) WHERE rowid = 1", "cases"),
        ("UPDATE took SET step = CAST(step AS BLOB) WHERE rowid = 1", "cases"),
        ("UPDATE pattern SET moves = CAST(moves AS BLOB) WHERE rowid = 1", "pattern"),
        ("UPDATE pattern SET digest = CAST(digest AS BLOB) WHERE rowid = 1", "pattern"),
        ("UPDATE seen SET there = CAST('x' AS BLOB) WHERE rowid = 1", "seen"),
    ],
)


@OF_ANOTHER_KIND
def test_a_value_of_another_kind_is_named(change: str, table: str, tmp_path: Path) -> None:
    """A changed byte may make text into something else, which a database would not have taken."""
    file = loosely_changed(tmp_path, change)
    with open_book(file, looking=True) as book:
        found = book.faults()
    assert table in {fault.table for fault in found}
    assert all(str(fault).isprintable() for fault in found)


@OF_ANOTHER_KIND
def test_a_value_of_another_kind_spoils_its_own_row_only(
    change: str, table: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = loosely_changed(tmp_path, change)
    for module in (store_reading, store_rows):
        monkeypatch.setattr(module, "AT_ONCE", 1, raising=False)  # each row begins where one of them ended
    with open_book(file, looking=True) as book:
        whole = [case for case in some_cases(4) if case in list(book.cases())]
        assert len(whole) >= 3
        assert book.newest(9) == whole[::-1] or table != "cases"
        counted = {sum(number for _, number in book.patterns()), sum(group.cases for group in book.groups())}
        assert counted <= {3, 4}
        assert all(case.id == f"{int(case.id, 16):032x}" for case, _ in book.patterns())
        assert sum(day.cases for day in book.days()) in (3, 4)
        assert set(book.times()) <= {"edges-under-magnifier"}
        assert all(isinstance(one, str) for one in book.ids("0"))
        assert len(whole) == 4 or book.skipped.reasons


def test_a_version_that_is_no_number_is_damage(tmp_path: Path) -> None:
    file = loosely_changed(tmp_path, "UPDATE book SET version = CAST('x' AS BLOB)")
    with pytest.raises(PressloreError, match="the casebook is damaged"):
        open_book(file, looking=True)


def loosely_changed(folder: Path, change: str) -> Path:
    """A casebook in which something changed what its tables would have refused."""
    file = folder / "book.sqlite3"
    with open_book(file) as book:
        book.add(some_cases(4))
    raw = sqlite3.connect(file)
    (made,) = raw.execute("SELECT sql FROM sqlite_schema WHERE name = ?", (change.split()[1],)).fetchone()
    raw.execute("PRAGMA writable_schema = ON")
    loose = made.replace(") STRICT", ")").replace(" TEXT ", " ").replace(" REAL ", " ").replace(" INTEGER ", " ")
    raw.execute("UPDATE sqlite_schema SET sql = ? WHERE sql = ?", (loose, made))
    raw.commit()
    raw.close()
    raw = sqlite3.connect(file)
    raw.execute("PRAGMA ignore_check_constraints = ON")
    raw.execute(change)
    raw.execute("PRAGMA writable_schema = ON")
    raw.execute("UPDATE sqlite_schema SET sql = ? WHERE sql = ?", (made, loose))
    raw.commit()
    raw.close()
    return file


# --- whatever reads ---


@pytest.mark.parametrize(("change", "table", "row"), [one for one in CHANGES if one[1] in ("cases", "pattern")])
def test_what_was_changed_is_left_out_and_told_whoever_reads(change: str, table: str, row: str, book: Casebook) -> None:
    cases = some_cases(30)
    book.add(cases)
    with book.database.writing() as connection:
        wanted = {"id": FIRST.id, "digest": DIGEST}
        change_one(connection, change, {name: value for name, value in wanted.items() if f":{name}" in change})
    changed = {case.id for case in cases if case.id == row or pattern_of(case).digest == row}
    if "item = " in change:
        changed = set()  # no more than what is asked for by
    others = [case for case in cases if case.id not in changed]
    assert list(book.cases()) == others
    assert set(book.skipped.reasons) == changed
    for read in (Casebook.patterns, Casebook.groups, Casebook.days, Casebook.times, lambda book: book.newest(99)):
        again = replace(book, skipped=Skipped(), _changed=[])
        found = read(again)
        list(found)
        assert set(again.skipped.reasons) == changed
    assert sum(group.cases for group in book.groups()) == len(others)
    assert sum(group.spoilt for group in book.groups()) == sum(case.spoilt for case in others)
    assert sum(day.cases for day in book.days()) == len(others)
    assert sum(number for _, number in book.patterns()) == len(others)
    assert sum(number for number, *_ in book.times().values()) == sum(len(case.took) for case in others)


def test_a_casebook_in_which_everything_changed_is_damaged(book: Casebook, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(store, "MOST_CHANGED", 20)
    book.add(some_cases(30))
    with book.database.writing() as connection:
        connection.exec_driver_sql("UPDATE cases SET spoilt = spoilt + 1")
    with pytest.raises(PressloreError, match="the casebook is damaged"):
        list(book.groups())


def test_a_row_that_was_written_so_is_named_and_keeps_nobody_from_a_backup(tmp_path: Path) -> None:
    """As one of the year 206, which was once taken in: nothing has changed it."""
    row = {**case_row(FIRST, DIGEST), "ended": "0206-11-25T12:00:00Z"}
    with open_book(tmp_path / "book.sqlite3") as book:
        book.add(some_cases(3))
        with book.database.writing() as connection:
            sealed = {**row, "digest": seal(row, FIRST.took)}
            connection.execute(tables.cases.update().where(tables.cases.c.id == FIRST.id).values(**sealed))
        assert [(fault.row, fault.code) for fault in book.faults()] == [(FIRST.id, "unreadable-row")]
        assert back_up(book, tmp_path / "copy.sqlite3") == 3


# --- an older casebook ---


def older(place: str, cases: list[Case], monkeypatch: pytest.MonkeyPatch) -> None:
    """A casebook as version 2 left it."""
    with monkeypatch.context() as patched:
        for where in ("diagnose.casebook.store.migrations.MIGRATIONS", "diagnose.casebook.store.casebook.MIGRATIONS"):
            patched.setattr(where, store_migrations.MIGRATIONS[:2])
        with open_book(place) as book, book.database.writing() as connection:
            patterns = {pattern_of(case).digest: pattern_of(case) for case in cases}
            for table in (tables.pattern, tables.seen, tables.answer, tables.tried, tables.figure):
                if rows := [row for one in patterns.values() for row in one.rows[table.name]]:
                    connection.execute(table.insert(), rows)
            unsealed = [{**case_row(case, pattern_of(case).digest)} for case in cases]
            for row in unsealed:
                del row["digest"]
            connection.execute(tables.cases.insert(), unsealed)
            if took := [row for case in cases for row in took_rows(case)]:
                connection.execute(tables.took.insert(), took)


def test_the_cases_of_an_older_casebook_are_sealed(place: str, monkeypatch: pytest.MonkeyPatch) -> None:
    cases = [*some_cases(1100), with_figures(5000), a_case(6000, [Saw(("ghosting",))], minutes=4, lost=-0.0)]
    older(place, cases, monkeypatch)
    with open_book(place) as book:
        assert book.faults() == []
        assert list(book.cases()) == cases
        assert book.add([*cases, some_case(7000)]) == 1
        with book.database.writing() as connection:
            connection.exec_driver_sql("UPDATE cases SET spoilt = 7 WHERE spoilt = 1")
        assert len(book.faults()) == sum(case.spoilt == 1 for case in [*cases, some_case(7000)])


def test_digests_are_what_they_always_were() -> None:
    """Casebooks are kept for years: a digest that came out otherwise would call all their rows damaged."""
    case = a_case(3, [Saw(("ghosting",))], press="left", minutes=4, lost=1.25, took={"b": 2, "a": 0.1}, knowledge="k")
    row = case_row(case, pattern_digest("left", "[]"))
    assert row["pattern"] == "c5285adb70211aec080ddc2d4eac498f"
    assert row["digest"] == seal(row, case.took) == "84ebbe9dacd07878ac91ffa8078c8544"


# --- any byte ---


def all_that_is_read(path: Path) -> dict[str, Any]:
    with open_book(path, create=False) as book:
        return {
            "cases": list(book.cases()),
            "patterns": list(book.patterns()),
            "groups": list(book.groups()),
            "times": book.times(),
            "days": book.days(),
            "ids": book.ids("0", most=1000),
            "alike": book.alike(FIRST.id),
            "mugs": list(book.cases(press="left", item="mug")),
            "newest": book.newest(20),
        }


def told_of(path: Path) -> str:
    """What is said of a casebook, "" where it is called sound."""
    try:
        with open_book(path, create=False, looking=True) as book:
            return "\n".join(map(str, book.faults()))
    except PressloreError as error:
        return str(error)


def flipped(data: bytes, chance: random.Random) -> bytes:
    at = chance.randrange(len(data))
    return data[:at] + bytes([data[at] ^ (1 << chance.randrange(8))]) + data[at + 1 :]


def replaced(data: bytes, chance: random.Random) -> bytes:
    at = chance.randrange(len(data))
    return data[:at] + bytes([chance.randrange(256)]) + data[at + 1 :]


@pytest.mark.parametrize("damage", [flipped, replaced])
@pytest.mark.parametrize(
    "number", [pytest.param(FEW, marks=pytest.mark.slow), pytest.param(ALL, marks=pytest.mark.thorough)]
)
def test_a_changed_byte_is_told_or_changes_nothing_that_is_read(
    number: int, damage: Callable[[bytes, random.Random], bytes], tmp_path: Path
) -> None:
    sound, path, chance = tmp_path / "sound.sqlite3", tmp_path / "book.sqlite3", random.Random(6)
    with open_book(sound) as book:
        book.add([*some_cases(CASES), *map(with_figures, range(5000, 5020))])
        back_up(book, tmp_path / "copy.sqlite3")
    data, whole = (tmp_path / "copy.sqlite3").read_bytes(), all_that_is_read(tmp_path / "copy.sqlite3")
    told = 0
    for trial in range(number):
        path.write_bytes(damage(data, chance))
        if told_of(path):
            told += 1
        else:
            assert all_that_is_read(path) == whole, trial
    assert told > number / 2  # most bytes of it are read


def test_a_fault_is_said_in_words() -> None:
    assert str(RowFault(table="cases", row="ab", wrong="w")) == "case ab: w"
    assert str(RowFault(table="pattern", row="ab", wrong="w")) == "what cases show, ab: w"
    assert str(RowFault(table="", row="", wrong="w")) == "the file: w"
