"""A file of one kind takes the place of another of its kind, and of nothing else, whoever says so."""

import os
from pathlib import Path

import pytest

from diagnose.files.kinds import FileKind, write_out
from diagnose.problems import PressloreError

SONG = FileKind(name="a song", begins=(b"la ", b"do re "))


def test_a_new_file_is_written(tmp_path: Path) -> None:
    for number, force in enumerate((False, True)):
        write_out(tmp_path / f"{number}", [b"la ", b"la"], SONG, force=force)
        assert (tmp_path / f"{number}").read_bytes() == b"la la"


@pytest.mark.parametrize("old", [b"la mer", b"do re mi", b""])
def test_one_of_its_kind_gives_way_where_that_is_said(old: bytes, tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(old)
    with pytest.raises(PressloreError, match="there is such a file already: name another, or add --force"):
        write_out(tmp_path / "a", b"la la", SONG)
    assert (tmp_path / "a").read_bytes() == old
    write_out(tmp_path / "a", b"la la", SONG, force=True)
    assert (tmp_path / "a").read_bytes() == b"la la"


@pytest.mark.parametrize("force", [False, True])
@pytest.mark.parametrize("what", ["text", "short", "folder", "pipe", "nowhere", "link"])
def test_nothing_else_ever_gives_way(what: str, force: bool, tmp_path: Path) -> None:
    path, precious = tmp_path / "a", tmp_path / "precious"
    precious.write_bytes(b"SQLite format 3\0 and years of work")
    if what in ("text", "short"):
        path.write_bytes(b"name: The harbour workshop" if what == "text" else b"l")
    elif what == "folder":
        path.mkdir()
    elif what == "pipe":
        os.mkfifo(path)
    else:
        path.symlink_to(precious if what == "link" else tmp_path / "not-there")
    before = path.read_bytes() if what in ("text", "short") else b""
    with pytest.raises(PressloreError, match="a: this is not a song, and is left alone: name another file"):
        write_out(path, b"la la", SONG, force=force)
    assert precious.read_bytes() == b"SQLite format 3\0 and years of work"
    if before:
        assert path.read_bytes() == before
    assert sorted(os.listdir(tmp_path)) == ["a", "precious"]


def test_a_link_to_one_of_its_kind_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "far").write_bytes(b"la mer")
    (tmp_path / "a").symlink_to("far")
    write_out(tmp_path / "a", b"la la", SONG, force=True)
    assert ((tmp_path / "a").is_symlink(), (tmp_path / "far").read_bytes()) == (True, b"la la")


def test_where_the_writing_breaks_off_the_old_one_stays(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"la mer")

    def broken_off() -> object:
        yield b"la "
        raise PressloreError("the casebook went away")

    for path in (tmp_path / "a", tmp_path / "b"):
        with pytest.raises(PressloreError, match="went away"):
            write_out(path, broken_off(), SONG, force=True)  # type: ignore[arg-type]
    assert (tmp_path / "a").read_bytes() == b"la mer"
    assert os.listdir(tmp_path) == ["a"]
