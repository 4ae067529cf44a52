"""Copies of the casebook and putting them back: whatever lies beside the file, whoever has it open, whenever it is
stopped, the casebook is the old one or the new one, and nothing that was there is lost."""

import os
import shutil
import signal
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor, wait
from contextlib import closing
from pathlib import Path
from threading import Event
from typing import Any

import pytest

from diagnose.casebook.store import aside, backup
from diagnose.casebook.store import casebook as store
from diagnose.casebook.store.backup import _mark, back_up, restore
from diagnose.casebook.store.casebook import open_book
from diagnose.casebook.store.migrations import migrate
from diagnose.casebook.store.schema import MARK
from diagnose.problems import PressloreError
from tests.casebook.processes import Writer, keep_on_writing
from tests.casebook.some import some_cases

OLD, NEW = 45, 40  # cases in the casebook that is there, and in the copy that is put back


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """A casebook with a copy beside it that was made some cases ago."""
    path = tmp_path / "book.sqlite3"
    with open_book(path) as book:
        book.add(some_cases(NEW))
        back_up(book, tmp_path / "copy.sqlite3")
        book.add(some_cases(OLD - NEW, first=NEW))
    return path


@pytest.fixture
def copy(file: Path) -> Path:
    return file.with_name("copy.sqlite3")


def stale_log(folder: Path) -> bytes:
    """The log of a casebook that was killed before its cases came into the file."""
    killed = folder / "killed"
    killed.mkdir()
    writer = Writer.start(keep_on_writing(str(killed / "book"), 5000, 3000))
    writer.kill(lines=20, then=0.0)
    writer.told()
    data = (killed / "book-wal").read_bytes()
    shutil.rmtree(killed)
    return data


def sound(path: Path) -> int:
    """The number of its cases, each of them read."""
    with open_book(path, create=False) as book:
        assert book.faults() == []
        assert list(book.cases()) == some_cases(book.count())
        return book.count()


# --- what lies beside it ---


def test_a_stale_log_without_its_casebook_is_put_aside(file: Path, copy: Path, tmp_path: Path) -> None:
    log = stale_log(tmp_path)
    file.unlink()
    file.with_name("book.sqlite3-wal").write_bytes(log)
    file.with_name("book.sqlite3-journal").write_bytes(b"\xd9\xd5\x05\xf9 \xa1c\xd7 and more")
    kept = restore(copy, file)
    assert sound(file) == NEW
    assert kept is not None
    assert kept.name.startswith("book.before-")
    assert {path.name[-4:]: path.read_bytes()[:8] for path in tmp_path.glob("*before*")} == {
        "-wal": log[:8],
        "rnal": b"\xd9\xd5\x05\xf9 \xa1c\xd7",
    }


def test_a_stale_log_beside_a_damaged_casebook_is_put_aside(file: Path, copy: Path, tmp_path: Path) -> None:
    log = stale_log(tmp_path)
    file.write_bytes(b"\xee" * 10_000)
    file.with_name("book.sqlite3-wal").write_bytes(log)
    kept = restore(copy, file, force=True)
    assert sound(file) == NEW
    assert kept is not None
    assert kept.read_bytes() == b"\xee" * 10_000
    assert kept.with_name(kept.name + "-wal").read_bytes() == log


@pytest.mark.parametrize("there", [True, False])
def test_a_backup_beside_a_stale_log_reads_back_right(there: bool, file: Path, tmp_path: Path) -> None:
    log, target = stale_log(tmp_path), tmp_path / "friday.sqlite3"
    if there:
        target.write_bytes(b"no casebook")
    target.with_name("friday.sqlite3-wal").write_bytes(log)
    with open_book(file) as book:
        assert back_up(book, target, force=there) == OLD
    assert sound(target) == OLD
    (kept,) = tmp_path.glob("friday.before-*-wal")
    assert kept.read_bytes() == log


def test_a_backup_that_gives_way_leaves_nothing_behind(file: Path, copy: Path) -> None:
    with open_book(file) as book:
        assert back_up(book, copy, force=True) == OLD
    assert sound(copy) == OLD
    assert sorted(path.name for path in file.parent.iterdir()) == ["book.sqlite3", "copy.sqlite3"]


@pytest.mark.parametrize("path", ["book.sqlite3", "link.sqlite3"])
def test_a_casebook_is_not_backed_up_onto_itself(path: str, file: Path) -> None:
    file.with_name("link.sqlite3").symlink_to(file)
    with open_book(file) as book, pytest.raises(PressloreError, match="this is the casebook itself"):
        back_up(book, file.with_name(path), force=True)
    with pytest.raises(PressloreError, match="this is the casebook itself"):
        restore(file.with_name(path), file, force=True)
    assert sound(file) == OLD


def test_a_casebook_that_is_a_link_stays_one(file: Path, copy: Path, tmp_path: Path) -> None:
    link, backups = tmp_path / "shop" / "casebook.sqlite3", tmp_path / "shop" / "friday.sqlite3"
    link.parent.mkdir()
    link.symlink_to(file)
    backups.symlink_to(copy)
    kept = restore(copy, link, force=True)
    assert link.is_symlink()
    assert sound(file) == NEW
    assert kept is not None
    assert kept.parent == tmp_path
    assert sound(kept) == OLD
    with open_book(kept) as book:
        back_up(book, backups, force=True)
    assert backups.is_symlink()
    assert sound(copy) == OLD
    file.write_bytes(b"\xee" * 10_000)
    restore(copy, link, force=True)
    assert link.is_symlink()
    assert sound(file) == OLD


# --- what gives way to a backup ---


@pytest.fixture
def other(tmp_path: Path) -> Path:
    """Another shop's casebook."""
    path = tmp_path / "two" / "casebook.sqlite3"
    path.parent.mkdir()
    with open_book(path) as book:
        book.add(some_cases(9, first=500))
    return path


@pytest.mark.parametrize("way", ["itself", "link", "put aside", "before", "written to", "copied"])
def test_a_casebook_never_gives_way_to_a_backup(way: str, file: Path, copy: Path, other: Path) -> None:
    target, holds = other, 9
    if way == "link":
        target = file.with_name("friday.sqlite3")
        target.symlink_to(other)
    elif way == "put aside":
        target = restore(copy, other, force=True) or other
    elif way == "before":
        target = other.with_name("casebook.before-20260101T000000000000.sqlite3")
        other.rename(target)
    elif way == "written to":
        with open_book(other) as book:
            back_up(book, target := file.with_name("friday.sqlite3"))
        with open_book(target) as book:
            holds += book.add(some_cases(1, first=900))
    elif way == "copied":
        restore(target := copy, other, force=True)
        target, holds = other, NEW
    with open_book(file) as book, pytest.raises(PressloreError, match="does not bear the mark of a backup"):
        back_up(book, target, force=True)
    with open_book(target, create=False) as book:
        assert book.count() == holds
        assert book.faults() == []


def test_a_backup_gives_way_though_it_was_read_meanwhile(file: Path, copy: Path) -> None:
    with open_book(copy) as book:
        assert len(list(book.cases())) == NEW
        assert book.add(some_cases(NEW)) == 0  # nothing new
    with open_book(file) as book:
        assert back_up(book, copy, force=True) == OLD
    assert sound(copy) == OLD


def test_what_is_no_database_is_kept_aside(file: Path, tmp_path: Path) -> None:
    target = tmp_path / "friday.sqlite3"
    target.write_bytes(b"\xee" * 10_000)
    with open_book(file) as book:
        back_up(book, target, force=True)
    (kept,) = tmp_path.glob("friday.before-*")
    assert kept.read_bytes() == b"\xee" * 10_000


def test_a_casebook_that_was_begun_meanwhile_does_not_give_way(
    file: Path, copy: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target, copied = file.with_name("new.sqlite3"), backup._copy

    def and_one_begins(*given: Path) -> None:
        copied(*given)
        with open_book(target) as book:
            book.add(some_cases(1, first=700))

    monkeypatch.setattr(backup, "_copy", and_one_begins)
    with pytest.raises(PressloreError, match="there is a casebook already: add --force"):
        restore(copy, target)
    with open_book(target) as book:
        assert list(book.cases()) == some_cases(1, first=700)


@pytest.mark.parametrize("there", [False, True])
def test_a_restore_waits_for_a_casebook_that_is_being_begun(
    there: bool, file: Path, copy: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """``there``: as a file without anything in it. The case that was kept in the end is in one of the two."""
    target, begun, go_on = file.with_name("new.sqlite3"), Event(), Event()
    if there:
        target.touch()
    (case,), migrated = some_cases(1, first=700), migrate

    def slowly(*given: Any) -> None:
        begun.set()
        assert go_on.wait(60)
        migrated(*given)

    def add() -> None:
        with open_book(target) as book:
            book.add([case])

    monkeypatch.setattr(store, "migrate", slowly)
    monkeypatch.setattr(backup, "WAIT", 60.0)  # on a busy machine a casebook takes longer to begin
    with ThreadPoolExecutor(2) as both:
        adding = both.submit(add)
        assert begun.wait(60)
        restoring = both.submit(restore, copy, target, force=True)
        wait([restoring], 1.0)
        go_on.set()
        adding.result(60)
        kept = restoring.result(60)
    found = set()
    for path in (target, *([kept] if kept else [])):
        with open_book(path, create=False, looking=True) as book:
            assert book.faults() == []
            found |= {one.id for one in book.cases()}
    assert found == {one.id for one in [*some_cases(NEW), case]}


def test_a_restore_waits_for_whoever_has_the_casebook_open(file: Path, copy: Path) -> None:
    """SQLite itself would not wait to change the journal under somebody who reads."""
    with closing(sqlite3.connect(file, check_same_thread=False)) as reading:
        reading.execute("SELECT count(*) FROM cases").fetchone()
        with ThreadPoolExecutor(1) as other:
            restoring = other.submit(restore, copy, file, force=True)
            wait([restoring], 1.0)
            assert not restoring.done()
            reading.close()
            restoring.result(60)
    with open_book(file, create=False, looking=True) as book:
        assert book.faults() == []


# --- what does not read back right ---


@pytest.mark.parametrize("damaged", [False, True])
def test_what_does_not_read_back_right_gives_way_again(
    damaged: bool, file: Path, copy: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As on a disk that takes what it does not give back: the last writing is spoilt."""
    if damaged:
        file.write_bytes(b"\xee" * 10_000)
        monkeypatch.setattr(backup, "_settle", spoilt_when_settled())
    else:
        monkeypatch.setattr(backup, "_pages", spoilt_at_last(file))
    before = file.read_bytes()
    with pytest.raises(PressloreError, match="what was there before is back"):
        restore(copy, file, force=True)
    assert [path.name for path in file.parent.iterdir() if path not in (file, copy)] == []
    if damaged:
        assert file.read_bytes() == before
    else:
        assert sound(file) == OLD


def test_a_backup_that_does_not_read_back_right_gives_way_again(
    file: Path, copy: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(backup, "_settle", spoilt_when_settled())
    with open_book(file) as book:
        with monkeypatch.context() as into_it:
            into_it.setattr(backup, "_pages", spoilt_at_last(file))
            with pytest.raises(PressloreError, match="what was there before is back"):
                back_up(book, copy, force=True)
        with pytest.raises(PressloreError, match="what was there before is back"):
            back_up(book, copy.with_name("new.sqlite3"))
    assert sound(copy) == NEW
    assert sorted(path.name for path in file.parent.iterdir()) == ["book.sqlite3", "copy.sqlite3"]


def spoil(path: Path) -> None:
    data = path.read_bytes()
    assert b"tape-two-edges" in data
    path.write_bytes(data.replace(b"tape-two-edges", b"tape-ten-edges", 1))


def spoilt_when_settled() -> Callable[[Path, Path], None]:
    settled = backup._settle

    def settle(fresh: Path, target: Path) -> None:
        settled(fresh, target)
        spoil(target)

    return settle


def spoilt_at_last(file: Path) -> Callable[[sqlite3.Connection, sqlite3.Connection], None]:
    """Pages are copied right but for those that come from the copy into the casebook."""
    copied, times = backup._pages, iter(range(9))

    def pages(one: sqlite3.Connection, other: sqlite3.Connection) -> None:
        copied(one, other)
        if next(times) == 2:  # the copy of the backup, the old one aside, then this
            other.execute("UPDATE cases SET spoilt = spoilt + 1 WHERE id = ?", (some_cases(1)[0].id,))

    return pages


def test_without_second_names_on_the_disk_a_copy_is_kept(
    file: Path, copy: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(*_: object) -> None:
        raise PermissionError

    monkeypatch.setattr(os, "link", refused)
    file.write_bytes(b"\xee" * 10_000)
    kept = restore(copy, file, force=True)
    assert kept is not None
    assert kept.read_bytes() == b"\xee" * 10_000
    assert sound(file) == NEW


# --- somebody else has it open ---


def test_whoever_opens_it_meanwhile_goes_on_with_what_was_put_back(
    file: Path, copy: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A process comes between the copy that is kept and what is put back. What it keeps is in the casebook."""
    guests = []
    written = backup._write_into

    def with_a_guest(*given: object) -> None:
        guests.append(subprocess.Popen([sys.executable, "-c", GUEST, str(file)], cwd=HERE, stdout=subprocess.PIPE))
        assert guests[0].stdout is not None
        assert guests[0].stdout.readline() == b"here\n"
        time.sleep(0.3)  # it is at the door by now, most times
        written(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(backup, "_write_into", with_a_guest)
    kept = restore(copy, file, force=True)
    out, _ = guests[0].communicate(timeout=300)
    assert (guests[0].returncode, out) == (0, b"kept\n")
    with open_book(file) as book:
        assert {int(case.id, 16) for case in book.cases()} == {*range(NEW), *range(1000, 1009)}
    assert kept is not None
    assert sound(kept) == OLD


GUEST = """
import sys
from diagnose.casebook.store.casebook import open_book
from tests.casebook.some import some_cases
print("here", flush=True)
with open_book(sys.argv[1]) as book:
    book.add(some_cases(9, first=1000))
print("kept", flush=True)
"""


# --- stopped in the middle ---


def test_what_killed_backups_left_is_swept(file: Path, tmp_path: Path) -> None:
    gone = subprocess.Popen([sys.executable, "-c", ""])
    gone.wait()
    target = tmp_path / "friday.sqlite3"
    swept = [f".friday.sqlite3.{gone.pid}.{kind}{end}" for kind in ("new", "old") for end in ("", *aside.SIDECARS)]
    stay = [
        f".friday.sqlite3.{os.getppid()}.new",  # of one that runs
        f".other.sqlite3.{gone.pid}.new",
        f".friday.sqlite3.{gone.pid}.newer",
        "friday.sqlite3.1.new",
    ]
    for name in (*swept, *stay):
        (tmp_path / name).write_bytes(b"")
    with open_book(file) as book:
        back_up(book, target)
    assert {path.name for path in tmp_path.iterdir()} == {"book.sqlite3", "copy.sqlite3", "friday.sqlite3", *stay}


def test_no_casebook_begins_where_one_was_put_aside(file: Path, copy: Path) -> None:
    kept = restore(copy, file, force=True)
    assert kept is not None
    file.unlink()
    with pytest.raises(PressloreError, match=r"put it back: presslore cases restore .*book\.before-"):
        open_book(file)
    assert not file.exists()
    file.touch()  # as a process leaves it that was killed while it began one
    with pytest.raises(PressloreError, match="put it back"):
        open_book(file)
    restore(kept, file, force=True)
    assert sound(file) == OLD


CHILD = """
import sys
from pathlib import Path
from diagnose.casebook.store.backup import back_up, restore
from diagnose.casebook.store.casebook import open_book
what, file, copy = sys.argv[1], Path(sys.argv[2]), Path(sys.argv[3])
if what == "restore":
    restore(copy, file, force=True)
else:
    with open_book(file) as book:
        back_up(book, copy, force=True)
"""
CALLS = "pwrite64,fsync,fdatasync,ftruncate,rename,link,linkat,unlink"  # all that changes a file
STRACE = "strace is not installed; on Debian: apt-get install strace"


def killed_at(call: int, what: str, file: Path, copy: Path) -> bool:
    """Whether it was killed at this one of the calls by which it changes files; False once it ends before."""
    inject = f"inject={CALLS}:signal=SIGKILL:when={call}"
    strace = ["strace", "-f", "-qq", "-o", os.devnull, "-e", f"trace={CALLS}", "-e", inject]
    done = subprocess.run(
        [*strace, sys.executable, "-B", "-c", CHILD, what, str(file), str(copy)],
        cwd=HERE,
        capture_output=True,
        timeout=300,
        check=False,
    )
    assert done.returncode in (0, -signal.SIGKILL, 128 + signal.SIGKILL), done.stderr
    return done.returncode != 0


@pytest.mark.skipif(shutil.which("strace") is None, reason=STRACE)
@pytest.mark.parametrize("damaged", [False, True])
@pytest.mark.parametrize("what", ["restore", "backup"])
@pytest.mark.parametrize(
    "step", [pytest.param(1, marks=pytest.mark.thorough), pytest.param(31, marks=pytest.mark.slow)]
)
def test_killed_at_any_moment_it_is_the_old_one_or_the_new_one(
    step: int, what: str, damaged: bool, tmp_path: Path
) -> None:
    """``damaged``: what gives way is no casebook."""
    first = tmp_path / "first"
    first.mkdir()
    for name, number in (("copy", 3), ("book", 2)) if what == "restore" else (("book", 3), ("copy", 2)):
        with open_book(first / f"{name}.sqlite3") as book:
            book.add(some_cases(number))
    if what == "backup":
        _mark(first / "copy.sqlite3", MARK)
    if damaged:
        (first / f"{name}.sqlite3").write_bytes(RUINED)
    kills, killed = 0, True
    while killed:
        folder = tmp_path / str(kills)
        shutil.copytree(first, folder)
        file, copy = folder / "book.sqlite3", folder / "copy.sqlite3"
        (source, gives_way) = (copy, file) if what == "restore" else (file, copy)
        killed = killed_at((kills + 1) * step, what, file, copy)
        left = 0 if gives_way.read_bytes() == RUINED else sound(gives_way)
        assert left in ((0 if damaged else 2, 3) if killed else (3,))
        assert sound(source) == 3
        done_again(what, file, copy)
        assert sound(gives_way) == 3
        assert [path.name for path in folder.iterdir() if path.name.endswith((".new", ".old", *aside.SIDECARS))] == []
        shutil.rmtree(folder)
        kills += killed
    assert kills >= 40 // step


def done_again(what: str, file: Path, copy: Path) -> None:
    if what == "restore":
        restore(copy, file, force=True)
    else:
        with open_book(file) as book:
            back_up(book, copy, force=True)


RUINED = b"\xee" * 10_000
HERE = Path(__file__).parents[2]


def test_on_windows_no_process_is_asked_whether_it_lives(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """There the question would stop it. What it wrote goes when it is a day old."""
    old, young = (tmp_path / f".book.sqlite3.{process}.new" for process in (4_000_001, 4_000_002))
    for path in (old, young):
        path.write_bytes(b"")
    yesterday = time.time() - 90_000
    os.utime(old, (yesterday, yesterday))
    monkeypatch.setattr(os, "kill", lambda *given: pytest.fail("asked"))
    monkeypatch.setattr(sys, "platform", "win32")
    aside.sweep(tmp_path / "book.sqlite3")
    assert (old.exists(), young.exists()) == (False, True)
