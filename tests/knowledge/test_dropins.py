"""Whole folders: each under ``valid/`` loads; each under ``invalid/`` gives the messages of its expected.txt.

To add one, drop a folder with kb/ and rules/ there; a folder shop/ in it is laid over those.
Nothing here needs to be changed.
"""

from pathlib import Path

import pytest

from diagnose.knowledge.crosscheck.registry import CHECKS
from diagnose.knowledge.loading import inspect

HERE = Path(__file__).parent
VALID = sorted(path for path in (HERE / "valid").iterdir() if path.is_dir())
INVALID = sorted(path for path in (HERE / "invalid").iterdir() if path.is_dir())


@pytest.mark.parametrize("folder", VALID, ids=lambda folder: folder.name)
def test_valid(folder: Path) -> None:
    knowledge, problems = inspect(folder)
    assert problems == []
    assert knowledge is not None


@pytest.mark.parametrize("folder", INVALID, ids=lambda folder: folder.name)
def test_invalid(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(folder)
    _, problems = inspect(Path(), *_shop(Path()))
    expected = (folder / "expected.txt").read_text(encoding="utf-8")
    assert "".join(f"{problem}\n" for problem in problems) == expected


def _shop(folder: Path) -> list[Path]:
    return [shop] if (shop := folder / "shop").is_dir() else []


def test_five_mistakes_are_reported_at_once() -> None:
    _, problems = inspect(HERE / "invalid" / "five-mistakes")
    assert len(problems) == 5
    assert len({problem.code for problem in problems}) == 5
    assert all(problem.place.line and problem.place.column for problem in problems)


def test_every_cross_check_has_a_folder() -> None:
    codes = {problem.code for folder in INVALID for problem in inspect(folder, *_shop(folder))[1]}
    assert {check.code for check in CHECKS} - codes == set()


def test_codes_of_cross_checks_differ() -> None:
    codes = [check.code for check in CHECKS]
    assert len(codes) == len(set(codes))
