"""A tiny set of knowledge with a shop's folder beside it, and a draft of a rule for it."""

import shutil
from pathlib import Path

import pytest

from diagnose.casebook.proposing.draft import Draft
from diagnose.knowledge.loading import inspect
from diagnose.knowledge.model import Knowledge

SMALLEST = Path(__file__).parents[2] / "knowledge" / "valid" / "smallest"
SAID: dict[str, str | list[str] | None] = {
    "defect": "faint-colour",
    "new-cause": "The piece comes cold from the store",
    "family": "heat",
    "about": "A cold piece eats up the first seconds of heat.",
    "turns-up": "rarely",
    "brings": "likely",
    "when": ["item.polyester=at least 50"],
    "why": "It reaches printing heat seconds late.",
    "basis": ["this shop's cases"],
    "learned-from": ["2026-031"],
    "new-fix": "Bring the pieces in overnight",
    "step": ["Bring them in."],
    "minutes": "4",
    "cures": "very likely",
    "new-check": "Feel a piece",
    "kind": "look",
    "asks": "How does it feel?",
    "how": ["Take one and feel it."],
    "check-minutes": "1",
    "quiet": "As warm as the room",
    "telling": "Colder than the room",
    "shows": "very likely",
    "otherwise": "almost never",
    "story": "Pale on a frosty morning.",
    "item": "tea-towel",
    "answer": ["new-check=telling"],
}


def known(*folders: Path) -> Knowledge:
    knowledge, problems = inspect(*folders)
    assert [str(problem) for problem in problems] == []
    assert knowledge is not None
    return knowledge


@pytest.fixture
def tiny(tmp_path: Path) -> Path:
    return Path(shutil.copytree(SMALLEST, tmp_path / "tiny"))


@pytest.fixture(scope="session")
def knowledge() -> Knowledge:
    return known(SMALLEST)


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    (tmp_path / "shop").mkdir()
    return tmp_path / "shop"


@pytest.fixture
def draft() -> Draft:
    return Draft.of(SAID)
