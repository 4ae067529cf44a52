"""One reader: plain files up to a limit; everything else is said, and nothing is waited for."""

import io
import json
import os
import socket
from collections.abc import Callable
from pathlib import Path

import pytest

from diagnose.files.reading import decoded, place_of, read, read_if_there, read_stream
from diagnose.problems import PressloreError


def test_a_plain_file_is_read_whole(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"content")
    assert read(tmp_path / "a") == b"content"
    assert read(tmp_path / "a", most=7) == b"content"


def test_a_link_to_a_file_is_followed(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"content")
    (tmp_path / "b").symlink_to("a")
    assert read(tmp_path / "b") == b"content"


def test_what_is_not_there(tmp_path: Path) -> None:
    assert read_if_there(tmp_path / "a") is None
    with pytest.raises(PressloreError, match="a: this is not there - expected a file"):
        read(tmp_path / "a")


def _socket(path: Path) -> None:
    socket.socket(socket.AF_UNIX).bind(str(path))


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (os.mkfifo, "this is a pipe - expected a plain file"),
        (os.mkdir, "this is a folder - expected a plain file"),
        (lambda path: path.symlink_to("/dev/zero"), "this is a device"),
        (lambda path: path.symlink_to(path), "cannot be read"),
        (_socket, "cannot be read"),
    ],
)
def test_only_plain_files(tmp_path: Path, make: Callable[[Path], object], said: str) -> None:
    make(tmp_path / "a")
    with pytest.raises(PressloreError, match=f"a: {said}"):
        read(tmp_path / "a")


def test_a_file_of_twenty_gigabytes_is_refused_unread(tmp_path: Path) -> None:
    with (tmp_path / "sparse").open("wb") as file:
        file.truncate(20_000_000_000)
    with pytest.raises(PressloreError, match="sparse: this is too large - expected at most 20,000,000 bytes"):
        read(tmp_path / "sparse")


def test_a_file_that_hides_its_size_is_read_to_the_limit_only() -> None:
    with pytest.raises(PressloreError, match="too large"):
        read(Path("/proc/self/smaps"), most=10)


def test_a_stream_is_read_to_the_limit_only() -> None:
    assert read_stream(io.BytesIO(b"abc"), shown="standard input", most=3) == b"abc"
    with pytest.raises(PressloreError, match="standard input: this is too large"):
        read_stream(io.BytesIO(b"abcd"), shown="standard input", most=3)


@pytest.mark.parametrize("name", ["x" * 300, "a\0b", "x/" * 3000])
def test_names_that_no_file_can_have(tmp_path: Path, name: str) -> None:
    with pytest.raises(PressloreError):
        read(tmp_path / name)


def test_bytes_that_are_no_text_are_named_by_their_line(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"good\nb\xe9d\n")
    with pytest.raises(PressloreError, match="a:2:1: bytes that are no UTF-8 text"):
        decoded(read(tmp_path / "a"), str(tmp_path / "a"))


@pytest.mark.parametrize(
    ("text", "place"), [('{\n "a": 1,\n bad}', "a.json:3:2"), ("[" * 20_000, "a.json"), ('{"a": [1,]}', "a.json:1:10")]
)
def test_what_is_no_json_is_named_by_its_line(text: str, place: str) -> None:
    with pytest.raises((ValueError, RecursionError)) as raised:
        json.loads(text)
    assert str(place_of(raised.value, "a.json")) == place


def test_a_byte_order_mark_is_no_part_of_the_text(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes("\ufefftext".encode())
    assert decoded(read(tmp_path / "a"), str(tmp_path / "a")) == "text"


def test_a_folder_is_called_one_where_the_system_just_denies_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As Windows does."""

    def denied(*given: object) -> int:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(os, "open", denied)
    with pytest.raises(PressloreError, match="this is a folder - expected a plain file"):
        read(tmp_path)
    with pytest.raises(PressloreError, match="Permission denied"):
        read(tmp_path / "a")
