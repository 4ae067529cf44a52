"""Dialogues that wait to be gone on with: a file for each, in one folder, under a name that a person can type.

None of them goes by itself before its case is kept, however many there are: from ``MANY`` on, whoever begins another
is told how to be rid of one.
"""

import os
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from itertools import count
from pathlib import Path

from diagnose.dialogue.saving import Saved, make_folder, read_saved
from diagnose.dialogue.session import Session
from diagnose.files.writing import write_new
from diagnose.problems import PressloreError

FOLDER, END = "sessions", ".json"  # within the state folder
EARLIER, EARLIER_FILE = "left-before", "last.json"  # the one dialogue that an older presslore kept
MANY = 20
LONGEST_NAME = 60  # letters


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """``at``: when it was last written to, by the clock here. ``saved``: what it holds, None where it cannot be read,
    and ``wrong`` says why."""

    name: str
    path: Path
    at: datetime
    saved: Saved | None = None
    wrong: str = ""


def all_waiting(state: Path) -> list[Waiting]:
    """The dialogues that are not over, or whose case is still to be kept, the newest first; with them the files that
    cannot be read."""
    found = [one for name, path in _files(state) if (one := _look(name, path))]
    return sorted(found, key=lambda one: (one.at, one.name), reverse=True)


def how_many(state: Path) -> int:
    """How many files there are, unread."""
    return sum(1 for _ in _files(state))


def place_of(state: Path, name: str) -> Path:
    """Where the dialogue of a name is, or would be."""
    return state / EARLIER_FILE if name == EARLIER else state / FOLDER / f"{name}{END}"


def name_of(state: Path, path: Path) -> str:
    """The name of a dialogue by its file, "" for a file anywhere else."""
    name = EARLIER if path.name == EARLIER_FILE else path.name.removesuffix(END)
    return name if place_of(state, name) == path else ""


def begin(state: Path, session: Session, content: bytes) -> Path:
    """Write a dialogue under a name that is free, made of what was pressed and what was seen. Raises
    PressloreError."""
    folder = state / FOLDER
    make_folder(folder)
    seen = session.evidence.seen
    stem = "-".join([session.item or "piece", *seen[:1]])[:LONGEST_NAME].rstrip("-")
    for number in count(1):
        path = folder / f"{stem}{f'-{number}' if number > 1 else ''}{END}"
        if os.path.lexists(path):
            continue
        try:
            write_new(path, content)
        except PressloreError as error:
            if not any(problem.code == "name-taken" for problem in error.problems):
                raise PressloreError(f"cannot save the session to {error}") from error
        else:
            break
    return path


def _files(state: Path) -> Iterator[tuple[str, Path]]:
    if (state / EARLIER_FILE).is_file():
        yield EARLIER, state / EARLIER_FILE
    try:
        names = sorted(os.listdir(state / FOLDER))
    except OSError:
        return
    for name in names:
        if name.endswith(END) and not name.startswith("."):
            yield name.removesuffix(END), state / FOLDER / name


def _look(name: str, path: Path) -> Waiting | None:
    """What waits in a file; None where nothing does: it has gone, or its case was kept."""
    try:
        at = datetime.fromtimestamp(path.lstat().st_mtime, UTC).astimezone()
        saved = read_saved(path)
    except OSError:
        return None
    except PressloreError as error:
        return Waiting(name=name, path=path, at=at, wrong=str(error)) if os.path.lexists(path) else None
    over = saved.session.over is not None
    kept = saved.progress.kept if saved.progress else over  # an older presslore kept the case at once
    return None if kept else Waiting(name=name, path=path, at=at, saved=saved)
