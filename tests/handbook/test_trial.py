"""Rules on trial are marked on the pages of the handbook that show them, or a cause that rests on nothing else."""

import shutil
from pathlib import Path

import pytest

from diagnose.handbook.site import site
from diagnose.knowledge.loading import inspect
from diagnose.knowledge.shop import Shop

SMALLEST = Path(__file__).parents[1] / "knowledge" / "valid" / "smallest"


def pages(folder: Path) -> dict[str, str]:
    knowledge, problems = inspect(folder)
    assert knowledge is not None, problems
    made = site(knowledge, Shop(), "", {})
    return {path: data.decode() for path, data in made.items() if path.endswith(".md")}


@pytest.fixture
def on_trial(tmp_path: Path) -> Path:
    folder = Path(shutil.copytree(SMALLEST, tmp_path / "tiny"))
    rules = folder / "rules" / "faint-colour.yaml"
    rules.write_text(
        rules.read_text().replace("  - cause: dwell-short\n", "  - cause: dwell-short\n    status: trial\n")
    )
    return folder


def test_marked(on_trial: Path) -> None:
    made = pages(on_trial)
    assert "**On trial.**" in made["causes/dwell-short.md"]
    assert "Pressed too short (on trial)" in made["causes/index.md"]
    assert "**On trial.**" in made["defects/faint-colour.md"]
    assert "**On trial.**" not in made["causes/platen-runs-cool.md"]


def test_nothing_is_marked_where_all_is_settled() -> None:
    assert not any("on trial" in text.lower() for path, text in pages(SMALLEST).items() if path.startswith("causes/"))
