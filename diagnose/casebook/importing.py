"""Reads cases that presslore exported, from this shop or another: lines of JSON, or a whole casebook."""

import json
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from diagnose.casebook.case import Case, from_plain, to_plain
from diagnose.casebook.exporting import line
from diagnose.problems import Collector, Place, PressloreError, Problem

LONGEST = 1_000_000  # bytes of a line; a case takes some hundreds
EARLIEST = 2000  # year
LARGEST_BOOK = 2**30  # bytes of a casebook that is taken in: some hundred thousand cases
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
    yield from _read_book(file, problems)


def _read_book(file: Path, problems: Collector) -> Iterator[Case]:
    """The cases of a casebook that may come from anybody: of a copy, so that theirs stays as it is, compared with what
    a casebook holds and gone through row by row; then each case as if it had come on a line."""
    from diagnose.casebook.backup import copied
    from diagnose.casebook.store import open_book

    if file.stat().st_size > LARGEST_BOOK:
        problems.add(Place(str(file)), "large-book", "too large", expected=f"at most {LARGEST_BOOK:,} bytes")
        return
    with copied(file) as copy, open_book(copy, create=False, named=str(file), looking=True) as other:
        for fault in other.faults()[:MOST_NAMED]:
            problems.add(Place(str(file)), "bad-row", str(fault))
        for case in other.cases() if not problems else ():
            try:
                yield _case(_again(case))
            except (ValueError, RecursionError, PressloreError) as error:
                problems.add(Place(str(file)), "bad-case", f"case {case.id}: {_said(error)}")
            if len(problems.problems) >= MOST_NAMED:
                return


def _again(case: Case) -> Any:
    """The case as it would come on a line. Raises PressloreError where no line would hold it."""
    written = line(case)
    if len(written) > LONGEST:
        raise PressloreError(f"longer than {LONGEST} bytes")
    return json.loads(written, parse_constant=_no_number)


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
