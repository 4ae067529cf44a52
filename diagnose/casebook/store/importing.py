"""Reads cases that presslore exported, from this shop or another: lines of JSON, or a whole casebook."""

import json
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import Any

from diagnose.casebook.case import LONGEST, Case, from_plain
from diagnose.files.reading import opened
from diagnose.problems import Collector, Place, PressloreError

LARGEST_BOOK = 2**30  # bytes of a casebook that is taken in: some hundred thousand cases
MOST_NAMED = 100  # problems, before reading stops
SQLITE = b"SQLite format 3\0"
LINE = "one case on a line, as written by: presslore cases export --format jsonl"


def read_files(files: Iterable[Path], tell: Callable[[str], None] | None = None) -> Iterator[Case]:
    """All cases of some files. Raises PressloreError with every line that is wrong once all have been read, so that
    whoever takes the cases in must not keep any until the end. A case of a whole casebook that cannot be read, which
    nobody can mend by hand, is passed over, and ``tell`` gets its name and why."""
    problems = Collector()
    for file in files:
        yield from _read(file, problems, tell)
        if len(problems.problems) >= MOST_NAMED:
            break
    problems.raise_if_any()


def _read(file: Path, problems: Collector, tell: Callable[[str], None] | None) -> Iterator[Case]:
    with opened(file) as stream:
        if stream.peek(len(SQLITE))[: len(SQLITE)] != SQLITE:
            yield from read_lines(stream, str(file), problems)
            return
    yield from _read_book(file, problems, tell)


def _read_book(file: Path, problems: Collector, tell: Callable[[str], None] | None) -> Iterator[Case]:
    """The cases of a casebook that may come from anybody: of a copy, so that theirs stays as it is, which is compared
    with what a casebook holds. What is not as it was once written is passed over, and named."""
    from diagnose.casebook.store.backup import copied
    from diagnose.casebook.store.casebook import open_book

    if file.stat().st_size > LARGEST_BOOK:
        problems.add(Place(str(file)), "large-book", "too large", expected=f"at most {LARGEST_BOOK:,} bytes")
        return
    with copied(file) as copy, open_book(copy, create=False, named=str(file), looking=True) as other:
        other.skipped.tell = tell
        yield from other.cases()


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
                yield from_plain(json.loads(data.decode("utf-8-sig"), parse_constant=_no_number))
            except (ValueError, RecursionError, PressloreError) as error:
                problems.add(Place(name, number, 1), "bad-case", _said(error), expected=LINE)
        if len(problems.problems) >= MOST_NAMED:
            return


def _said(error: Exception) -> str:
    if isinstance(error, UnicodeDecodeError):
        return "no text in UTF-8"
    return "no JSON" if isinstance(error, ValueError | RecursionError) else str(error)


def _no_number(word: str) -> float:
    raise ValueError(f"{word} is no number")
