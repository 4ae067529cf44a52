"""One writer: whole or not at all, under a lock, never over what is not meant."""

import multiprocessing
import os
import signal
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from diagnose.files import writing
from diagnose.files.locks import LOCK_FILE, locked
from diagnose.files.reading import read
from diagnose.files.writing import copy_folder, replace_all, write_new, write_over
from diagnose.problems import PressloreError

SPAWN = multiprocessing.get_context("fork")


def names(folder: Path) -> list[str]:
    return sorted(os.listdir(folder))


def test_a_new_file(tmp_path: Path) -> None:
    write_new(tmp_path / "a", b"content")
    assert (tmp_path / "a").read_bytes() == b"content"
    assert names(tmp_path) == ["a"]


def test_a_new_file_takes_nobodys_place(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"theirs")
    (tmp_path / "link").symlink_to("nowhere")
    for name in ("a", "link"):
        with pytest.raises(PressloreError, match=f"{name}: something is kept here already - expected a new name"):
            write_new(tmp_path / name, b"mine")
    assert (tmp_path / "a").read_bytes() == b"theirs"
    assert names(tmp_path) == ["a", "link"]


def test_a_name_taken_in_the_same_moment_is_respected(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def theirs(path: Path) -> bytes:
        path.write_bytes(b"theirs")
        return b"mine"

    finish = writing.beside
    monkeypatch.setattr(writing, "beside", lambda path, content: finish(path, theirs(path)))
    with pytest.raises(PressloreError, match="kept here already"):
        write_new(tmp_path / "a", b"mine")
    assert (tmp_path / "a").read_bytes() == b"theirs"
    assert names(tmp_path) == ["a"]


def test_without_hard_links_a_new_file_is_written_all_the_same(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_: object) -> None:
        raise PermissionError(1, "Operation not permitted")

    monkeypatch.setattr("os.link", refused)
    write_new(tmp_path / "a", b"content")
    with pytest.raises(PressloreError, match="kept here already"):
        write_new(tmp_path / "a", b"other")
    assert (tmp_path / "a").read_bytes() == b"content"
    assert names(tmp_path) == ["a"]


def test_rights_stay_those_of_the_old_file(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"old")
    (tmp_path / "a").chmod(0o640)
    write_over(tmp_path / "a", [b"n", b"ew"])
    assert (tmp_path / "a").read_bytes() == b"new"
    assert (tmp_path / "a").stat().st_mode & 0o777 == 0o640


def test_new_files_have_the_usual_rights(tmp_path: Path) -> None:
    before = os.umask(0o027)
    try:
        write_over(tmp_path / "a", b"x")
    finally:
        os.umask(before)
    assert (tmp_path / "a").stat().st_mode & 0o777 == 0o640


def test_a_link_stays_and_what_it_leads_to_is_replaced(tmp_path: Path) -> None:
    (tmp_path / "far").mkdir()
    (tmp_path / "far" / "a").write_bytes(b"old")
    (tmp_path / "link").symlink_to("far/a")
    write_over(tmp_path / "link", b"new")
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "far" / "a").read_bytes() == b"new"


def test_only_what_may_be_replaced_is(tmp_path: Path) -> None:
    def ours(path: Path) -> bool:
        return read(path).startswith(b"mine")

    write_over(tmp_path / "a", b"mine 1", may_replace=ours)
    write_over(tmp_path / "a", b"theirs", may_replace=ours)
    with pytest.raises(PressloreError, match="a: something else is kept here, and is left alone"):
        write_over(tmp_path / "a", b"mine 2", may_replace=ours)
    with pytest.raises(PressloreError, match="something else is kept here"):
        write_over(tmp_path, b"mine 2", may_replace=lambda _: True)
    assert (tmp_path / "a").read_bytes() == b"theirs"


def test_what_fails_on_the_way_leaves_the_old_and_no_trace(tmp_path: Path) -> None:
    def parts() -> Iterator[bytes]:
        yield b"half"
        raise KeyboardInterrupt

    (tmp_path / "a").write_bytes(b"old")
    for write in (write_over, write_new):
        with pytest.raises(KeyboardInterrupt):
            write(tmp_path / ("a" if write is write_over else "b"), parts())
    assert (tmp_path / "a").read_bytes() == b"old"
    assert names(tmp_path) == ["a"]


@pytest.mark.parametrize("name", ["gone/a", "x" * 300, "a\0b"])
def test_what_cannot_be_written_is_said(tmp_path: Path, name: str) -> None:
    for write in (write_over, write_new):
        with pytest.raises(PressloreError, match="cannot be written"):
            write(tmp_path / name, b"x")


def test_a_full_disk_is_said_and_the_old_stays(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    (tmp_path / "a").write_bytes(b"old")
    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(PressloreError, match=r"a: cannot be written \(No space left on device\) - nothing was changed"):
        write_over(tmp_path / "a", b"new")
    assert (tmp_path / "a").read_bytes() == b"old"
    assert names(tmp_path) == ["a"]


def _die_halfway(path: Path) -> None:
    def parts() -> Iterator[bytes]:
        yield b"half"
        os.kill(os.getpid(), signal.SIGKILL)

    write_over(path, parts())


def test_what_a_killed_writer_left_is_swept_once_it_is_old(tmp_path: Path) -> None:
    dying = SPAWN.Process(target=_die_halfway, args=(tmp_path / "a",))
    dying.start()
    dying.join()
    (left,) = names(tmp_path)
    write_over(tmp_path / "b", b"x")
    assert names(tmp_path) == [left, "b"]
    os.utime(tmp_path / left, (0, 0))
    write_over(tmp_path / "b", b"y")
    assert names(tmp_path) == ["b"]


def test_a_hidden_file_of_somebody_elses_with_a_like_name_stays(tmp_path: Path) -> None:
    (tmp_path / ".presslore-own.part").mkdir()
    (tmp_path / ".presslore-notes.part").write_text("mine")
    for name in names(tmp_path):
        os.utime(tmp_path / name, (0, 0))
    write_over(tmp_path / "a", b"x")
    assert names(tmp_path) == [".presslore-notes.part", ".presslore-own.part", "a"]


def test_what_a_living_writer_is_at_work_on_is_never_swept(tmp_path: Path) -> None:
    def parts() -> Iterator[bytes]:
        yield b"half"
        (mine,) = names(tmp_path)
        os.utime(tmp_path / mine, (0, 0))
        in_another_process(writing.sweep, tmp_path)
        yield b" and whole"

    write_over(tmp_path / "a", parts())
    assert (tmp_path / "a").read_bytes() == b"half and whole"


def _die_filling(path: Path) -> None:
    with writing.folder_beside(path) as fresh:
        (fresh / "half").write_bytes(b"")
        os.kill(os.getpid(), signal.SIGKILL)


def test_a_folder_is_filled_beside_its_place(tmp_path: Path) -> None:
    with writing.folder_beside(tmp_path / "a") as fresh:
        (fresh / "b").write_bytes(b"")
        assert not (tmp_path / "a").exists()
        fresh.rename(tmp_path / "a")
    assert names(tmp_path) == ["a"]
    with writing.folder_beside(tmp_path / "c") as fresh:
        (fresh / "d").write_bytes(b"")
    assert names(tmp_path) == ["a"]


def test_a_folder_that_a_killed_writer_left_is_swept_and_that_of_a_living_one_is_not(tmp_path: Path) -> None:
    dying = SPAWN.Process(target=_die_filling, args=(tmp_path / "a",))
    dying.start()
    dying.join()
    (left,) = names(tmp_path)
    with writing.folder_beside(tmp_path / "b") as fresh:
        for each in (fresh, tmp_path / left):
            os.utime(each, (0, 0))
        in_another_process(writing.sweep, tmp_path)
        assert names(tmp_path) == [fresh.name]


def in_another_process(function: object, *arguments: object) -> None:
    other = SPAWN.Process(target=function, args=arguments)  # type: ignore[arg-type]
    other.start()
    other.join()
    assert other.exitcode == 0


def _add_lines(path: Path, who: int, told: str) -> None:
    for number in range(24):
        line = f"{who}-{number}\n".encode()
        while True:
            old = read(path)
            try:
                replace_all({path: (old, old + line)})
            except PressloreError:  # somebody else was quicker: nothing was acknowledged
                continue
            with Path(told).open("ab") as file:
                file.write(line)
            break


def test_eight_processes_lose_no_change_that_was_acknowledged(tmp_path: Path) -> None:
    path, told = tmp_path / "a.yaml", tmp_path / "told"
    path.write_bytes(b"")
    crowd = [SPAWN.Process(target=_add_lines, args=(path, who, str(told))) for who in range(8)]
    for one in crowd:
        one.start()
    for one in crowd:
        one.join()
    assert len(told.read_text().split()) == 192
    assert sorted(path.read_text().split()) == sorted(told.read_text().split())


def _hold(folder: Path, held: object) -> None:
    with locked([folder]):
        held.set()  # type: ignore[attr-defined]
        time.sleep(60)


def test_who_waits_too_long_for_a_lock_is_told(tmp_path: Path) -> None:
    held = SPAWN.Event()
    other = SPAWN.Process(target=_hold, args=(tmp_path, held))
    other.start()
    held.wait()
    try:
        with pytest.raises(PressloreError, match="another presslore is changing files here"), locked([tmp_path], 0.05):
            pass
    finally:
        other.kill()
        other.join()
    with locked([tmp_path], 5):  # a lock ends with the process that held it
        pass
    assert names(tmp_path) == []


def test_where_a_folder_cannot_be_locked_a_file_in_it_is(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = os.open

    def refusing(path: str, *rest: int) -> int:
        if str(path) == str(tmp_path):
            raise PermissionError(13, "Permission denied")
        return real(path, *rest)

    monkeypatch.setattr("os.open", refusing)
    with locked([tmp_path]), pytest.raises(PressloreError, match="another presslore"), locked([tmp_path], 0.05):
        pass
    assert names(tmp_path) == [LOCK_FILE]


def test_several_files_or_none(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"1")
    (tmp_path / "b").write_bytes(b"changed by hand")
    with pytest.raises(PressloreError, match="b: somebody changed this file meanwhile"):
        replace_all({tmp_path / "a": (b"1", b"2"), tmp_path / "b": (b"1", b"2")})
    assert (tmp_path / "a").read_bytes() == b"1"
    replace_all({tmp_path / "a": (b"1", None), tmp_path / "sub" / "c": (None, b"new")})
    assert names(tmp_path) == ["b", "sub"]


@pytest.mark.parametrize(("system", "times"), [("win32", 3), ("linux", 1)])
def test_on_windows_whoever_reads_the_file_is_waited_for(
    system: str, times: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "a").write_bytes(b"old")
    tried, really = [], os.replace

    def replace(fresh: Path, target: Path) -> None:
        tried.append(target)
        if len(tried) < 3:
            raise PermissionError(13, "Access is denied")
        really(fresh, target)

    monkeypatch.setattr(os, "replace", replace)
    monkeypatch.setattr("diagnose.files.writing.sys.platform", system)
    monkeypatch.setattr("diagnose.files.writing.try_lock", lambda handle: True)
    if times == 3:
        write_over(tmp_path / "a", b"new")
    else:
        with pytest.raises(PressloreError, match="Access is denied"):
            write_over(tmp_path / "a", b"new")
    assert len(tried) == times
    assert (tmp_path / "a").read_bytes() == (b"new" if times == 3 else b"old")
    assert names(tmp_path) == ["a"]


def test_on_windows_it_is_given_up_after_a_while(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def replace(fresh: Path, target: Path) -> None:
        raise PermissionError(13, "Access is denied")

    monkeypatch.setattr(os, "replace", replace)
    monkeypatch.setattr("diagnose.files.writing.sys.platform", "win32")
    monkeypatch.setattr("diagnose.files.writing.try_lock", lambda handle: True)
    monkeypatch.setattr(writing, "PATIENCE", 0.05)
    with pytest.raises(PressloreError, match="Access is denied"):
        write_over(tmp_path / "a", b"new")
    assert names(tmp_path) == []


def test_a_copy_of_a_folder_leaves_out_what_is_being_written_there(tmp_path: Path) -> None:
    (tmp_path / "rules" / "deep").mkdir(parents=True)
    (tmp_path / "rules" / "deep" / "a.yaml").write_text("a")
    (tmp_path / "rules" / ".presslore-858dabf6eb22835c.part").symlink_to("gone by the time it is copied")
    copy_folder(tmp_path / "rules", tmp_path / "copy")
    assert [path.relative_to(tmp_path / "copy").as_posix() for path in (tmp_path / "copy").rglob("*.*")] == [
        "deep/a.yaml"
    ]
