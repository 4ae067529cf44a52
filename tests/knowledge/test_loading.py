import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from diagnose.knowledge.documents.document import Document
from diagnose.knowledge.documents.schema_check import Kind, check_structure
from diagnose.knowledge.folders import shipped_folder
from diagnose.knowledge.laying import compiling
from diagnose.knowledge.loading import inspect, load
from diagnose.problems import PressloreError, Problem


def test_what_ships_has_no_problems() -> None:
    knowledge, problems = inspect()
    assert [str(problem) for problem in problems] == []
    assert knowledge is not None


def test_load_gives_what_inspect_gives(tiny: Path, tmp_path: Path) -> None:
    assert load(tiny, cache_dir=tmp_path / "cache") == inspect(tiny)[0]


def test_load_raises_with_every_problem(tiny: Path, tmp_path: Path, change: Callable[[str, str, str], None]) -> None:
    change("kb/all.yaml", "minutes: 5\n", "minutes: 12:30\n")
    change("rules/faint-colour.yaml", "brings: .6", "brings: 6")
    with pytest.raises(PressloreError) as caught:
        load(tiny, cache_dir=tmp_path / "cache")
    assert len(caught.value.problems) == 2
    assert not (tmp_path / "cache").exists()


def test_missing_folders_are_problems(tmp_path: Path) -> None:
    knowledge, problems = inspect(tmp_path, tmp_path / "gone")
    assert knowledge is None
    assert [problem.code for problem in problems][:2] == ["no-knowledge", "no-knowledge"]
    with pytest.raises(PressloreError):
        load(tmp_path, cache_dir=tmp_path)


def test_paths_are_shown_from_the_working_folder(tiny: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tiny.parent)
    knowledge, _ = inspect(tiny)
    assert knowledge is not None
    assert knowledge.causes["dwell-short"].place.file == "tiny/kb/all.yaml"
    monkeypatch.chdir(tiny / "kb")
    elsewhere, _ = inspect(tiny)
    assert elsewhere is not None
    assert elsewhere.defects["faint-colour"].place.file == str(tiny / "rules" / "faint-colour.yaml")


def test_the_shipped_folder_is_the_checkout() -> None:
    assert (shipped_folder() / "rules" / "faint-colour.yaml").is_file()


def test_a_kept_set_needs_neither_yaml_nor_schema(tiny: Path, tmp_path: Path) -> None:
    load(tiny, cache_dir=tmp_path / "cache")
    script = (
        "import sys; from pathlib import Path; from diagnose.knowledge.loading import load\n"
        f"load(Path({str(tiny)!r}), cache_dir=Path({str(tmp_path / 'cache')!r}))\n"
        "print(sorted({'yaml', 'jsonschema', 'difflib', 'tempfile'} & set(sys.modules)))"
    )
    root = Path(__file__).parents[2]
    done = subprocess.run([sys.executable, "-c", script], cwd=root, capture_output=True, text=True, check=True)
    assert done.stdout == "[]\n"


def test_what_lies_below_is_checked_once_in_a_process(tiny: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    checked = list[str]()

    def counted(document: Document, kind: Kind, most: int) -> tuple[Document, list[Problem]]:
        checked.append(document.file)
        return check_structure(document, kind, most)

    monkeypatch.setattr(compiling, "check_structure", counted)
    first, again = inspect(tiny), inspect(tiny)
    assert checked
    assert len(checked) == len(set(checked))
    assert first == again
