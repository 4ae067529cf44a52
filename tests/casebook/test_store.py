"""The casebook keeps every case as it was given, and counts what its cases have in common: the same in a file and on
a server."""

from collections import Counter
from datetime import timedelta
from pathlib import Path
from statistics import mean, variance
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import inspect

from diagnose.casebook.case import CURED, Case
from diagnose.casebook.store import migrations as store_migrations
from diagnose.casebook.store.casebook import Casebook, open_book
from diagnose.casebook.store.rows import alike, pattern_of
from diagnose.casebook.store.tables import TABLES
from diagnose.dialogue.moves import (
    Answered,
    CannotDo,
    CannotTell,
    Cured,
    DidNotSee,
    HandedOver,
    Move,
    Pressed,
    Saw,
    TriedFix,
)
from diagnose.dialogue.session import Session
from diagnose.problems import PressloreError
from tests.casebook.some import START, a_case, some_case, some_cases


def test_what_was_added_comes_back_exactly_in_time_order(book: Casebook) -> None:
    cases = some_cases(1200)
    assert book.add(reversed(cases)) == 1200
    assert list(book.cases()) == cases
    assert book.count() == 1200
    assert book.get(cases[7].id) == cases[7]
    assert book.get("f" * 32) is None


def test_a_case_that_is_there_is_left_alone(book: Casebook) -> None:
    first, *_ = cases = some_cases(5)
    book.add(cases)
    other = a_case(0, [Saw(("scorching",))])
    assert book.add([other, other, *some_cases(6)]) == 1
    assert book.get(first.id) == first


@pytest.mark.parametrize("change", ["moves = 'gone'", "ended = '206-11-25T12:00:00Z'", "lost = 1e13"])
def test_a_row_that_holds_no_case_is_passed_over_and_named(change: str, book: Casebook) -> None:
    cases = some_cases(1200)
    spoilt = {cases[number].id for number in (7, 499, 500, 1199)}
    book.add(cases)
    with book.database.writing() as connection:
        named = ", ".join(f"'{each}'" for each in spoilt)
        connection.exec_driver_sql(f"UPDATE cases SET {change} WHERE id IN ({named})")
    told: list[str] = []
    book.skipped.tell = told.append
    others = [case for case in cases if case.id not in spoilt]
    assert list(book.cases()) == others
    assert set(book.skipped.reasons) == spoilt
    assert len(told) == len(spoilt)
    assert book.newest(3) == others[:-4:-1]
    assert book.get(cases[7].id) is None
    counted = sum(number for _, number in book.patterns())
    assert counted == sum(group.cases for group in book.groups()) == sum(day.cases for day in book.days())
    assert counted == 1196
    assert book.add([some_case(5000)]) == 1


def test_cases_are_chosen_by_time_press_and_item(book: Casebook) -> None:
    cases = some_cases(60)
    book.add(cases)
    since = cases[20].ended
    assert list(book.cases(since=since)) == cases[20:]
    assert list(book.cases(press="left")) == [case for case in cases if case.press == "left"]
    mugs = [case for case in cases[20:] if case.session.item == "mug" and case.press == "right"]
    assert list(book.cases(since, "right", "mug")) == mugs


def test_all_or_none_is_kept(book: Casebook) -> None:
    def broken_off() -> Any:
        yield from some_cases(700)
        raise RuntimeError

    with pytest.raises(RuntimeError):
        book.add(broken_off())
    assert book.count() == 0
    assert book.add(some_cases(3)) == 3


def test_patterns_are_counted_and_their_order_hangs_on_what_they_show(book: Casebook, tmp_path: Path) -> None:
    cases = some_cases(300)
    book.add(cases)
    patterns = list(book.patterns())
    assert sum(number for _, number in patterns) == 300
    assert Counter({pattern_of(one).digest: number for one, number in patterns}) == Counter(
        pattern_of(case).digest for case in cases
    )
    digests = {case.id: pattern_of(case).digest for case in cases}
    for one, number in patterns:
        same = [case for case in cases if digests[case.id] == digests[one.id]]
        assert (one.id, len(same)) == (min(case.id for case in same), number)
        assert book.alike(one.id) == [case.id for case in same]
        assert {(case.press, case.ending, case.cured_by) for case in same} == {(one.press, one.ending, one.cured_by)}
        assert one.evidence == same[0].evidence
    with open_book(tmp_path / "other") as other:
        other.add(reversed(cases))
        assert list(other.patterns()) == patterns


def test_times_are_means_and_variances(book: Casebook) -> None:
    cases = some_cases(50)
    book.add(cases)
    took = [case.took["edges-under-magnifier"] for case in cases]
    ((step, (number, middle, spread)),) = book.times().items()
    assert (step, number) == ("edges-under-magnifier", 50)
    assert middle == pytest.approx(mean(took))
    assert spread == pytest.approx(variance(took))


def test_what_cases_cost_adds_up(book: Casebook) -> None:
    cases = [*some_cases(40), a_case(400, [Saw(("ghosting",))])]  # the last one's cost is not known
    book.add(cases)
    for sums in (list(book.groups()), book.days()):
        assert sum(one.cases for one in sums) == 41
        assert sum(one.spoilt for one in sums) == sum(case.spoilt for case in cases)
        assert sum(one.lost for one in sums) == pytest.approx(sum(case.lost or 0.0 for case in cases))
        assert sum(one.minutes for one in sums) == pytest.approx(sum(case.minutes or 0.0 for case in cases))
    left = [case for case in cases[10:] if case.press == "left"]
    since = cases[10].ended
    assert sum(one.cases for one in book.groups(since, "left")) == len(left)
    assert [one.day for one in book.days(since, "left")] == sorted({case.ended.date() for case in left})


def test_ids_by_their_beginning_or_end(book: Casebook) -> None:
    book.add([some_case(0xAB), some_case(0xAC), some_case(0x1AB)])
    assert book.ids("0" * 30) == [f"{number:032x}" for number in (0xAB, 0xAC)]
    assert book.ids("ab") == [f"{number:032x}" for number in (0xAB, 0x1AB)]
    assert book.ids("", most=2) == [f"{number:032x}" for number in (0xAB, 0xAC)]
    assert book.ids("%") == book.ids("_") == []


def test_the_newest_first(book: Casebook) -> None:
    cases = some_cases(30)
    book.add(cases)
    assert book.newest(4) == cases[:-5:-1]
    left = [case for case in reversed(cases[10:]) if case.press == "left"]
    assert book.newest(99, since=cases[10].ended, press="left") == left


def test_an_iteration_sees_one_state_of_the_book(book: Casebook) -> None:
    book.add(some_cases(600))
    seen = 0
    for _ in book.cases():
        if seen == 0:
            book.add(some_cases(600, first=600))
        seen += 1
    assert seen == 600
    assert book.count() == 1200


def test_the_tables_are_as_the_migrations_leave_them(book: Casebook) -> None:
    """What the queries are written against is what the statements of the migrations make."""
    with book.database.reading() as connection:
        schema = store_migrations._schema(connection)
        found = inspect(connection)
        assert set(found.get_table_names(schema=schema)) == set(TABLES.tables)
        for table in TABLES.tables.values():
            columns = {column["name"]: column["nullable"] for column in found.get_columns(table.name, schema=schema)}
            assert columns == {column.name: bool(column.nullable) for column in table.columns}
            key = found.get_pk_constraint(table.name, schema=schema)["constrained_columns"]
            assert key == [column.name for column in table.primary_key]
            foreign = {tuple(key["constrained_columns"]) for key in found.get_foreign_keys(table.name, schema=schema)}
            assert foreign == {(key.parent.name,) for key in table.foreign_keys}
            indexes = {index["name"]: index["column_names"] for index in found.get_indexes(table.name, schema=schema)}
            assert indexes == {index.name: [column.name for column in index.columns] for index in table.indexes}


# --- versions ---


def test_an_older_casebook_is_brought_to_the_newest_version(place: str, monkeypatch: pytest.MonkeyPatch) -> None:
    cases = some_cases(10)
    with open_book(place) as book:
        book.add(cases)
    more = [*store_migrations.MIGRATIONS, ("ALTER TABLE cases ADD COLUMN lights INTEGER",)]
    monkeypatch.setattr(store_migrations, "MIGRATIONS", more)
    monkeypatch.setattr("diagnose.casebook.store.casebook.MIGRATIONS", more)
    with open_book(place) as book, book.database.reading() as connection:
        assert connection.exec_driver_sql("SELECT lights FROM cases").scalars().all() == [None] * 10
        assert store_migrations.version(connection, place) == len(more)
    monkeypatch.undo()
    with pytest.raises(PressloreError, match="newer presslore: update this one"):
        open_book(place)


def test_a_migration_that_fails_leaves_the_casebook_as_it_was(place: str, monkeypatch: pytest.MonkeyPatch) -> None:
    with open_book(place) as book:
        book.add(some_cases(10))
    more = [*store_migrations.MIGRATIONS, ("CREATE TABLE extra (one INTEGER)", "CREATE TABLE cases (twice INTEGER)")]
    monkeypatch.setattr(store_migrations, "MIGRATIONS", more)
    monkeypatch.setattr("diagnose.casebook.store.casebook.MIGRATIONS", more)
    with pytest.raises(PressloreError):
        open_book(place)
    monkeypatch.undo()
    with open_book(place) as book:
        assert book.count() == 10


# --- patterns ---


words = st.sampled_from(["ghosting", "faint-colour", "banding", "shine"])
few = st.lists(words, min_size=1, max_size=3, unique=True).map(tuple)
moves = st.lists(
    st.one_of(
        st.builds(Saw, few),
        st.builds(DidNotSee, few),
        st.builds(Answered, st.sampled_from(["a", "b"]), st.sampled_from(["x", "y"])),
        st.builds(TriedFix, st.sampled_from(["f", "g"]), st.sampled_from(["", "same", "better"]), few),
        st.builds(CannotTell, st.sampled_from(["a", "b"])),
        st.builds(CannotDo, st.just("f")),
        st.builds(Pressed, st.sampled_from(["mug", ""]), st.just({"item.polyester": 65})),
    ),
    max_size=9,
)
endings = st.sampled_from([(), (Cured("f"),), (Cured(),), (HandedOver(),)])


@given(moves, endings)
def test_what_stands_for_a_case_shows_the_same(said: list[Any], end: tuple[Any, ...]) -> None:
    case = a_case(1, [*said, *end])
    twin = a_case(1, alike(case).moves)
    assert twin.evidence == case.evidence
    assert (twin.ending, twin.cured_by) == (case.ending, case.cured_by)
    assert (twin.session.item, twin.session.facts) == (case.session.item, case.session.facts)
    assert alike(twin) == alike(case)


def test_the_order_of_answers_makes_no_other_pattern() -> None:
    one: list[Move] = [
        Pressed("mug", {"item.polyester": 65}),
        Saw(("banding",)),
        Answered("a", "x"),
        Answered("b", "y"),
    ]
    other: list[Move] = [Saw(("banding",)), Answered("b", "y"), CannotTell("c"), Answered("a", "x")]
    other.append(Pressed("mug", {"item.polyester": 65.0}))
    first, second = a_case(1, one), a_case(2, other)
    assert pattern_of(first).digest == pattern_of(second).digest
    for different in (
        a_case(1, one, press="left"),
        a_case(1, [*one, Cured()]),
        a_case(1, [*one[:2], TriedFix("f"), *one[2:]]),
        a_case(1, [Pressed("mug", {"item.polyester": 66}), *one[1:]]),
    ):
        assert pattern_of(different).digest != pattern_of(first).digest
    assert START + timedelta(hours=3) == first.ended
    assert Case(id=first.id, ended=START, session=Session((Cured("f"),))).ending == CURED
