"""A draft: what was said, field by field; its file; the empty one."""

from pathlib import Path

import pytest

from diagnose.casebook.proposing.draft import Draft, empty_draft, read_draft
from diagnose.casebook.proposing.fields import FIELDS
from diagnose.problems import PressloreError


def test_blanks_say_nothing() -> None:
    assert Draft.of({"why": "  ", "step": [" one ", ""], "item": None}).said == {"step": ("one",)}


def test_one_draft_over_another() -> None:
    flags, file = Draft.of({"why": "mine"}), Draft.of({"why": "theirs", "brings": "likely"})
    assert flags.over(file).said == {"why": ("mine",), "brings": ("likely",)}


def test_a_file_is_read(tmp_path: Path) -> None:
    (tmp_path / "d.yaml").write_text("brings: .6\nwhen: [item.hard=no, item.polyester=under 50]\nminutes: 4\nwhy:\n")
    assert read_draft(tmp_path / "d.yaml").said == {
        "brings": ("0.6",),
        "when": ("item.hard=no", "item.polyester=under 50"),
        "minutes": ("4",),
    }


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("defekt: pale\n", 'd.yaml:1:1: a draft has no "defekt" - did you mean defect?'),
        ("why: [one, two]\n", "why holds 2 values - expected one"),
        ("why: {a: b}\n", "why holds lines of its own"),
        ("- why\n", "not a draft"),
        ("why: one\nwhy: two\n", "stands twice"),
    ],
)
def test_what_is_wrong_with_a_file_is_said_at_its_place(tmp_path: Path, text: str, words: str) -> None:
    (tmp_path / "d.yaml").write_text(text)
    with pytest.raises(PressloreError) as caught:
        read_draft(tmp_path / "d.yaml")
    assert words in str(caught.value)


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(PressloreError, match="this is not there"):
        read_draft(tmp_path / "d.yaml")


def test_the_empty_draft_holds_every_field_with_an_example(tmp_path: Path) -> None:
    lines = [line[1:] for line in empty_draft().splitlines() if line.startswith("#") and line[1] != " "]
    (tmp_path / "d.yaml").write_text("\n".join(lines))
    filled = read_draft(tmp_path / "d.yaml")
    assert filled.said == {name: (field.example,) for name, field in FIELDS.items()}


def test_the_empty_draft_as_it_is_says_nothing(tmp_path: Path) -> None:
    (tmp_path / "d.yaml").write_text(empty_draft())
    with pytest.raises(PressloreError, match="nothing is written here"):
        read_draft(tmp_path / "d.yaml")
