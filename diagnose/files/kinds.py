"""Files that are written where a person says: each kind is known again by how it begins, so that a new one takes the
place of an earlier one of its kind and of nothing else."""

import os
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from diagnose.files.writing import Content, write_new, write_over
from diagnose.problems import PressloreError


@dataclass(frozen=True, slots=True, kw_only=True)
class FileKind:
    """``name``: what one is, within a sentence. ``begins``: how every one of them begins, in one of these ways.
    ``also``: what else is asked of the file where that says too little."""

    name: str
    begins: tuple[bytes, ...]
    also: Callable[[Path], bool] = lambda path: True

    def is_one(self, path: Path) -> bool:
        """Whether a plain file is one of these, or empty. Raises OSError."""
        if not path.is_file():
            return False
        with path.open("rb") as file:
            head = file.read(max(map(len, self.begins)))
        return not head or (head.startswith(self.begins) and self.also(path))


def write_out(path: Path, content: Content, kind: FileKind, *, force: bool = False) -> None:
    """Write a file whole or not at all. With ``force`` it takes the place of one of its kind, never of anything else;
    without, of nothing, be it made in the same moment. Raises PressloreError, and leaves all as it was."""
    refuse(path, kind, force=force)
    if os.path.lexists(path):
        write_over(path, content, may_replace=lambda target: _is_one(target, kind))
    else:
        write_new(path, content)


def refuse(path: Path, kind: FileKind, *, force: bool = False) -> None:
    """Raise PressloreError where a file of this kind may not be written: something else is there, or one of its kind
    and ``force`` was not said."""
    if not os.path.lexists(path):
        return
    if not _is_one(path, kind):
        raise PressloreError(f"{path}: this is not {kind.name}, and is left alone: name another file")
    if not force:
        raise PressloreError(f"{path}: there is such a file already: name another, or add --force")


def _is_one(path: Path, kind: FileKind) -> bool:
    """What cannot be looked at is none of ours."""
    try:
        return kind.is_one(path)
    except OSError:
        return False
