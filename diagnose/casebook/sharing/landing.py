"""Puts a bundle that fits in force, whole or not at all, and takes the last such taking back."""

import os
import shutil
import tempfile
from collections.abc import Collection, Iterator
from contextlib import contextmanager
from pathlib import Path

from diagnose.casebook.sharing.shop_copy import ShopCopy, state_of, write
from diagnose.casebook.sharing.taking import Taking
from diagnose.files.locks import locked
from diagnose.files.writing import settle, write_over
from diagnose.knowledge import taken
from diagnose.knowledge.folders import PARTS
from diagnose.knowledge.taken import PREFIX, RECORD, Record, TakenBundle
from diagnose.problems import PressloreError

SCRATCH = ".taking-"


class ChangedMeanwhile(PressloreError):
    """Somebody changed the shop's files since they were tried; nothing was written, and it may be tried anew."""


def land(taking: Taking) -> None:
    """Put the bundle in force, whole or not at all. Raises ChangedMeanwhile where somebody changed the shop's files
    since they were tried, and PressloreError where they cannot be written."""
    folder = taking.folder
    others = tuple(one for one in taking.record.bundles if one != taking.replaces)
    new = Record((*others, taking.as_taken), taking.record.bundles)
    with _alone(folder, taking.record, taking.state, taking.shipped):
        _sweep(folder, taking.record.folders)
        _put_down(taking, new)
        _sweep(folder, new.folders)


def take_back(folder: Path, shipped: Path) -> tuple[TakenBundle, ...]:
    """Undo the last taking: what was in force before it is so again, to the letter. Returns the bundles that went.
    Raises PressloreError where there is nothing to take back, or where the shop's own files lean on what would go."""
    record, state = taken.read(folder), state_of(folder, shipped)
    if record.before is None:
        raise PressloreError(f"{folder}: no taking of a bundle to take back")
    back = Record(record.before)
    with tempfile.TemporaryDirectory(prefix="presslore-") as scratch:
        trial = ShopCopy(Path(scratch) / "shop", folder, shipped)
        trial.lay_out(back)
        trial.knowledge(f"{folder}: not taken back, your own files lean on the bundle")
    with _alone(folder, record, state, shipped):
        write_over(folder / RECORD, back.data())
        _sweep(folder, back.folders)
    return tuple(one for one in record.bundles if one not in back.bundles)


@contextmanager
def _alone(folder: Path, record: Record, state: str, shipped: Path) -> Iterator[None]:
    """Keep everybody else from the shop's files, which must be as they were when they were looked at."""
    try:
        for part in PARTS:
            (folder / part).mkdir(exist_ok=True)
        with locked([folder, *(folder / part for part in PARTS)]):
            if taken.read(folder) != record or state_of(folder, shipped) != state:
                raise ChangedMeanwhile(
                    f"{folder}: somebody changed its files meanwhile; nothing was written: try again"
                )
            yield
    except OSError as error:
        why = error.strerror or error
        raise PressloreError(f"{folder}: cannot be written to ({why}); nothing was taken") from error


def _put_down(taking: Taking, new: Record) -> None:
    """Lay the files beside those in force, then put them in force by the record. Left undone, nothing of them stays."""
    folder, name = taking.folder, taking.as_taken.folder
    began = not (folder / RECORD).exists()
    parts = sorted({path.split("/")[0] for path in taking.files})
    try:
        if began:  # from here on, folders that the record does not name are passed over
            write_over(folder / RECORD, taking.record.data())
        with tempfile.TemporaryDirectory(dir=folder, prefix=SCRATCH) as scratch:
            for path, text in taking.files.items():
                write(Path(scratch) / path, text)
            for part in parts:
                os.rename(Path(scratch) / part / name, folder / part / name)
        settle([folder / part for part in parts])
        write_over(folder / RECORD, new.data())
    except BaseException:
        if taken.read(folder) != new:
            for part in parts:
                shutil.rmtree(folder / part / name, ignore_errors=True)
            if began:
                (folder / RECORD).unlink(missing_ok=True)
        raise


def _sweep(folder: Path, named: Collection[str]) -> None:
    """Remove what was laid down and is named no longer, and what a taking left that was stopped."""
    for path in folder.glob(SCRATCH + "*"):
        shutil.rmtree(path, ignore_errors=True)
    if (folder / RECORD).exists():
        for part in PARTS:
            for path in (folder / part).glob(PREFIX + "*"):
                if path.is_dir() and not path.is_symlink() and path.name not in named:
                    shutil.rmtree(path, ignore_errors=True)
