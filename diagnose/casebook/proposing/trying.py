"""Tries changed files in a copy of the shop's folder: what is wrong with them, and what they do to the worked cases."""

import shutil
import tempfile
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from diagnose.casebook.answers import OtherAnswer, changes
from diagnose.casebook.writing.yaml_edit import YamlFile
from diagnose.files.writing import copy_folder
from diagnose.knowledge.loading import SHOP_FILE, inspect, shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.knowledge.taken import RECORD
from diagnose.problems import Problem
from diagnose.reasoning.worked_cases import broken_cases


@dataclass(frozen=True, slots=True)
class Trial:
    """``problems``: all that is wrong afterwards, placed in the shop's own files. ``changes``: the worked cases whose
    answer is another one. ``knowledge``: what is known then, None where it cannot be told."""

    problems: tuple[Problem, ...]
    changes: tuple[OtherAnswer, ...] = ()
    knowledge: Knowledge | None = None


def attempt(
    files: Sequence[YamlFile], shop_folder: Path, before: Knowledge, shop: Shop, shipped: Path | None = None
) -> Trial:
    """What the shop's folder would be with these files. The folder itself is not touched."""
    with tempfile.TemporaryDirectory(prefix="presslore-") as scratch:
        copy = Path(scratch) / "shop"
        _copied(files, shop_folder, copy)
        after, found = inspect(shipped or shipped_folder(), copy)
        problems = [_placed(problem, copy, shop_folder) for problem in found]
        if after is None or problems:
            return Trial(tuple(problems))
        broken = [_placed(problem, copy, shop_folder) for _, _, problem in broken_cases(after)]
    return Trial(tuple(broken), tuple(changes(before, after, shop)), after)


def _copied(files: Iterable[YamlFile], shop_folder: Path, copy: Path) -> None:
    for part in ("kb", "rules"):
        (copy / part).mkdir(parents=True)
        if (shop_folder / part).is_dir():
            copy_folder(shop_folder / part, copy / part)
    for name in (SHOP_FILE, RECORD):  # presses may be named by conditions; bundles are in force by the record
        if (shop_folder / name).is_file():
            shutil.copy(shop_folder / name, copy / name)
    for file in files:
        target = copy / file.path.relative_to(shop_folder)
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(file.data)


def _placed(problem: Problem, copy: Path, shop_folder: Path) -> Problem:
    """The problem with its place, and the places in its hint, in the shop's own folder."""
    there, here = str(copy), str(shop_folder)
    place = replace(problem.place, file=problem.place.file.replace(there, here))
    return replace(problem, place=place, hint=problem.hint.replace(there, here))
