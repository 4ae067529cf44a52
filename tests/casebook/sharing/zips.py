"""Bundles to test with: a good one, and the same with something wrong."""

import io
import json
import warnings
import zipfile
from collections.abc import Iterable

from diagnose.casebook.sharing.bundle import FORMAT, MANIFEST, VERSION, sha256

KB, RULES = "kb/entries.yaml", "rules/faint-colour.yaml"
GOOD = {KB: b"causes: {}\n", RULES: b"adds-to: faint-colour\n"}


def zipped(entries: Iterable[tuple[str | zipfile.ZipInfo, bytes]], how: int = zipfile.ZIP_STORED) -> bytes:
    """A zip file of these entries, whatever they are."""
    whole = io.BytesIO()
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", UserWarning)  # of names that stand twice
        with zipfile.ZipFile(whole, "w", how) as archive:
            for name, data in entries:
                archive.writestr(name, data)
    return whole.getvalue()


def manifest(files: dict[str, bytes], /, **other: object) -> bytes:
    """A manifest that vouches for these files, but for what is given otherwise."""
    listed = {name: {"bytes": len(data), "sha256": sha256(data)} for name, data in files.items()}
    plain = {"format": FORMAT, "version": VERSION, "date": "2026-11-20", "files": listed, **other}
    return json.dumps(plain).encode()


def bundled(files: dict[str, bytes], how: int = zipfile.ZIP_STORED, **other: object) -> bytes:
    """A bundle of these files, whose manifest vouches for them."""
    return zipped([(MANIFEST, manifest(files, **other)), *files.items()], how)


def odd(name: str, mode: int) -> zipfile.ZipInfo:
    """An entry that says of itself that it is something other than a plain file."""
    entry = zipfile.ZipInfo(name)
    entry.create_system, entry.external_attr = 3, mode << 16
    return entry
