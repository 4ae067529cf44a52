"""How a dialogue ends: as a case in the casebook; and as a file where the casebook cannot take it."""

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest

from diagnose.casebook.case import CURED, DIALOGUE, HANDED_OVER, Case
from diagnose.casebook.store.casebook import open_book
from diagnose.cli import exits
from diagnose.cli.diagnosis.ending import Watch
from diagnose.dialogue.moves import Answered, CannotTell, Cured, Pressed, Saw, TriedFix
from diagnose.dialogue.session import Session
from tests.casebook.limits import largest_file
from tests.casebook.some import some_cases
from tests.cli.playing import AT_ROOT, play

OPENED = ("mouse mat", "stray dye", "y")
CHECKED, CURES = "3", "1"
KEPT = "Kept in the casebook. To see it: presslore cases show last"
ASIDE = re.compile(r"^  presslore cases import (?P<file>.*)$", flags=re.MULTILINE)


def to_the_end(*flags: str) -> tuple[int, str]:
    """A dialogue of one check and one fix, which cures."""
    code, out, err = play(["diagnose", *flags], [*OPENED, CHECKED, CURES], somebody=True)
    assert "Traceback" not in out + err
    assert "Done. Put right: Stray dye." in out
    return code, out + err


def kept_in(file: Path | str) -> list[Case]:
    with open_book(file, create=False) as book:
        return list(book.cases())


def test_a_dialogue_becomes_a_case(tmp_path: Path) -> None:
    code, shown = to_the_end("--book", "book.sqlite3")
    assert code == exits.GOOD
    assert shown.endswith(f"{KEPT}\n")
    (case,) = kept_in("book.sqlite3")
    assert (case.ending, case.source, case.session.item) == (CURED, DIALOGUE, "mouse-mat")
    assert case.session.evidence.seen == ("stray-dye",)
    assert case.cured_by
    assert case.spoilt == 1
    assert case.lost is not None
    assert case.lost > 0
    assert set(case.took) == {case.cured_by, *case.session.evidence.answers}
    assert not (tmp_path / "data").exists()


def test_without_a_shop_it_goes_into_the_persons_own_folder(tmp_path: Path) -> None:
    to_the_end()
    assert len(kept_in(tmp_path / "data" / "presslore" / "casebook.sqlite3")) == 1


def test_in_a_shop_it_goes_into_the_shops_folder(tmp_path: Path) -> None:
    Path("shop.yaml").write_text("name: The harbour workshop\n", encoding="utf-8")
    to_the_end()
    to_the_end("--shop", ".", "--no-recall")
    assert len(kept_in("casebook.sqlite3")) == 2
    assert not (tmp_path / "data").exists()


def test_it_is_not_kept_where_that_is_not_wanted(tmp_path: Path) -> None:
    _, shown = to_the_end("--no-case")
    assert shown.endswith("Not kept as a case, as you asked.\n")
    assert not (tmp_path / "data").exists()


def test_handing_over_is_kept_as_well() -> None:
    _, out, _ = play(["diagnose", "--book", "book.sqlite3"], [*OPENED, *"u" * 60, "d"], somebody=True)
    assert "Handed over." in out
    (case,) = kept_in("book.sqlite3")
    assert case.ending == HANDED_OVER


def test_a_dialogue_that_was_over_is_not_kept_twice() -> None:
    to_the_end("--book", "book.sqlite3", "--save", "shirt.json")
    _, out, _ = play(["diagnose", "--book", "book.sqlite3", "--resume", "shirt.json"], somebody=True)
    assert "Done. Put right" in out
    assert KEPT not in out
    assert len(kept_in("book.sqlite3")) == 1


@pytest.mark.parametrize("flags", [["--json"], []])
def test_without_a_person_nothing_is_kept(flags: list[str], tmp_path: Path) -> None:
    play(["diagnose", "--saw", "ghosting", *flags])
    assert not (tmp_path / "data").exists()


# --- where the casebook cannot take it ---


def spoil(file: Path, how: str) -> None:
    if how == "damaged":
        file.write_bytes(b"\xee" * 20_000)
    else:
        with open_book(file) as book:
            book.add(some_cases(3))
        if how == "newer":
            with open_book(file) as book, book.database.writing() as connection:
                connection.exec_driver_sql("UPDATE book SET version = 99")


@pytest.mark.parametrize(
    ("how", "says"),
    [
        ("damaged", "no casebook, or a damaged one"),
        ("newer", "written by a newer presslore: update this one"),
        ("full", "disk"),
        ("nowhere", "the folder must be there"),
        ("no address", "no database that a casebook can be kept in"),
    ],
)
def test_the_dialogue_ends_well_and_the_case_waits_in_a_file(how: str, says: str, tmp_path: Path) -> None:
    book = {"nowhere": "no/such/folder/book.sqlite3", "no address": "ftp://host/book"}.get(how, "book.sqlite3")
    if how in ("damaged", "newer", "full"):
        spoil(Path(book), how)
    before = Path("book.sqlite3").read_bytes() if Path("book.sqlite3").exists() else b""
    if how == "full":
        with largest_file(8_000):
            code, shown = to_the_end("--book", book)
    else:
        code, shown = to_the_end("--book", book)
    assert code == exits.GOOD
    assert KEPT not in shown
    words = " ".join(shown.split())
    assert "The casebook could not take this case." in words
    assert says in words
    assert "It is saved as a file." in words
    waiting = ASIDE.search(shown)
    assert waiting is not None
    assert Path(waiting["file"]).is_relative_to(tmp_path / "state" / "presslore" / "cases")
    assert before == (Path("book.sqlite3").read_bytes() if before else b"")
    code, out, _ = play(["cases", "import", waiting["file"], "--book", "good.sqlite3"])
    assert (code, out) == (exits.GOOD, "1 case read, 1 new.\n")
    (case,) = kept_in("good.sqlite3")
    assert case.ending == CURED


def test_where_even_the_file_cannot_be_written_the_dialogue_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    Path("taken").write_text("", encoding="ascii")
    monkeypatch.setenv("XDG_STATE_HOME", "taken")
    code, shown = to_the_end("--book", "no/such/folder/book.sqlite3")
    assert code == exits.GOOD
    assert "could not be saved as a file either" in " ".join(shown.split())


def test_what_keeps_cases_is_loaded_at_the_end_only() -> None:
    """It would keep the first question waiting."""
    code = (
        "import sys; late = {'sqlalchemy', 'sqlite3'}; "
        "[sys.modules.pop(name, None) for name in late]; "  # not those of whoever watches this process
        "from diagnose.cli.diagnosis.ahead import Ahead; "
        "from diagnose.cli.diagnosis import command; Ahead().ready(); "
        "print(sorted(late & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], env=AT_ROOT, capture_output=True, text=True)
    assert done.stdout == "[]\n", done.stderr
    early = "import sys; from diagnose.cli.diagnosis import command; print('diagnose.knowledge.model' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", early], env=AT_ROOT, capture_output=True, text=True)
    assert done.stdout == "False\n", done.stderr


# --- the clock ---


class Clock:
    """A clock that is set by hand, in minutes."""

    def __init__(self) -> None:
        self.at = 100.0

    def __call__(self) -> float:
        return self.at * 60.0

    def passes(self, minutes: float) -> None:
        self.at += minutes


def test_steps_are_timed_by_the_clock() -> None:
    clock = Clock()
    watch = Watch(clock)
    session = Session((Pressed("mug"), Saw(("ghosting",))))
    clock.passes(1.0)
    watch.step(session)
    for minutes, move in (
        (2.0, Answered("a", "x")),
        (61.0, Answered("slept-over", "x")),
        (3.0, CannotTell("b")),
        (4.0, TriedFix("f")),
    ):
        clock.passes(minutes)
        session = session.make(move)
        watch.step(session)
    taken_back = Session(session.moves[:-1])
    clock.passes(0.5)
    watch.step(taken_back)
    session = taken_back.make(Cured("g"))
    clock.passes(5.0)
    watch.step(session)
    assert watch.took_of(session) == {"a": 2.0, "g": 5.0}
    assert watch.minutes == pytest.approx(1.0 + 2.0 + 3.0 + 4.0 + 0.5 + 5.0)


def test_what_was_waited_for_is_no_work() -> None:
    clock = Clock()
    watch = Watch(clock, waits={"a": 60.0, "f": 60.0, "g": 1440.0})
    session = Session((Pressed("mug"), Saw(("ghosting",))))
    watch.step(session)
    for minutes, move in (
        (66.0, Answered("a", "x")),
        (7.0, TriedFix("f")),
        (1460.0, TriedFix("g")),
        (130.0, Answered("a", "y")),
    ):
        clock.passes(minutes)
        session = session.make(move)
        watch.step(session)
    assert watch.took_of(session) == {"a": 6.0, "f": 7.0, "g": 20.0}
    assert watch.minutes == pytest.approx(6.0 + 7.0 + 20.0)


def test_what_is_kept_can_be_seen(tmp_path: Path) -> None:
    to_the_end()
    _, out, _ = play(["cases", "show", "last"])
    assert "Stray dye: seen" in out
    assert "1 piece spoilt" in out
    _, out, _ = play(["cases", "list", "--json"])
    assert len(json.loads(out)) == 1
