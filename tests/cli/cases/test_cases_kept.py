"""What ``presslore cases add`` says is kept can be shown, listed, exported and imported again; what it refuses is
named and leaves nothing behind; a row that is spoilt later spoils no other."""

import json
import re
import sqlite3
import string
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from diagnose.casebook.case import Case, to_plain
from diagnose.casebook.store.casebook import MOST_TOLD, open_book
from diagnose.casebook.store.seals import seal
from diagnose.cli import exits
from tests.casebook.some import some_cases
from tests.cli.playing import play
from tests.trials import daily

# --- everything that can be typed ---

ODD_SPACES = "\t\n\r\x0b\x0c\x85\xa0\u1680\u2003\u2028\u2029\u202f\u3000"
HOSTILE = "\x00\x07\x1b\x7f\x9b\u200b\u200f\u202e\u2066\ufeff\ufffe\udc80\udcff\U000e0041"
words = st.text(st.sampled_from(string.ascii_letters + " =+-@'\"éß火🔥" + ODD_SPACES + HOSTILE), max_size=12)
texts = st.one_of(
    words, st.text(max_size=8), st.sampled_from(["left", " left  one ", "x" * 1000, "x" * 1001, "🔥" * 900])
)
numbers = st.one_of(
    st.sampled_from("0 -0.0 -1 1e6 1000000.01 nan -nan inf -inf 1e-320 1e400 1_000 ١٢ 0x10".split()),
    st.floats().map(str),
    st.integers(-5, 2_000_000).map(str),
    words,
)
dates = st.one_of(
    st.dates().map(lambda day: day.isoformat()),
    st.sampled_from(["0206-11-25", "206-11-25", "1999-12-31", "2000-01-01", "2026-02-30", "9999-12-31"]),
    words,
)
facts = st.one_of(
    st.builds("item.polyester={}".format, numbers),
    st.sampled_from(["item.coated=no", "item.polyester=65", "press.kind=oven"]),
    words,
)
options = st.one_of(
    st.tuples(st.just("--press"), texts),
    st.tuples(st.sampled_from(["--minutes", "--spoilt", "--lost"]), numbers),
    st.tuples(st.just("--date"), dates),
    st.tuples(st.just("--fact"), facts),
    st.tuples(st.just("--item"), st.one_of(st.sampled_from(["mug", "tea towel", "polyester t-shirt"]), words)),
    st.tuples(
        st.sampled_from(["--saw", "--not-seen"]), st.sampled_from(["ghosting", "pale", "no banding", ""]) | words
    ),
    st.tuples(st.just("--answer"), st.just("edges-under-magnifier=edges-doubled") | words),
    st.tuples(st.just("--tried"), st.just("tape-two-edges") | words),
    st.tuples(st.sampled_from(["--set", "--probe"]), st.sampled_from(["385F", "196C", "-1F", "1e3C"]) | numbers),
    st.tuples(st.sampled_from(["--dwell", "--watch"]), st.sampled_from(["45s", "1:00", "0s", "-3s", "1e9s"]) | numbers),
)
ENOUGH = ["--saw", "ghosting", "--cured-by", "peel-in-one-stroke"]


def cases_call(*args: str) -> tuple[int, str, str]:
    code, out, err = play(["cases", *args])
    assert "Traceback" not in out + err
    return code, out, err


def there(file: Path) -> list[Case]:
    with open_book(file, create=False) as book:
        found = list(book.cases())
        assert book.skipped.reasons == {}
    return found


@daily(40, of=150)
@example(told=[("--date", "0206-11-25")])
@example(told=[("--spoilt", "1000000")])
@example(told=[("--press", "left\xa0one\t")])
@example(told=[("--press", "left\x1b[31m")])
@example(told=[("--press", "left\udce9")])
@example(told=[("--press", "x" * 1_000_001)])
@given(told=st.lists(options, max_size=4))
def test_what_is_kept_goes_out_and_in_again_and_what_is_not_leaves_nothing(told: list[tuple[str, str]]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        book, out, other = (Path(folder) / name for name in ("book.sqlite3", "cases.jsonl", "other.sqlite3"))
        at = ("--book", str(book))
        code, said, err = cases_call("add", *ENOUGH, *(f"{name}={value}" for name, value in told), *at)
        if code != exits.GOOD:
            assert code in (exits.PROBLEMS, exits.USAGE)
            assert len(err.strip()) > 15
            assert not book.exists()
            return
        assert "Kept." in said
        (case,) = there(book)
        plain = to_plain(case)
        assert json.loads(cases_call("show", "last", "--json", *at)[1]) == plain
        assert json.loads(cases_call("list", "--json", *at)[1]) == [plain]
        assert cases_call("list", *at)[::2] == (exits.GOOD, "")
        assert cases_call("show", "last", *at)[::2] == (exits.GOOD, "")
        assert cases_call("report", *at)[::2] == (exits.GOOD, "")
        assert cases_call("export", "--out", str(out), *at)[0] == exits.GOOD
        code, said, err = cases_call("import", str(out), "--book", str(other))
        assert (code, said, err) == (exits.GOOD, "1 case read, 1 new.\n", "")
        assert there(other) == [case]
        assert cases_call("import", str(book), "--book", str(other))[1].startswith("1 case read, 0 new")


@pytest.mark.parametrize(
    ("option", "names"),
    [
        ("--date=0206-11-25", "--date 0206-11-25: expected a day from 2000 on"),
        ("--date=1999-12-31", "--date 1999-12-31: expected a day from 2000 on"),
        ("--date=2999-12-31", "--date 2999-12-31: expected a day that has been"),
        ("--press=left\x1b[31m", "press: it holds letters that cannot be written (U+001B"),
        ("--press=" + "x" * 1001, "press: 1001 letters, expected 1000 at most"),
        ("--minutes=nan", "'--minutes': 'nan' is no number"),
        ("--minutes=inf", "'--minutes'"),
        ("--minutes=-1", "'--minutes'"),
        ("--spoilt=-1", "'--spoilt'"),
        ("--lost=1e13", "'--lost'"),
        ("--fact=item.polyester=nan", "--fact item.polyester=nan: expected a number from 0 to 100"),
    ],
)
def test_what_is_refused_is_named(option: str, names: str) -> None:
    code, _, err = cases_call("add", *ENOUGH, option, "--book", "book.sqlite3")
    assert code in (exits.PROBLEMS, exits.USAGE)
    assert names in " ".join(err.split())
    assert not Path("book.sqlite3").exists()


def test_a_press_is_called_alike_however_its_spaces_were_typed() -> None:
    for press in ("left one", " left\xa0 one", "left\tone "):
        assert cases_call("add", *ENOUGH, f"--press={press}", "--book", "book.sqlite3")[0] == exits.GOOD
    assert {case.press for case in there(Path("book.sqlite3"))} == {"left one"}
    listed = cases_call("list", "--json", "--press", "left  one", "--book", "book.sqlite3")[1]
    assert len(json.loads(listed)) == 3


# --- rows that cannot be read ---

NUMBER, SPOILT = 8, 5  # cases; which of them is spoilt


@contextmanager
def opened_by_hand(file: Path) -> Iterator[sqlite3.Connection]:
    with closing(sqlite3.connect(file)) as connection, connection:
        connection.execute("PRAGMA ignore_check_constraints = ON")
        yield connection


def spoil(file: Path, change: str, *values: Any) -> str:
    """A casebook with one row changed by hand; the id of that case."""
    cases = some_cases(NUMBER)
    with open_book(file) as book:
        book.add(cases)
    with opened_by_hand(file) as connection:
        connection.execute("PRAGMA foreign_keys = OFF")
        connection.execute(f"UPDATE {change} WHERE id = ?", (*values, cases[SPOILT].id))
    return cases[SPOILT].id


SPOILS = [
    ("cases SET ended = '206-11-25T12:00:00Z'", "ended"),
    ("cases SET ended = '2026-13-45T12:00:00Z'", "ended"),
    ("cases SET ended = CAST(x'ff' AS TEXT)", "ended"),
    ("cases SET minutes = 9e999", "minutes"),
    ("cases SET minutes = -1", "minutes"),
    ("cases SET lost = 1e13", "lost"),
    ("cases SET spoilt = -3", "spoilt"),
    ("cases SET moves = 'gone'", "moves"),
    ('cases SET moves = \'[{"move": "danced"}]\'', "moves"),
    ("cases SET moves = CAST(x'5bff' AS TEXT)", "moves"),
    ("cases SET knowledge = CAST(x'ff' AS TEXT)", "knowledge"),
    ("cases SET source = char(27)", "source"),
]


@pytest.mark.parametrize(("change", "field"), SPOILS)
def test_a_row_that_cannot_be_read_is_named_and_the_others_go_on(change: str, field: str) -> None:
    file = Path("book.sqlite3")
    spoilt = spoil(file, change)
    at = ("--book", str(file))
    others = [to_plain(case) for case in some_cases(NUMBER) if case.id != spoilt]
    code, out, err = cases_call("list", "--json", *at)
    assert code == exits.GOOD
    assert json.loads(out) == others[::-1]
    assert f"Case {spoilt} cannot be read and is left out: the case is damaged: {field}:" in " ".join(err.split())
    assert "presslore cases restore" not in err
    code, out, err = cases_call("export", *at)
    assert (code, [json.loads(line) for line in out.splitlines()]) == (exits.GOOD, others)
    assert spoilt in err
    code, _, err = cases_call("report", *at)
    assert code == exits.GOOD
    code, _, err = play(["learn", *at])
    assert (code, "damaged -" in err) == (exits.GOOD, False)
    code, _, err = cases_call("show", spoilt, *at)
    assert code == exits.PROBLEMS
    assert f"{spoilt}: this case cannot be read" in " ".join(err.split())
    code, out, err = cases_call("import", str(file), "--book", "other.sqlite3")
    assert (code, out) == (exits.GOOD, f"{NUMBER - 1} cases read, {NUMBER - 1} new.\n")
    assert spoilt in err
    assert cases_call("add", *ENOUGH, *at)[0] == exits.GOOD


def test_an_id_that_is_no_text_stops_nothing() -> None:
    file = Path("book.sqlite3")
    spoil(file, "cases SET id = CAST(x'ffee' AS TEXT)")
    with opened_by_hand(file) as connection:
        connection.execute("DELETE FROM took WHERE case_id NOT IN (SELECT id FROM cases)")
    code, out, err = cases_call("export", "--book", str(file))
    assert (code, len(out.splitlines())) == (exits.GOOD, NUMBER - 1)
    assert r"Case \udcff\udcee cannot be read" in err


def test_the_last_case_is_the_last_that_can_be_read() -> None:
    file = Path("book.sqlite3")
    with open_book(file) as book:
        book.add(some_cases(NUMBER))
    with opened_by_hand(file) as connection:
        connection.execute("UPDATE cases SET moves = 'gone' WHERE id >= ?", (some_cases(NUMBER)[3].id,))
    code, out, _ = cases_call("show", "last", "--json", "--book", str(file))
    assert (code, json.loads(out)) == (exits.GOOD, to_plain(some_cases(NUMBER)[2]))


@pytest.mark.parametrize("change", ["moves = 'gone'", "press = CAST(x'ff' AS TEXT)"])
def test_a_pattern_that_cannot_be_read_is_named_and_the_others_count(change: str) -> None:
    file = Path("book.sqlite3")
    with open_book(file) as book:
        book.add(some_cases(30))
        whole = list(book.patterns())
    with opened_by_hand(file) as connection:
        digest = connection.execute("SELECT digest FROM pattern ORDER BY digest").fetchone()[0]
        connection.execute(f"UPDATE pattern SET {change} WHERE digest = ?", (digest,))
    with open_book(file) as book:
        assert list(book.patterns()) == whole[1:]
        assert list(book.skipped.reasons) == [_named(whole[0])]
    code, _, err = cases_call("report", "--book", str(file))
    assert code == exits.GOOD
    assert "is left out" in " ".join(err.split())


def _named(first: tuple[Case, int]) -> str:
    case, number = first
    return f"{case.id} and {number - 1} that show the same" if number > 1 else case.id


def seal_as_written(connection: sqlite3.Connection) -> None:
    """What stands there was written so, by whatever took it: nothing has changed it since."""
    connection.row_factory = sqlite3.Row
    for row in connection.execute("SELECT * FROM cases").fetchall():
        took = dict(map(tuple, connection.execute("SELECT step, minutes FROM took WHERE case_id = ?", (row["id"],))))
        connection.execute("UPDATE cases SET digest = ? WHERE id = ?", (seal(dict(row), took), row["id"]))


def test_figures_that_were_spoilt_do_not_count() -> None:
    file = Path("book.sqlite3")
    with open_book(file) as book:
        book.add(some_cases(NUMBER))
        times, cost = book.times(), sum(group.lost for group in book.groups())
    with opened_by_hand(file) as connection:
        connection.execute("INSERT INTO took SELECT id, 'peel', 9e999 FROM cases")
        copied = "'f', ended, pattern, 9e999, 1, 9e999, '', '', moves, ''"
        connection.execute(f"INSERT INTO cases SELECT {copied} FROM cases LIMIT 1")
        seal_as_written(connection)
    with open_book(file) as book:
        assert book.times() == times
        assert sum(group.lost for group in book.groups()) == cost
        assert sum(day.lost for day in book.days()) == pytest.approx(cost)
        assert "f" in book.skipped.reasons


def test_of_many_bad_rows_some_are_named() -> None:
    file = Path("book.sqlite3")
    with open_book(file) as book:
        book.add(some_cases(600))
    with opened_by_hand(file) as connection:
        connection.execute("UPDATE cases SET moves = 'gone' WHERE ended < '2026-03-01'")
    code, out, err = cases_call("export", "--book", str(file))
    bad = sum(case.ended.month < 3 for case in some_cases(600))
    assert (code, len(out.splitlines())) == (exits.GOOD, 600 - bad)
    assert len(re.findall(r"^Case ", err, re.MULTILINE)) == MOST_TOLD < bad
    assert "More cases cannot be read" in err
