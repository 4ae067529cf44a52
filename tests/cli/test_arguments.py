"""No call ends in a traceback, in an exit code that is not promised, in a hang, or with a character on the screen that
acts on a terminal: whatever the arguments, the streams and the folder are. What the last net catches counts as wrong:
it names a fault of presslore's own."""

import json
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from diagnose.casebook.case import line
from diagnose.casebook.store.casebook import open_book
from diagnose.cli import exits
from tests.casebook.quay import lay_out
from tests.casebook.some import some_cases
from tests.cli import arguments
from tests.cli.playing import AT_ROOT, play

SHEET = "name,L,a,b\nproof red,52,40,20\nprint red,58,33,18\n"
JOB = "item: mug\nset: 385F\ndwell: 45s\n"
DRAFT = Path(__file__).parents[1] / "cases" / "harbour" / "cold-towels.yaml"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with a template of what each call finds where it stands."""
    fill(tmp_path / "template")
    return tmp_path


def fill(template: Path) -> None:
    """Lay out the good files that a call may name."""
    template.mkdir()
    lay_out(template / "shop")
    shutil.copy(DRAFT, template / "draft.yaml")
    (template / "sheet.csv").write_text(SHEET, encoding="utf-8")
    (template / "job.yaml").write_text(JOB, encoding="utf-8")
    with open_book(template / "book.sqlite3") as book:
        book.add(some_cases(3))
    lines = "".join(f"{line(case)}\n" for case in some_cases(4, first=10))
    (template / "cases.jsonl").write_text(lines, encoding="utf-8")
    assert play(["rules", "share", "--shop", str(template / "shop"), "-o", str(template / "quay.zip")])[0] == exits.GOOD
    save = ["diagnose", "--item", "mug", "--saw", "ghosting", "--save", str(template / "session.json")]
    assert play(save, ["s"], somebody=True)[0] == exits.GOOD


def went_wrong(folder: Path, seed: int, first: int, number: int) -> list[object]:
    command = [sys.executable, "-P", arguments.__file__, str(folder), *map(str, (seed, first, number))]
    done = subprocess.run(command, env=AT_ROOT, capture_output=True, text=True, check=True)
    return [json.loads(line) for line in done.stdout.splitlines()]


@pytest.mark.slow
def test_no_call_of_two_hundred_ends_badly(folder: Path) -> None:
    assert went_wrong(folder, 2026, 0, 200) == []


@pytest.mark.thorough
@pytest.mark.parametrize("first", range(0, 10_000, 1000))
def test_no_call_of_ten_thousand_ends_badly(folder: Path, first: int) -> None:
    assert went_wrong(folder, 1, first, 1000) == []
