"""``rules check``: what ships is clean and of the promised size; mistakes are named all at once, each in its place."""

import re
import shutil
from pathlib import Path

import pytest

from diagnose.cli import exits
from diagnose.cli.rules.command import counts
from diagnose.knowledge.loading import shipped_folder
from diagnose.knowledge.model import Knowledge
from tests.cli.playing import play

LEAST = {
    "defects": 40,
    "causes": 80,
    "checks": 90,
    "fixes": 90,
    "rules": 260,
    "worked cases": 130,
    "items": 25,
    "care notes": 25,
}
MISTAKES = (
    ("by: {damp-item: ", "by: {damp-itme: ", "did you mean damp-item"),
    ("{pressure-light: likely}", "{pressure-light: likly}", "did you mean likely"),
    ("basis: [morton-hearle, ", "basis: [morton-hearl, ", "did you mean morton-hearle"),
    ("first: [damp-item]", "first: [damp-item]\n    saw: [blotchs]", "did you mean blotches"),
    ("turn-the-piece: with-the-press", "turn-the-piece: with-the-pres", "did you mean with-the-press"),
)


def test_what_ships_is_clean_and_counted() -> None:
    code, out, err = play(["rules", "check"])
    assert (code, err) == (exits.GOOD, "")
    assert out.startswith("Clean: ")


def test_there_is_as_much_as_promised(knowledge: Knowledge) -> None:
    told = {name: int(number) for number, name in re.findall(r"(\d+) ([a-z ]+)", counts(knowledge))}
    assert set(told) == set(LEAST)
    assert {name: number for name, number in told.items() if number < LEAST[name]} == {}


def test_every_defect_has_its_cases_and_its_names(knowledge: Knowledge) -> None:
    assert [d.id for d in knowledge.defects.values() if len(d.cases) < 2 or len(set(d.said)) < 6] == []


@pytest.fixture
def copied(tmp_path: Path) -> Path:
    """A copy of everything that ships."""
    for part in ("kb", "rules"):
        shutil.copytree(shipped_folder() / part, tmp_path / "copy" / part)
    return tmp_path / "copy"


def test_a_copy_of_what_ships_is_clean(copied: Path) -> None:
    assert play(["rules", "check", str(copied)])[0] == exits.GOOD


def test_five_mistakes_are_named_at_once(copied: Path) -> None:
    file = copied / "rules" / "blotches.yaml"
    text = file.read_text(encoding="utf-8")
    for before, after, _ in MISTAKES:
        assert before in text
        text = text.replace(before, after, 1)
    file.write_text(text, encoding="utf-8")
    code, out, err = play(["rules", "check", str(copied)])
    assert (code, err) == (exits.PROBLEMS, "5 problems.\n")
    assert len(re.findall(r"^\S*rules/blotches\.yaml:\d+:\d+: \S", out, flags=re.MULTILINE)) == 5
    assert all(hint in out for _, _, hint in MISTAKES)


def test_a_folder_of_five_mistakes_is_named_in_five_places() -> None:
    folder = Path(__file__).parents[2] / "knowledge" / "invalid" / "five-mistakes"
    code, out, _ = play(["rules", "check", str(folder)])
    assert code == exits.PROBLEMS
    own = re.findall(r"five-mistakes/\S+:\d+:\d+: ", out)
    assert len(set(own)) == 5
