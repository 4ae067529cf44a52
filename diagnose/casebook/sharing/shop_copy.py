"""A copy of what a shop knows, to try a bundle on: what is known with it, and what is wrong then."""

import os
import shutil
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from diagnose.files.writing import copy_folder
from diagnose.knowledge.folders import PARTS, SHOP_FILE, digest, read_folders
from diagnose.knowledge.loading import inspect
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.taken import RECORD, Record
from diagnose.problems import Collector, PressloreError, Problem


@dataclass(frozen=True, slots=True)
class ShopCopy:
    """A copy of what the shop knows, in a folder that goes again."""

    copy: Path
    folder: Path
    shipped: Path

    def lay_out(self, record: Record) -> None:
        """Copy the folder, with the bundles of a record in force."""
        try:
            for part in PARTS:
                (self.copy / part).mkdir(parents=True)
                if (self.folder / part).is_dir():
                    copy_folder(self.folder / part, self.copy / part)
            if (self.folder / SHOP_FILE).exists():
                shutil.copyfile(self.folder / SHOP_FILE, self.copy / SHOP_FILE)
            (self.copy / RECORD).write_bytes(record.data())
        except (OSError, shutil.Error) as error:
            raise PressloreError(f"{self.folder}: cannot be read ({error})") from error

    def with_bundle(self, files: Mapping[str, str], record: Record, shown: str) -> Knowledge:
        """What is known with these files, and the bundles of a record in force. Raises PressloreError."""
        for name, text in files.items():
            write(self.copy / name, text)
        (self.copy / RECORD).write_bytes(record.data())
        return self.knowledge(f"{shown}: not taken, it does not fit {self.folder}")

    def knowledge(self, otherwise: str) -> Knowledge:
        """What is known with the copy. Raises PressloreError, which begins with ``otherwise``."""
        found, problems = inspect(self.shipped, self.copy)
        if found is None or problems:
            raise self.refused(otherwise, problems)
        return found

    def refused(self, why: str, problems: list[Problem]) -> PressloreError:
        """The error that says why, and then every problem by its place in the shop's own folder."""
        return PressloreError("\n".join([f"{why}:", *(self.at_home(str(problem)) for problem in problems)]))

    def at_home(self, text: str) -> str:
        return text.replace(str(self.copy), str(self.folder))


def write(path: Path, text: str) -> None:
    """Write a new file and have the disk keep it, with the folders it needs. Raises OSError."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("w", encoding="utf-8", newline="") as file:
        file.write(text)
        file.flush()
        os.fsync(file.fileno())


def state_of(folder: Path, shipped: Path) -> str:
    """The digest of all of a shop's files that count."""
    return digest(read_folders((shipped, folder), Collector())[1:])
