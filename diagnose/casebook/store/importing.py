"""Reads cases that presslore exported, from this shop or another: lines of JSON, or a whole casebook."""

import json
import os
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import BinaryIO

from diagnose.casebook.case import LONGEST, Case, from_plain
from diagnose.files.reading import opened
from diagnose.pace import Far, part, unheard
from diagnose.problems import Collector, Place, PressloreError

LARGEST_BOOK = 2**30  # bytes of a casebook that is taken in: some hundred thousand cases
MOST_NAMED = 100  # problems, before reading stops
SQLITE = b"SQLite format 3\0"
LINE = "one case on a line, as written by: presslore cases export --format jsonl"


def read_files(files: Sequence[Path], tell: Callable[[str], None] | None = None, far: Far = unheard) -> Iterator[Case]:
    """All cases of some files. Raises PressloreError with every line that is wrong once all have been read, so that
    whoever takes the cases in must not keep any until the end. A case of a whole casebook that cannot be read, which
    nobody can mend by hand, is passed over, and ``tell`` gets its name and why."""
    problems = Collector()
    for number, file in enumerate(files):
        yield from _read(file, problems, tell, part(far, number / len(files), (number + 1) / len(files)))
        if len(problems.problems) >= MOST_NAMED:
            break
    problems.raise_if_any()


def _read(file: Path, problems: Collector, tell: Callable[[str], None] | None, far: Far) -> Iterator[Case]:
    with opened(file) as stream:
        if stream.peek(len(SQLITE))[: len(SQLITE)] != SQLITE:
            yield from read_lines(stream, str(file), problems, far)
            return
    yield from _read_book(file, problems, tell, far)


def _read_book(file: Path, problems: Collector, tell: Callable[[str], None] | None, far: Far) -> Iterator[Case]:
    """The cases of a casebook that may come from anybody: of a copy, so that theirs stays as it is, which is compared
    with what a casebook holds. What is not as it was once written is passed over, and named."""
    from diagnose.casebook.store.backup import copied
    from diagnose.casebook.store.casebook import open_book

    if file.stat().st_size > LARGEST_BOOK:
        problems.add(Place(str(file)), "large-book", "too large", expected=f"at most {LARGEST_BOOK:,} bytes")
        return
    with copied(file) as copy, open_book(copy, create=False, named=str(file), looking=True) as other:
        other.skipped.tell = tell
        whole = other.count()
        for number, case in enumerate(other.cases(), 1):
            yield case
            far(number / max(number, whole))


def read_lines(stream: BinaryIO, name: str, problems: Collector, far: Far) -> Iterator[Case]:
    """The cases of a file's bytes; what is wrong with a line goes to the problems, with its number."""
    number, whole = 0, os.fstat(stream.fileno()).st_size
    while data := stream.readline(LONGEST + 1):
        number += 1
        far(stream.tell() / max(1, whole))
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
