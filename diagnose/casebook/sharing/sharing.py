"""From a shop's folder to a bundle of its settled rules."""

import io
import re
import tempfile
import zipfile
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from diagnose.casebook.sharing import manifest
from diagnose.casebook.sharing.bundle import MANIFEST, NOBODY, Bundle, Sender
from diagnose.casebook.sharing.contents import contents
from diagnose.casebook.sharing.picking import Picked, pick
from diagnose.casebook.sharing.shop_files import ShopFiles, Values
from diagnose.casebook.sharing.unpacking import unpack
from diagnose.casebook.writing.rendering import block
from diagnose.knowledge.documents.in_full import in_full
from diagnose.knowledge.documents.yaml_text import read_yaml
from diagnose.knowledge.folders import Folder, read_folders
from diagnose.knowledge.loading import inspect, load
from diagnose.problems import Collector, PressloreError
from diagnose.reasoning.worked_cases import broken_cases

_LONG_AGO = (1980, 1, 1, 0, 0, 0)  # the first moment that a zip file has a number for
_PLAIN_FILE = 0o100644 << 16


HEAD = "# Settled rules of one shop, for others to lay over theirs: presslore rules take BUNDLE.\n"
LEAST_NAME = 4  # letters: shorter names stand in too many words


@dataclass(frozen=True, slots=True)
class SharedBundle:
    """A bundle's bytes, the bundle as it is read from them, and what was picked for it."""

    data: bytes
    bundle: Bundle
    picked: Picked


def share(folder: Path, shipped: Path, names: Iterable[str] = (), sender: Sender = NOBODY) -> SharedBundle:
    """The bundle of a shop's folder. ``names`` must not stand in its texts: the shop's own, its address. Raises
    PressloreError where the folder has faults, where nothing is settled, where a name stands in what would be shared,
    and where what is settled does not stand without the rest."""
    picked = pick(_files(folder, shipped))
    if not picked.rules:
        left = sum(picked.left.values())
        raise PressloreError(f"{folder}: no rule of its own is settled, so there is nothing to share ({left} stay out)")
    texts = {name: HEAD + block(values, 0) + "\n" for name, values in picked.files.items()}
    _refuse_names(texts, names)
    data = pack(texts, picked.date, sender)
    return SharedBundle(data, _sound(data, shipped), picked)


def _files(folder: Path, shipped: Path) -> ShopFiles:
    load(shipped, folder)  # names every fault there is
    found = Collector()
    _, own = read_folders((shipped, folder), found)
    found.raise_if_any()
    return ShopFiles(_values(own, "kb"), _values(own, "rule"), load(shipped))


def _values(folder: Folder, kind: str) -> tuple[Values, ...]:
    read = (read_yaml(file.data, file.shown)[0] for file in folder.files if file.kind == kind)
    values = (in_full(document, kind).value for document in read if document)
    return tuple(value for value in values if isinstance(value, dict))


def _refuse_names(texts: Mapping[str, str], names: Iterable[str]) -> None:
    for name in names:
        if len(name.strip()) < LEAST_NAME:
            continue
        words = r"\s+".join(map(re.escape, name.split()))
        for file, text in texts.items():
            if re.search(rf"(?<!\w){words}(?!\w)", text, re.IGNORECASE):
                raise PressloreError(
                    f'"{name}" would stand in {file} of the bundle, and names stay in the shop: '
                    "put it in other words in your own files, then share"
                )


def _sound(data: bytes, shipped: Path) -> Bundle:
    """The bundle, which must be one that another shop can take: read back as it will be, and laid over what ships."""
    bundle = unpack(data, "the bundle")
    contents(bundle, "the bundle")
    with tempfile.TemporaryDirectory(prefix="presslore-") as scratch:
        for name, text in bundle.files.items():
            path = Path(scratch) / name
            path.parent.mkdir(exist_ok=True)
            path.write_text(text, encoding="utf-8")
        knowledge, problems = inspect(shipped, Path(scratch))
        if knowledge is not None:
            problems += [problem for _, _, problem in broken_cases(knowledge)]
        told = "\n".join(str(problem).replace(scratch, "the bundle") for problem in problems)
    if problems:
        raise PressloreError(f"What is settled does not stand without what stays in the shop:\n{told}")
    return bundle


def pack(files: Mapping[str, str], day: str, sender: Sender = NOBODY) -> bytes:
    """The bundle of some texts by name. They are stored as they are: how well a text is compressed hangs on the
    library, and they are short."""
    data = {name: files[name].encode() for name in sorted(files)}
    whole = io.BytesIO()
    with zipfile.ZipFile(whole, "w", zipfile.ZIP_STORED) as archive:
        for name, content in {MANIFEST: manifest.write(data, day, sender), **data}.items():
            entry = zipfile.ZipInfo(name, _LONG_AGO)
            entry.create_system, entry.external_attr = 3, _PLAIN_FILE
            archive.writestr(entry, content)
    return whole.getvalue()
