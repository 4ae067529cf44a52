"""The faults that are put in: one place each, and code that still can be read."""

import ast
from pathlib import Path

import pytest

from tests.checkout import CHECKOUT
from tests.mutation.faults import faults
from tests.mutation.reach import Reach


@pytest.fixture
def module(tmp_path: Path) -> Path:
    return tmp_path / "module.py"


@pytest.mark.parametrize(
    ("text", "becomes"),
    [
        ("a < b\n", ["(a <= b)"]),
        ("a in b\n", ["(a not in b)"]),
        ("a < b < c\n", []),
        ("x = a and not b\n", ["(a or not b)", "(b)"]),
        ("x = 'ä' * 2 + y\n", ["('ä' * 2 - y)", "(3)"]),
        ("x = f'{a + 1}' + 'b'\n", []),
        ("x: int = True\n", ["False"]),
        ("def f(a: int = 4) -> int:\n    return a\n", ["(5)", "return None"]),
        ("def f():\n    return None\n", []),
        ("def f():\n    return exits.GOOD\n", []),
        ("while a:\n    break\n", ["continue"]),
        ("x += y\nf()\nraise ValueError\n", ["pass", "pass", "pass"]),
        ("x = y if z else w\n", ["(y if not z else w)"]),
        ("@cache(size=3)\ndef f(): ...\n", []),
        ("if TYPE_CHECKING:\n    f()\n", []),
    ],
)
def test_what_is_put_in_where(module: Path, text: str, becomes: list[str]) -> None:
    module.write_text(text, encoding="utf-8")
    found = faults(module)
    assert sorted(fault.now for fault in found) == sorted(becomes)
    for fault in found:
        assert fault.was in text
        changed = fault.into(module.read_bytes()).decode()
        assert changed != text
        ast.parse(changed)


def test_a_fault_says_where_it_is_and_shows_what_changes(module: Path) -> None:
    module.write_text(
        "class A:\n    def b(self):\n        # ö\n        return 1 + (\n            self.c\n        )\n", "utf-8"
    )
    summed = next(fault for fault in faults(module) if fault.was.startswith("1 + "))
    assert (summed.inside, summed.line) == ("A.b", 4)
    assert summed.diff(module.read_bytes()).splitlines() == [
        *("-        return 1 + (", "-            self.c", "-        )"),
        "+        return (1 - self.c)",
    ]


def test_every_fault_of_the_package_can_be_read() -> None:
    for path in sorted((CHECKOUT / "diagnose" / "reasoning").rglob("*.py")):
        source = path.read_bytes()
        for fault in faults(path)[::7]:
            ast.parse(fault.into(source))


def test_the_quickest_tests_come_first_and_imports_belong_to_all_who_go_there() -> None:
    path = Path("diagnose/some.py")
    lines = {1: frozenset({""}), 5: frozenset({"", "slow", "quick"}), 7: frozenset({"quick"})}
    told = Reach(lines={path: lines}, took={"slow": 3.0, "quick": 0.5})
    assert told.of(path, 5, 6, 60.0) == ["quick", "slow"]
    assert told.of(path, 1, 1, 60.0) == ["quick", "slow"]
    assert told.of(path, 5, 5, 3.0) == ["quick"]
    assert told.of(path, 5, 5, 0.1) == ["quick"]  # one at least
    assert told.of(path, 9, 9, 60.0) == told.of(Path("other.py"), 1, 1, 60.0) == []
