"""Puts the handbook's files where mkdocs reads them, and has mkdocs build the site, strictly."""

import json
import os
import subprocess
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path
from tempfile import TemporaryDirectory
from types import MappingProxyType

from diagnose.handbook import placing
from diagnose.handbook.page import offline
from diagnose.pace import Far, unheard
from diagnose.problems import PressloreError

SETTINGS = "mkdocs.yml"
DOCS = "docs"
GENERATED = "docs/generated"  # where the settings look for the pages unless SOURCE_VARIABLE says otherwise
SCREENSHOTS = "docs/screenshots"  # shown by the README
LEFT_OUT = (GENERATED, SCREENSHOTS, "docs/decisions")  # folders of docs/ for who reads the checkout
SOURCE_VARIABLE = "PRESSLORE_HANDBOOK_SOURCE"
CHANGES = "CHANGELOG.md"
SITE = "site"
SIGNS = ("WARNING", "ERROR", "Error", "Aborted", "Config")  # how lines begin that say what was wrong
LOOK = 0.5  # seconds between two looks at how many pages are built
NONE: Mapping[str, str] = MappingProxyType({})
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
    """The hand-written files of the site, by path: those in the folders of docs/. What lies in docs/ itself is for who
    reads the checkout. Raises PressloreError where there are none."""
    docs, left_out = root / DOCS, {root / folder for folder in LEFT_OUT}
    if not (root / SETTINGS).is_file() or not docs.is_dir():
        raise PressloreError(f"{root}: mkdocs.yml and docs/ are not here, so no handbook can be built: install again")
    files = (path for path in sorted(docs.glob("*/**/*")) if path.is_file() and not left_out & {*path.parents})
    return {path.relative_to(docs).as_posix(): path.read_bytes() for path in files}


def read_changes(root: Path) -> str:
    """The text of the changelog, "" where there is none."""
    path = root / CHANGES
    return path.read_text(encoding="utf-8") if path.is_file() else ""


def is_installed(root: Path) -> bool:
    """Whether what ships lies within the package, so that nothing is drawn or built there."""
    return Path(__file__).parent.parent.resolve() in root.resolve().parents


def prove_tools() -> None:
    """Raises PressloreError where what builds a site is not installed."""
    if find_spec("mkdocs") is None or find_spec("material") is None:
        raise PressloreError(
            "mkdocs-material, which builds the handbook, is not installed. In a checkout: ./dev handbook installs it "
            'and builds. Else install presslore with it, its wheel or folder named so: "presslore[handbook]"'
        )


@contextmanager
def pages_folder(root: Path) -> Iterator[Path]:
    """Where the drawn pages go: docs/generated of a checkout; else a folder of their own that is gone afterwards."""
    if not is_installed(root):
        yield root / GENERATED
        return
    with TemporaryDirectory(prefix="presslore-") as folder:
        yield Path(folder)


def drift(folder: Path, files: Mapping[str, bytes]) -> Drift:
    """What writing the files would change in a folder. A link in it is gone afterwards, whatever it leads to."""
    there, links = _held(folder)
    wanted = set(files) - {placing.MARK}
    return Drift(
        new=tuple(sorted(wanted - set(there))),
        changed=tuple(path for path in sorted(wanted & set(there)) if there[path].read_bytes() != files[path]),
        gone=tuple(sorted(set(there) - wanted | links)),
    )


def write(folder: Path, files: Mapping[str, bytes]) -> Drift:
    """Make the folder hold these files and no others; what is right already is left alone.

    Raises PressloreError where the folder holds what presslore did not make.
    """
    placing.prove(folder)
    folder.mkdir(parents=True, exist_ok=True)
    placing.mark(folder)
    found = drift(folder, files)
    for path in found.gone:
        (folder / path).unlink()
    for path in (*found.new, *found.changed):
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(files[path])
    return found


def _held(folder: Path) -> tuple[dict[str, Path], set[str]]:
    """The files of a folder by their path in it, and the links; its mark is left out."""
    there, links = dict[str, Path](), set[str]()
    for where, folders, files in os.walk(folder):
        for path in (Path(where) / name for name in (*folders, *files)):
            name = path.relative_to(folder).as_posix()
            if path.is_symlink():
                links.add(name)
            elif name != placing.MARK and not path.is_dir():
                there[name] = path
    return there, links


def build(
    root: Path,
    out: Path,
    source: Path | None = None,
    own: Mapping[str, str] = NONE,
    kept: Iterable[Path] = (),
    far: Far = unheard,
) -> None:
    """Have mkdocs build ``out`` from the pages in ``source`` (None: docs/generated), strictly. A site built before
    gives way only to one that is whole, and nothing else does. ``own``: a shop's settings, laid over those of the
    checkout; ``kept``: folders that may not be built over, beside the checkout.

    Raises PressloreError with what mkdocs complained of, or why ``out`` cannot be replaced.
    """
    prove_tools()
    with placing.replacing(out, (root, *kept)) as fresh:
        with _settings(root, own) as config:
            _run_mkdocs(root, config, (source or root / GENERATED).absolute(), fresh, far)
        for path, content in offline.worker_for(fresh).items():
            (fresh / path).write_bytes(content)


@contextmanager
def _settings(root: Path, own: Mapping[str, str]) -> Iterator[Path]:
    """The file of settings: the checkout's, or one that inherits from it and adds the shop's."""
    if not own:
        yield root / SETTINGS
        return
    with TemporaryDirectory() as folder:
        config = Path(folder) / SETTINGS
        lines = {"INHERIT": str((root / SETTINGS).absolute()), **own}
        config.write_text("".join(f"{key}: {json.dumps(value)}\n" for key, value in lines.items()), encoding="utf-8")
        yield config


def _run_mkdocs(root: Path, config: Path, source: Path, out: Path, far: Far) -> None:
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "--clean"]
    command += [f"--config-file={config}", f"--site-dir={out}"]
    settings = {SOURCE_VARIABLE: str(source), "SOURCE_DATE_EPOCH": BUILT_ON, "NO_MKDOCS_2_WARNING": "1"}
    process = subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace", cwd=root,
        env={**os.environ, **settings},
    )  # fmt: skip
    with process:
        try:
            said = _heard(process, lambda: far(min(1.0, _count(out, "*.html") / max(1, _count(source, "*.md")))))
        except BaseException:
            process.kill()
            raise
    if process.returncode:
        raise PressloreError(_complaints(said))
    far(1.0)


def _heard(process: "subprocess.Popen[str]", look: Callable[[], object]) -> str:
    """What a process prints until its end. mkdocs says how far it is only where it leaves anchors unchecked
    (``--verbose``), so that what it has built is looked at now and then."""
    while True:
        try:
            return process.communicate(timeout=LOOK)[0]
        except subprocess.TimeoutExpired:
            look()


def _count(folder: Path, pattern: str) -> int:
    return sum(1 for _ in folder.rglob(pattern))


def _complaints(printed: str) -> str:
    lines = [line for line in printed.splitlines() if line.startswith(SIGNS)]
    return "\n".join(["mkdocs refused the handbook:", *(lines or printed.splitlines()[-20:])])
