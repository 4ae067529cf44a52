"""Shell completion: the script, and ids with their titles."""

import os
import shlex
from pathlib import Path
from unittest import mock

import pytest
from click.shell_completion import BashComplete, ShellComplete

from diagnose.cli.program import program
from diagnose.knowledge.model import Knowledge
from diagnose.problems import PressloreError
from tests.cli.playing import play


def completed(line: str) -> dict[str, str]:
    """What completing the last word of a line offers: values with their help."""
    *args, incomplete = shlex.split(line) if not line.endswith(" ") else [*shlex.split(line), ""]
    shell = ShellComplete(program, {}, "presslore", "_PRESSLORE_COMPLETE")
    return {item.value: item.help or "" for item in shell.get_completions(args, incomplete)}


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_there_is_a_script_for_each_shell(shell: str) -> None:
    code, out, _ = play(["completion", shell])
    assert code == 0
    assert "_PRESSLORE_COMPLETE" in out


def test_commands_are_completed() -> None:
    assert "diagnose" in completed("dia")
    assert completed("rules ")["check"] == "Check every file, rule and worked case."
    assert completed("rules ").keys() == {"check", "diff", "new", "promote", "share", "take", "trials"}


@pytest.mark.parametrize(
    ("line", "kind"),
    [
        ("defects ", "defects"),
        ("causes ", "causes"),
        ("checks ", "checks"),
        ("fixes ", "fixes"),
        ("items ", "items"),
        ("diagnose --item ", "items"),
        ("diagnose --saw ", "defects"),
        ("diagnose --not-seen ", "defects"),
        ("diagnose --cannot-tell ", "checks"),
        ("diagnose --tried ", "fixes"),
        ("diagnose --cannot-do ", "fixes"),
        ("why ", "causes"),
        ("why damp-item ", "defects"),
    ],
)
def test_ids_are_completed_with_their_titles(line: str, kind: str, knowledge: Knowledge) -> None:
    assert completed(line) == {entry.id: entry.title for entry in getattr(knowledge, kind).values()}


def test_what_was_typed_narrows_it() -> None:
    assert completed("defects gho") == {"ghosting": "Ghosting"}
    assert completed("defects zxcvbn") == {}


def test_answers_are_completed_with_what_they_look_like(knowledge: Knowledge) -> None:
    check = knowledge.checks["edges-under-magnifier"]
    expected = {f"{check.id}={outcome.id}": outcome.looks for outcome in check.outcomes}
    assert completed("diagnose --answer edges-under-magnifier") == expected


def test_facts_are_completed_with_their_values(knowledge: Knowledge) -> None:
    assert completed("diagnose --fact item.shape") == {"item.shape=flat": "Shape", "item.shape=curved": "Shape"}
    assert completed("diagnose --fact item.coat") == {
        "item.coated=yes": "Polymer coating",
        "item.coated=no": "Polymer coating",
    }
    assert completed("diagnose --fact item.poly") == {"item.polyester=": "Polyester share"}


def test_knowledge_that_does_not_load_completes_nothing() -> None:
    with mock.patch("diagnose.cli.shop.shelf.knowledge", side_effect=PressloreError("no rules")):
        assert completed("defects ") == {}


def test_bash_is_offered_ids() -> None:
    words = {"COMP_WORDS": "presslore defects gho", "COMP_CWORD": "2"}
    with mock.patch.dict(os.environ, words):
        shell = BashComplete(program, {}, "presslore", "_PRESSLORE_COMPLETE")
        assert shell.complete() == "plain,ghosting"


def test_a_title_of_several_lines_offers_one_thing(tmp_path: Path) -> None:
    (tmp_path / "kb").mkdir()
    (tmp_path / "kb" / "own.yaml").write_text(
        'facts:\n  item.evil: {title: "First line\\nplain\\nINJECTED", ask: Is it?, yes-no: true}\n'
    )
    offered = completed(f"diagnose --shop {tmp_path} --fact item.ev")
    assert offered == {"item.evil=yes": "First line plain INJECTED", "item.evil=no": "First line plain INJECTED"}
