"""The files of a knowledge folder: which there are, what they hold, how they are shown."""

import os
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from hashlib import blake2b
from itertools import islice
from pathlib import Path
from typing import Literal

from diagnose.files.reading import read as read_file
from diagnose.knowledge import taken
from diagnose.knowledge.limits import MOST_BYTES, MOST_FILE_BYTES, MOST_FILES, MOST_WAYS_FILES, SPLIT
from diagnose.knowledge.model import SHIPPED, THIS_SHOP
from diagnose.problems import Collector, Place, PressloreError

PARTS: dict[str, Literal["kb", "rule"]] = {"kb": "kb", "rules": "rule"}
SHOP_FILE = "shop.yaml"
WAYS = "kb/ways/"
OF_DEFECTS = f"{WAYS}defects/"  # those that belong to the knowledge itself


@dataclass(frozen=True, slots=True)
class SourceFile:
    """A file as read: ``name`` within its folder, with forward slashes, ``shown`` as a reader finds it. ``origin``:
    whose it is where it is not the folder's own."""

    name: str
    shown: str
    kind: Literal["kb", "rule", "shop", "ways"]
    data: bytes
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Folder:
    """A folder's files in the order of their names. The first of several folders holds what ships."""

    origin: str
    files: tuple[SourceFile, ...]


def shipped_folder() -> Path:
    """The folder with what ships: beside the package in a checkout, inside it when installed."""
    package = Path(__file__).resolve().parent.parent
    checkout = package.parent
    beside = (checkout / "kb").is_dir() and (checkout / "rules").is_dir()
    return checkout if beside else package / "shipped"


def read_folders(paths: Iterable[Path], found: Collector, *, all_ways: bool = False) -> tuple[Folder, ...]:
    """Every file under ``kb/`` and ``rules/`` of each folder, and the ``shop.yaml`` of a shop's. A shop may be named
    by that file. Of the ways of saying those of defects, for the first question waits for what is read here;
    ``all_ways`` brings the others too. What cannot be read is a problem."""
    shipped, *shops = map(Path, paths)
    ways = WAYS if all_ways else OF_DEFECTS
    folders = [Folder(SHIPPED, tuple(_files(shipped, SHIPPED, ways, found)))]
    return (*folders, *(Folder(THIS_SHOP, tuple(_shop_files(shop, shipped, ways, found))) for shop in shops))


def read_ways(paths: Iterable[Path], found: Collector) -> tuple[Folder, ...]:
    """Of each folder, the first of which holds what ships, the ways of saying and nothing else."""
    roots = [path.parent if path.is_file() else path for path in map(Path, paths)]
    origins = [SHIPPED, *[THIS_SHOP] * (len(roots) - 1)]
    return tuple(
        Folder(origin, tuple(_within_bytes(root, _ways_files(root, WAYS, found), found)))
        for origin, root in zip(origins, roots, strict=True)
    )


def digest(folders: Iterable[Folder], *, all_ways: bool = False) -> str:
    """A short hexadecimal digest of the content and the names of all files that knowledge is compiled from: the same,
    whether all ways of saying were read or only those of defects. ``all_ways``: of the others too."""
    state = blake2b(digest_size=16)
    for folder in folders:
        ways = WAYS if all_ways else OF_DEFECTS
        files = [file for file in folder.files if file.kind != "ways" or file.name.startswith(ways)]
        state.update(f"{folder.origin} {len(files)}\n".encode())
        for file in files:
            state.update(f"{len(file.data)} {file.name}\n".encode("utf-8", "surrogateescape"))
            state.update(file.data + (b"\n" + file.origin.encode() if file.origin else b""))
    return state.hexdigest()


def _shop_files(shop: Path, shipped: Path, ways: str, found: Collector) -> Iterator[SourceFile]:
    """The files of a shop, its shop.yaml last. Where that lies in the folder that ships, it is all there is."""
    file = shop if shop.is_file() else shop / SHOP_FILE
    if not (file.is_file() and file.parent.resolve() == shipped.resolve()):
        yield from _files(file.parent, THIS_SHOP, ways, found)
    if file.exists():
        yield from _read(file, file.name, "shop", found)


def _files(folder: Path, origin: str, ways: str, found: Collector) -> Iterator[SourceFile]:
    wanted = (folder / part for part in PARTS) if origin == SHIPPED else [folder]  # a shop may have none yet
    if not any(path.is_dir() for path in wanted):
        found.add(
            Place(_shown(folder)),
            "no-knowledge",
            "there is no knowledge here",
            expected="a folder that holds kb/ or rules/",
        )
        return
    names = list(islice((name for part in PARTS for name in _names(folder, part, found)), MOST_FILES + 1))
    if len(names) > MOST_FILES:
        wrong = f"more than {MOST_FILES:,} files below kb/ and rules/"
        found.add(Place(_shown(folder)), "too-many-files", wrong, hint=SPLIT)
        return
    whose = _origins(folder, found) if origin == THIS_SHOP else {}
    read = [file for name in sorted(names) if _counts(name, whose) for file in _of_folder(folder, name, whose, found)]
    yield from _within_bytes(folder, [*read, *_ways_files(folder, ways, found)], found)


def _ways_files(folder: Path, ways: str, found: Collector) -> list[SourceFile]:
    names = list(islice(_names(folder, ways.rstrip("/"), found, (".txt",)), MOST_WAYS_FILES + 1))
    if len(names) > MOST_WAYS_FILES:
        found.add(
            Place(_shown(folder)), "too-many-files", f"more than {MOST_WAYS_FILES:,} files below {WAYS}", hint=SPLIT
        )
        return []
    return [file for name in sorted(names) for file in _read(folder / name, name, "ways", found)]


def _within_bytes(folder: Path, files: list[SourceFile], found: Collector) -> list[SourceFile]:
    """The files of a folder, none of them where they are too large together."""
    if sum(len(file.data) for file in files) <= MOST_BYTES:
        return files
    wrong = f"more than {MOST_BYTES:,} bytes in the files below kb/ and rules/"
    found.add(Place(_shown(folder)), "folder-size", wrong, hint=SPLIT)
    return []


def _of_folder(folder: Path, name: str, whose: Mapping[str, str], found: Collector) -> Iterator[SourceFile]:
    part, within = name.split("/")[:2]
    return _read(folder / name, name, PARTS[part], found, whose.get(within, ""))


def _counts(name: str, whose: Mapping[str, str]) -> bool:
    """Whether a file is in force: all are but those in the folders of bundles that are not."""
    within = name.split("/")[1]
    return not within.startswith(taken.PREFIX) or name.count("/") < 2 or within in whose


def _origins(folder: Path, found: Collector) -> dict[str, str]:
    """The folders of bundles in force, by name, each with what the bundle is called."""
    try:
        return {bundle.folder: bundle.origin for bundle in taken.read(folder).bundles}
    except PressloreError as error:
        found.take(error.problems)
        return {}


def _read(
    path: Path, name: str, kind: Literal["kb", "rule", "shop", "ways"], found: Collector, origin: str = ""
) -> Iterator[SourceFile]:
    shown = _shown(path)
    try:
        yield SourceFile(name, shown, kind, read_file(path, most=MOST_FILE_BYTES, shown=shown), origin)
    except PressloreError as error:
        found.take(error.problems)


def _names(folder: Path, part: str, found: Collector, endings: tuple[str, ...] = (".yaml", ".yml")) -> Iterator[str]:
    for parent, _, files in os.walk(folder / part, onerror=lambda error: _cannot_list(error, found)):
        within = os.path.relpath(parent, folder).replace(os.sep, "/")
        yield from (f"{within}/{file}" for file in files if file.endswith(endings) and file[0] != ".")


def _cannot_list(error: OSError, found: Collector) -> None:
    """A folder that cannot be listed is a problem; one that is not there is none."""
    if not isinstance(error, FileNotFoundError):
        found.add(Place(_shown(Path(error.filename))), "unreadable-folder", f"cannot be read ({error.strerror})")


def _shown(path: Path) -> str:
    """The path from the working folder where it lies below that, else the whole path."""
    whole = os.path.abspath(path)
    try:
        here = os.path.join(os.getcwd(), "")
    except OSError:  # the working folder is gone
        return whole
    return whole[len(here) :].replace(os.sep, "/") if whole.startswith(here) else whole
