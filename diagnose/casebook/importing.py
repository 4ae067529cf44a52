"""Reads cases that presslore exported, from this shop or another: lines of JSON, or a whole casebook."""

import json
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from diagnose.casebook.case import Case, from_plain, to_plain
from diagnose.problems import Collector, Place, PressloreError, Problem

LONGEST = 1_000_000  # bytes of a line; a case takes some hundreds
EARLIEST = 2000  # year
MOST_NAMED = 100  # problems, before reading stops
SQLITE = b"SQLite format 3\0"
LINE = "one case on a line, as written by: presslore cases export --format jsonl"


def read_files(files: Iterable[Path]) -> Iterator[Case]:
    """All cases of some files. Raises PressloreError with every line that is wrong once all have been read, so that
    whoever takes the cases in must not keep any until the end."""
    problems = Collector()
    for file in files:
        yield from _read(file, problems)
        if len(problems.problems) >= MOST_NAMED:
            break
    problems.raise_if_any()


def _read(file: Path, problems: Collector) -> Iterator[Case]:
    with _opened(file) as stream:
        head = stream.peek(len(SQLITE))[: len(SQLITE)] if hasattr(stream, "peek") else b""
        if head != SQLITE:
            yield from read_lines(stream, str(file), problems)
            return
    from diagnose.casebook.store import open_book

    with open_book(file, create=False) as other:
        yield from other.cases()


@contextmanager
def _opened(file: Path) -> Iterator[Any]:
    try:
        stream = file.open("rb")
    except OSError as error:
        wrong = f"cannot be read ({error.strerror})"
        raise PressloreError([Problem(place=Place(str(file)), code="unreadable-file", wrong=wrong)]) from error
    with stream:
        yield stream


def read_lines(stream: Any, name: str, problems: Collector) -> Iterator[Case]:
    """The cases of a stream of bytes; what is wrong with a line goes to the problems, with its number."""
    number = 0
    while data := stream.readline(LONGEST + 1):
        number += 1
        if len(data) > LONGEST:
            problems.add(Place(name, number, 1), "long-line", f"longer than {LONGEST} bytes", expected=LINE)
            return
        if data.strip():
            try:
                yield _case(json.loads(data.decode("utf-8-sig"), parse_constant=_no_number))
            except (ValueError, RecursionError, PressloreError) as error:
                problems.add(Place(name, number, 1), "bad-case", _said(error), expected=LINE)
        if len(problems.problems) >= MOST_NAMED:
            return


def _case(plain: Any) -> Case:
    """The case, where it is one that this presslore could have written. Raises PressloreError."""
    case = from_plain(plain)
    if case.ended.year < EARLIEST:
        raise PressloreError(f"it ended in {case.ended.year}")
    if not all(text.isprintable() for text in _texts(to_plain(case))):
        raise PressloreError("it holds letters that cannot be written")
    return case


def _texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict | list):
        for part in [*value, *(value.values() if isinstance(value, dict) else [])]:
            yield from _texts(part)


def _said(error: Exception) -> str:
    if isinstance(error, UnicodeDecodeError):
        return "no text in UTF-8"
    return "no JSON" if isinstance(error, ValueError | RecursionError) else str(error)


def _no_number(word: str) -> float:
    raise ValueError(f"{word} is no number")
