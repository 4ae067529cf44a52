"""Job files, colour sheets, sessions, drafts, cases and bundles spoilt in every way: a value or PressloreError."""

import random
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import pytest

from diagnose.casebook.case import line
from diagnose.casebook.proposing.draft import read_draft
from diagnose.casebook.sharing.unpacking import unpack
from diagnose.casebook.store.importing import read_files
from diagnose.cli import exits
from diagnose.cli.ready.told import read_job
from diagnose.dialogue.saving import resumed, to_json
from diagnose.knowledge.model import Knowledge
from diagnose.press.colour.sheet import read_pairs
from diagnose.problems import PressloreError
from tests.casebook.quay import lay_out
from tests.casebook.some import some_case, some_cases
from tests.cli.playing import play
from tests.dialogue.saved import from_json
from tests.mutants import mutant

DRAFT = Path(__file__).parents[1] / "cases" / "harbour" / "cold-towels.yaml"
JOB = b"item: mug\nset: 385F\ndwell: 45s\nnot-so: [coating-is-whole]\npieces: 40\nfacts: {item.polyester: 65}\n"
SHEET = b'name,L,a,b\nproof red,52,40,20\nprint red,58,33,18\n"proof, blue",30,10,-40\n"print, blue",31,9,-42\n'
DAILY, ALL = 150, 3_000


@pytest.fixture(scope="module")
def bundle(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    folder = tmp_path_factory.mktemp("sharing")
    out = folder / "quay.zip"
    assert play(["rules", "share", "--shop", str(lay_out(folder / "quay")), "-o", str(out)])[0] == exits.GOOD
    return out.read_bytes()


def cases() -> bytes:
    return "".join(f"{line(case)}\n" for case in some_cases(6)).encode()


def session() -> bytes:
    return to_json(some_case(4).session, "1").encode()


def read_any(kind: str, data: bytes, path: Path, knowledge: Knowledge) -> object:
    path.write_bytes(data)
    if kind == "job":
        return read_job(path)
    if kind == "sheet":
        return read_pairs(data, "sheet.csv")
    if kind == "draft":
        return read_draft(path)
    if kind == "cases":
        return list(read_files([path]))
    if kind == "session":
        with suppress(UnicodeDecodeError):
            from_json(data.decode())
        return resumed(path, knowledge).session
    return unpack(data, "quay.zip")


GOOD: dict[str, Callable[[], bytes]] = {
    "job": lambda: JOB,
    "sheet": lambda: SHEET,
    "draft": DRAFT.read_bytes,
    "cases": cases,
    "session": session,
}
KINDS = pytest.mark.parametrize("kind", [*GOOD, "bundle"])


def spoil(kind: str, good: bytes, number: int, knowledge: Knowledge, folder: Path) -> None:
    """Read so many mutants of a file; a seed that ends in anything but a value or PressloreError is named."""
    read_any(kind, good, folder / "good", knowledge)
    failed = {}
    for seed in range(number):
        try:
            read_any(kind, mutant(good, random.Random(f"{kind} {seed}")), folder / "mutant", knowledge)
        except PressloreError:
            continue
        except Exception as error:
            failed[seed] = repr(error)[:300]
    assert failed == {}


@KINDS
def test_some_mutants(kind: str, bundle: bytes, knowledge: Knowledge, tmp_path: Path) -> None:
    spoil(kind, GOOD[kind]() if kind in GOOD else bundle, DAILY, knowledge, tmp_path)


@pytest.mark.thorough
@KINDS
def test_thousands_of_mutants(kind: str, bundle: bytes, knowledge: Knowledge, tmp_path: Path) -> None:
    spoil(kind, GOOD[kind]() if kind in GOOD else bundle, ALL, knowledge, tmp_path)
