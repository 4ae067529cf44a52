"""Puts the handbook's files where mkdocs reads them, and has mkdocs build the site, strictly."""

import json
import os
import subprocess
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path
from shutil import rmtree
from tempfile import TemporaryDirectory

from diagnose.handbook.page import offline
from diagnose.problems import PressloreError

SETTINGS = "mkdocs.yml"
DOCS = "docs"
SCREENSHOTS = "docs/screenshots"  # shown by the README; no part of the site
GENERATED = "docs/generated"  # where the settings look for the pages unless SOURCE_VARIABLE says otherwise
SOURCE_VARIABLE = "PRESSLORE_HANDBOOK_SOURCE"
CHANGES = "CHANGELOG.md"
SITE = "site"
SIGNS = ("WARNING", "ERROR", "Error", "Aborted", "Config")  # how lines begin that say what was wrong
BUILT_ON = "1767225600"  # mkdocs writes a date into the site; the same input is to give the same bytes


@dataclass(frozen=True, slots=True)
class Drift:
    """How the files on disk differ from those that would be written: paths, each in order."""

    new: tuple[str, ...] = ()
    changed: tuple[str, ...] = ()
    gone: tuple[str, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.new or self.changed or self.gone)


def read_docs(root: Path) -> dict[str, bytes]:
    """The hand-written files of the site, by path. Raises PressloreError where there are none."""
    docs, left_out = root / DOCS, (root / GENERATED, root / SCREENSHOTS)
    if not (root / SETTINGS).is_file() or not docs.is_dir():
        raise PressloreError("The handbook is built in a checkout of presslore: mkdocs.yml and docs/ are not here.")
    files = (path for path in sorted(docs.rglob("*")) if path.is_file() and not {*left_out} & {*path.parents})
    return {path.relative_to(docs).as_posix(): path.read_bytes() for path in files}


def read_changes(root: Path) -> str:
    """The text of the changelog, "" where there is none."""
    path = root / CHANGES
    return path.read_text(encoding="utf-8") if path.is_file() else ""


def read_own_settings(shop: Path | None) -> str:
    """The text of the settings in a shop's folder, "" where there are none. Raises PressloreError."""
    path = shop / SETTINGS if shop else None
    if path is None or not path.is_file():
        return ""
    try:
        return path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise PressloreError(f"{path}: cannot be read as text") from error


def drift(folder: Path, files: Mapping[str, bytes]) -> Drift:
    """What writing the files would change in a folder."""
    there = {path.relative_to(folder).as_posix(): path for path in folder.rglob("*") if path.is_file()}
    return Drift(
        new=tuple(sorted(set(files) - set(there))),
        changed=tuple(path for path in sorted(set(files) & set(there)) if there[path].read_bytes() != files[path]),
        gone=tuple(sorted(set(there) - set(files))),
    )


def write(folder: Path, files: Mapping[str, bytes]) -> Drift:
    """Make the folder hold these files and no others; what is right already is left alone."""
    found = drift(folder, files)
    for path in found.gone:
        (folder / path).unlink()
    for path in (*found.new, *found.changed):
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(files[path])
    return found


def build(root: Path, out: Path, source: Path | None = None, own: str = "") -> None:
    """Have mkdocs build ``out`` from the pages in ``source`` (None: docs/generated), strictly. A site built before
    gives way only to one that is whole. ``own``: the text of a shop's settings, laid over those of the checkout.
    Raises PressloreError with what mkdocs complained of."""
    if find_spec("mkdocs") is None or find_spec("material") is None:
        raise PressloreError("mkdocs-material is not installed. In a checkout, ./dev handbook installs it and builds.")
    out = out.absolute()
    fresh = out.with_name(f"{out.name}.new")
    rmtree(fresh, ignore_errors=True)
    try:
        with _settings(root, own) as config:
            _run_mkdocs(root, config, (source or root / GENERATED).absolute(), fresh)
        for path, content in offline.worker_for(fresh).items():
            (fresh / path).write_bytes(content)
        rmtree(out, ignore_errors=True)
        fresh.rename(out)
    finally:
        rmtree(fresh, ignore_errors=True)


@contextmanager
def _settings(root: Path, own: str) -> Iterator[Path]:
    """The file of settings: the checkout's, or one that inherits from it and adds the shop's."""
    if not own.strip():
        yield root / SETTINGS
        return
    with TemporaryDirectory() as folder:
        config = Path(folder) / SETTINGS
        config.write_text(f"INHERIT: {json.dumps(str((root / SETTINGS).absolute()))}\n{own}", encoding="utf-8")
        yield config


def _run_mkdocs(root: Path, config: Path, source: Path, out: Path) -> None:
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "--clean"]
    command += [f"--config-file={config}", f"--site-dir={out}"]
    settings = {SOURCE_VARIABLE: str(source), "SOURCE_DATE_EPOCH": BUILT_ON, "NO_MKDOCS_2_WARNING": "1"}
    done = subprocess.run(
        command, capture_output=True, text=True, errors="replace", cwd=root, env={**os.environ, **settings}
    )
    if done.returncode:
        raise PressloreError(_complaints(done.stdout + done.stderr))


def _complaints(printed: str) -> str:
    lines = [line for line in printed.splitlines() if line.startswith(SIGNS)]
    return "\n".join(["mkdocs refused the handbook:", *(lines or printed.splitlines()[-20:])])
