"""The shape of the code: imports go downwards only, modules and functions stay small."""

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

from tests.checkout import CHECKOUT

LONG_FUNCTION = 30
CROWDED = 25
MODULES = sorted((CHECKOUT / "diagnose").rglob("*.py"))


def test_imports_keep_to_the_floors(tmp_path: Path) -> None:
    command = [str(Path(sys.executable).parent / "lint-imports"), "--no-logo", "--cache-dir", str(tmp_path)]
    done = subprocess.run(command, cwd=CHECKOUT, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr


def test_nine_functions_in_ten_are_short() -> None:
    lengths = sorted((length for path in MODULES for length in function_lengths(path)), reverse=True)
    long = [f"{name}: {lines} lines" for lines, name in lengths if lines >= LONG_FUNCTION]
    assert len(long) <= len(lengths) / 10, f"{len(long)} of {len(lengths)} are long:\n" + "\n".join(long)


def function_lengths(path: Path) -> Iterator[tuple[int, str]]:
    for node in ast.walk(ast.parse(read(path))):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            assert node.end_lineno is not None
            yield node.end_lineno - node.lineno + 1, f"{path.relative_to(CHECKOUT)}:{node.lineno} {node.name}"


def read(path: Path) -> str:
    return path.read_text(encoding="utf-8")


def test_no_public_class_name_stands_for_two_things() -> None:
    places: dict[str, list[str]] = {}
    for path in MODULES:
        for node in ast.parse(read(path)).body:
            if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                places.setdefault(node.name, []).append(str(path.relative_to(CHECKOUT)))
    assert not {name: found for name, found in places.items() if len(found) > 1}


def test_no_folder_holds_more_modules_than_one_looks_through() -> None:
    for folder in {path.parent for path in MODULES}:
        modules = [path for path in folder.glob("*.py") if path.name != "__init__.py"]
        assert len(modules) <= CROWDED, f"{folder.relative_to(CHECKOUT)} holds {len(modules)} modules"
