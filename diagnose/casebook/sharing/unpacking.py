"""A bundle's bytes -> its texts, in memory and within limits. Nothing in it is trusted, nothing is written."""

import io
import re
import stat
import struct
import zipfile
import zlib
from collections import Counter
from collections.abc import Sequence
from pathlib import Path

from diagnose.casebook.sharing import bundle, manifest
from diagnose.casebook.sharing.bundle import MANIFEST, Bundle, refused, sha256
from diagnose.files.reading import read
from diagnose.knowledge.documents.schema_check import kept_words

_FAULTS = (
    zipfile.BadZipFile, zlib.error, struct.error, EOFError, OSError, ValueError, RuntimeError, LookupError,
    TypeError, AttributeError, OverflowError, AssertionError,
)  # fmt: skip
_BEGINNINGS = {b"PK": "a zip", b"\x1f\x8b": "a gzip", b"BZh": "a bzip2", b"\xfd7zXZ": "an xz", b"7z\xbc\xaf": "a 7z",
               b"Rar!": "a rar", b"\x28\xb5\x2f\xfd": "a zstd"}  # fmt: skip
_ARCHIVES = (".zip", ".gz", ".bz2", ".xz", ".7z", ".rar", ".tar", ".tgz", ".zst", ".jar", ".whl")
_ENCRYPTED = 0x1
_HARMLESS_DOS = 0x01 | 0x02 | 0x20 | 0x80  # read-only, hidden, to be archived, normal


def read_bundle(path: Path) -> Bundle:
    """The bundle in a file. Raises PressloreError with what is wrong with it."""
    return unpack(read(path, most=bundle.MOST_BYTES), str(path))


def unpack(data: bytes, shown: str) -> Bundle:
    """The bundle in some bytes; ``shown`` names it to a person. Raises PressloreError for anything that is no whole,
    harmless bundle."""
    if len(data) > bundle.MOST_BYTES:
        raise refused(shown, f"it is larger than {bundle.MOST_BYTES} bytes")
    if not data.startswith(b"PK\x03\x04"):
        raise refused(shown, "it is no zip file")
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            entries = archive.infolist()
            if wrong := _wrong_with(entries):
                raise refused(shown, wrong)
            found = {entry.orig_filename: _content(archive, entry, shown) for entry in entries}
    except _FAULTS as error:
        raise refused(shown, f"it is cut off or damaged ({error})") from error
    return _vouched(found, shown)


def _wrong_with(entries: Sequence[zipfile.ZipInfo]) -> str:
    """What the list of the files alone says against the bundle, "" where nothing."""
    if len(entries) > bundle.MOST_FILES:
        return f"it holds {len(entries)} files: expected at most {bundle.MOST_FILES}"
    names = [entry.orig_filename for entry in entries]
    lower = Counter(name.casefold() for name in names)
    for entry in entries:
        if entry.filename != entry.orig_filename:
            return f"{_quoted(entry.orig_filename)} goes by two names"
    for name in names:
        if wrong := _wrong_name(name):
            return f"{_quoted(name)} {wrong}"
    for name in names:
        if lower[name.casefold()] > 1:
            twice = names.count(name) > 1
            wrong = "stands in it twice" if twice else "differs from another name by small and capital letters alone"
            return f"{_quoted(name)} {wrong}"
    for entry in entries:
        if wrong := _wrong_entry(entry) or _unexpected(entry.orig_filename):
            return f"{_quoted(entry.orig_filename)} {wrong}"
    total = sum(entry.file_size for entry in entries)
    return f"it unpacks to {total} bytes: expected at most {bundle.MOST_BYTES}" if total > bundle.MOST_BYTES else ""


def _quoted(name: str) -> str:
    """A name as it may be shown: short, without control characters."""
    return ascii(name if len(name) <= 80 else f"{name[:77]}...")


def _wrong_name(name: str) -> str:
    if "\\" in name:
        return "has a backslash in its name"
    if re.match(r"[A-Za-z]:", name):
        return "begins with a drive letter"
    if name.startswith("/"):
        return "is an absolute path"
    if ".." in name.split("/"):
        return "leads out of the folder"
    return ""


def _unexpected(name: str) -> str:
    if name == MANIFEST:
        return ""
    if bundle.NAME.fullmatch(name):
        kept = kept_words().fullmatch(name.partition("/")[2].removesuffix(".yaml"))
        return "is called by a word that systems keep for themselves" if kept else ""
    if name.lower().endswith(_ARCHIVES):
        return "is an archive within the bundle"
    if name.endswith("/"):
        return "is a folder: expected files alone"
    if not name.endswith(".yaml"):
        return "has a wrong ending: expected .yaml"
    return "is no name of a bundle: expected kb/ or rules/, then small letters, digits and single hyphens, then .yaml"


def _wrong_entry(entry: zipfile.ZipInfo) -> str:
    mode = entry.external_attr >> 16
    if stat.S_IFMT(mode) == stat.S_IFLNK:
        return "is a link"
    if stat.S_IFMT(mode) == stat.S_IFDIR:
        return "is a folder: expected files alone"
    if stat.S_IFMT(mode) not in (0, stat.S_IFREG) or entry.external_attr & 0xFFFF & ~_HARMLESS_DOS:
        return "is a device or something else that is no plain file"
    if entry.flag_bits & _ENCRYPTED:
        return "is locked with a password"
    if entry.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
        return "is compressed in an unusual way"
    if entry.file_size > bundle.MOST_FILE_BYTES:
        return f"is {entry.file_size} bytes long: expected at most {bundle.MOST_FILE_BYTES}"
    if entry.file_size > bundle.RATIO_FROM and entry.file_size > bundle.MOST_RATIO * entry.compress_size:
        return f"swells to more than {bundle.MOST_RATIO} times its size"
    return ""


def _content(archive: zipfile.ZipFile, entry: zipfile.ZipInfo, shown: str) -> bytes:
    """The bytes of one file; never more than are allowed, whatever the bundle says of itself."""
    with archive.open(entry) as file:
        data = file.read(bundle.MOST_FILE_BYTES + 1)
    if len(data) != entry.file_size or len(data) > bundle.MOST_FILE_BYTES:
        raise refused(shown, f"{_quoted(entry.filename)} holds {len(data)} bytes where it claims {entry.file_size}")
    for beginning, what in _BEGINNINGS.items():
        if data.startswith(beginning):
            raise refused(shown, f"{_quoted(entry.filename)} is {what} archive within the bundle")
    return data


def _vouched(found: dict[str, bytes], shown: str) -> Bundle:
    """The bundle, every file of which is as the manifest says."""
    if MANIFEST not in found:
        raise refused(shown, f"it has no {MANIFEST}")
    date, sender, listed = manifest.read(found[MANIFEST], shown)
    data = {name: content for name, content in found.items() if name != MANIFEST}
    for name in sorted({*data, *listed}):
        if name not in listed:
            raise refused(shown, f"{MANIFEST} does not name {_quoted(name)}")
        if name not in data:
            raise refused(shown, f"{_quoted(name)} is missing, which {MANIFEST} names")
        if listed[name] != sha256(data[name]):
            raise refused(shown, f"{_quoted(name)} is not what {MANIFEST} vouches for")
    if not data:
        raise refused(shown, "there is nothing in it")
    files = {name: _text(name, data[name], shown) for name in sorted(data)}
    return Bundle(date=date, files=files, digest=sha256(found[MANIFEST]), sender=sender)


def _text(name: str, data: bytes, shown: str) -> str:
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        raise refused(shown, f"{_quoted(name)} is no UTF-8 text") from error
