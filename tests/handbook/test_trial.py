"""Rules on trial are marked on the pages of the handbook that show them, or a cause that rests on nothing else."""

import re
import shutil
from dataclasses import replace
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


def test_a_check_and_a_fix_on_trial_are_marked_wherever_they_stand(tmp_path: Path) -> None:
    folder = Path(shutil.copytree(SMALLEST, tmp_path / "tiny"))
    knowledge, problems = inspect(folder)
    assert knowledge is not None, problems
    whose = "the bundle of a shop that gives no name"
    fix, check = next(iter(knowledge.fixes.values())), next(iter(knowledge.checks.values()))
    strange = replace(
        knowledge,
        fixes={**knowledge.fixes, fix.id: replace(fix, status="trial", origin=whose)},
        checks={**knowledge.checks, check.id: replace(check, status="trial", origin=whose)},
    )
    made = {path: data.decode() for path, data in site(strange, Shop(), "", {}).items()}
    for kind, step in (("fixes", fix), ("checks", check)):
        link = re.compile(rf"\[([^]\n\\]|\\.)*\]\((\S*/)?{step.id}\.md\)")
        linked = [(path, found[0]) for path, text in made.items() for found in link.finditer(text)]
        assert {"causes", kind} <= {path.split("/")[0] for path, _ in linked}
        assert [one for one in linked if "on trial" not in one[1]] == []
        assert "**On trial.**" in made[f"{kind}/{step.id}.md"]
        assert f"*From {whose}.*" in made[f"{kind}/{step.id}.md"]
