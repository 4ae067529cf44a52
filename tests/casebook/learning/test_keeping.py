"""What was learnt goes into the shop's folder with the smallest change, is read back as it was, and is taken back."""

from pathlib import Path

import pytest

from diagnose.casebook.learning.keeping import BEFORE, FILE, apply, undo
from diagnose.casebook.learning.lesson import Lesson, take_lesson
from diagnose.knowledge.learned import unlearned, with_numbers
from diagnose.knowledge.loading import inspect, load, shipped_folder
from diagnose.problems import PressloreError
from tests.casebook.learning.harbour import Harbour
from tests.casebook.learning.shelved import Shelved

KNOWLEDGE = load()
CASES = list(Harbour(KNOWLEDGE, seed=10).cases(60))


@pytest.fixture(scope="module")
def first() -> Lesson:
    return take_lesson(Shelved.of(CASES[:40]), KNOWLEDGE)


@pytest.fixture(scope="module")
def second() -> Lesson:
    return take_lesson(Shelved.of(CASES), KNOWLEDGE)


def test_it_is_read_back_as_it_was_learnt(first: Lesson, tmp_path: Path) -> None:
    assert apply(first, tmp_path) == tmp_path / FILE
    read, problems = inspect(shipped_folder(), tmp_path)
    assert problems == []
    assert read is not None
    wanted = with_numbers(KNOWLEDGE, first.learned)
    for kind in ("causes", "defects", "checks", "fixes"):
        assert getattr(read, kind) == getattr(wanted, kind)
    assert {name: c.turns_up for name, c in unlearned(read).causes.items()} == {
        name: c.turns_up for name, c in KNOWLEDGE.causes.items()
    }
    assert any("this shop's cases" in cause.basis for cause in read.causes.values())


def test_applying_the_same_again_writes_nothing(first: Lesson, tmp_path: Path) -> None:
    apply(first, tmp_path)
    before = (tmp_path / FILE).stat().st_mtime_ns
    assert apply(first, tmp_path) is None
    assert (tmp_path / FILE).stat().st_mtime_ns == before


def test_the_next_lesson_changes_only_lines_that_differ_and_keeps_comments(
    first: Lesson, second: Lesson, tmp_path: Path
) -> None:
    path = tmp_path / FILE
    apply(first, tmp_path)
    lines = path.read_text(encoding="utf-8").splitlines()
    both = tuple(f"    {cause}:" for cause in first.learned.causes if cause in second.learned.causes)
    at = next(number for number, line in enumerate(lines) if line.startswith(both) and number > 8)
    lines.insert(at, "    # the press by the window was moved in March")
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    apply(second, tmp_path)
    after = path.read_text(encoding="utf-8")
    assert "    # the press by the window was moved in March\n" in after
    fresh = tmp_path / "fresh"
    apply(second, fresh)
    assert load(shipped_folder(), tmp_path).causes == load(shipped_folder(), fresh).causes
    kept = set(lines) & set(after.splitlines())
    assert len(kept) > len(lines) // 4  # numbers that did not move, and all that holds them


def test_undo_takes_the_last_change_back_to_the_letter(first: Lesson, second: Lesson, tmp_path: Path) -> None:
    apply(first, tmp_path)
    before = (tmp_path / FILE).read_bytes()
    apply(second, tmp_path)
    assert undo(tmp_path) == tmp_path / FILE
    assert (tmp_path / FILE).read_bytes() == before
    with pytest.raises(PressloreError, match="no change"):
        undo(tmp_path)


def test_undo_of_the_first_change_leaves_no_file(first: Lesson, tmp_path: Path) -> None:
    apply(first, tmp_path)
    undo(tmp_path)
    assert list((tmp_path / "kb").iterdir()) == []


def test_undo_never_takes_back_what_somebody_changed_since(first: Lesson, tmp_path: Path) -> None:
    apply(first, tmp_path)
    path = tmp_path / FILE
    path.write_text(path.read_text(encoding="utf-8") + "# mine\n", encoding="utf-8")
    with pytest.raises(PressloreError, match="changed since"):
        undo(tmp_path)
    assert path.read_text(encoding="utf-8").endswith("# mine\n")


def test_a_damaged_note_is_said(tmp_path: Path) -> None:
    (tmp_path / "kb").mkdir()
    (tmp_path / BEFORE).write_text("{", encoding="utf-8")
    with pytest.raises(PressloreError, match="damaged"):
        undo(tmp_path)


def test_the_note_is_no_file_of_the_knowledge(first: Lesson, tmp_path: Path) -> None:
    apply(first, tmp_path)
    assert (tmp_path / BEFORE).name.startswith(".")
