"""A tiny set of knowledge to spoil: the drop-in folder ``valid/smallest``, copied."""

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

HERE = Path(__file__).parent
Change = Callable[[str, str, str], None]


@pytest.fixture
def tiny(tmp_path: Path) -> Path:
    """A folder with kb/all.yaml and rules/faint-colour.yaml, without a fault."""
    return Path(shutil.copytree(HERE / "valid" / "smallest", tmp_path / "tiny"))


@pytest.fixture
def change(tiny: Path) -> Change:
    """Replace a text that stands once in a file of the tiny folder: ``change("kb/all.yaml", old, new)``."""

    def replace(name: str, old: str, new: str) -> None:
        path = tiny / name
        text = path.read_text(encoding="utf-8")
        assert text.count(old) == 1
        path.write_text(text.replace(old, new), encoding="utf-8")

    return replace


@pytest.fixture
def shop(tmp_path: Path) -> Callable[[str, str], Path]:
    """Write a file into a shop folder beside the tiny one, and return that folder."""

    def write(name: str, text: str) -> Path:
        path = tmp_path / "shop" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return tmp_path / "shop"

    return write
