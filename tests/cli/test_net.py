"""The last net, and the one place that writes: whatever happens, words and an exit code; never a traceback."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from diagnose.characters import unsafe
from diagnose.cli import exits, program
from diagnose.cli.terminal.screen import Screen, json_text
from diagnose.problems import PressloreError
from tests.cli.playing import AT_ROOT, PLAIN, play

CLI = Path(program.__file__).parent
HOSTILE = "a\x1b]52;c;aGk=\x07b\u202ec\rd\x9b31me\ud800"
SHOWN = "a]52;c;aGk=bc d31me"


def shell(line: str, folder: Path) -> "subprocess.CompletedProcess[bytes]":
    """A line of shell in which ``presslore`` is the command."""
    call = f'presslore() {{ "{sys.executable}" -P -m diagnose "$@"; }}\n{line}'
    return subprocess.run(
        ["bash", "-c", call],
        cwd=folder,
        env={**AT_ROOT, **PLAIN},
        capture_output=True,
        timeout=300,
        check=False,
    )


def test_nothing_but_the_screen_writes() -> None:
    """Everything that is printed passes the one place that keeps commands to the terminal out."""
    written = re.compile(r"\bprint\(|click\.(?:echo|secho|style)|sys\.(?:stdout|stderr)\.(?:write|buffer)")
    others = [path for path in CLI.rglob("*.py") if path.name != "screen.py" and written.search(path.read_text())]
    assert others == []


@pytest.mark.parametrize(
    "show",
    [
        lambda screen, text: screen.line(text),
        lambda screen, text: screen.line(text, "title"),
        lambda screen, text: screen.hang(text, text, style="key"),
        lambda screen, text: screen.whole(text),
        lambda screen, text: screen.columns([(text, text)]),
        lambda screen, text: screen.choices([text]),
        lambda screen, text: screen.document([text]),
        lambda screen, text: screen.json({text.encode(errors="replace").decode(): text[:-1]}),
        lambda screen, text: screen.prompt(text),
    ],
)
@pytest.mark.parametrize("unicode", [True, False])
def test_no_control_character_reaches_a_terminal(
    show: object, unicode: bool, capsys: pytest.CaptureFixture[str]
) -> None:
    show(Screen(sys.stdout, 88, False, unicode), HOSTILE)  # type: ignore[operator]
    out = capsys.readouterr().out
    assert out
    assert list(unsafe(out)) == []


def test_with_colour_only_our_own_escapes_pass(capsys: pytest.CaptureFixture[str]) -> None:
    Screen(sys.stdout, 88, True, True).line(HOSTILE, "title")
    assert capsys.readouterr().out == f"\x1b[1m{SHOWN}\x1b[0m\n"


def test_json_says_the_same_with_what_acts_spelt_out() -> None:
    value = {"a\u202e": ["\x1b[2J", "\x9b", "\U000e0001", "naïve"]}
    text = json_text(value)
    assert json.loads(text) == value
    assert list(unsafe(text)) == []
    assert "naïve" in text


@pytest.mark.parametrize(
    ("error", "code", "said"),
    [
        (
            ZeroDivisionError("by zero"),
            exits.FAULT,
            "This is a fault in presslore, and none of yours: ZeroDivisionError",
        ),
        (RecursionError("deep"), exits.FAULT, "RecursionError"),
        (MemoryError(), exits.PROBLEMS, "more memory than there is"),
        (OSError(28, "No space left on device"), exits.PROBLEMS, "refused to go on (No space left on device)"),
        (PermissionError(13, "Permission denied", "a/file"), exits.PROBLEMS, "a/file: the system refused this"),
        (PressloreError("said in words"), exits.PROBLEMS, "said in words"),
    ],
)
def test_what_nobody_foresaw_ends_in_words(
    error: Exception, code: int, said: str, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    def failing(**_: object) -> None:
        raise error

    monkeypatch.setattr(program.program, "main", failing)
    monkeypatch.setattr("diagnose.cli.net.close_output", lambda: None)
    assert program.run(["defects"]) == code
    told = capfd.readouterr().err
    assert said in told
    assert "Traceback" not in told


def test_a_fault_says_where_and_more_on_request(tmp_path: Path) -> None:
    fault = "import diagnose.cli.lookup.command as l\nl.shelf.at = None\nfrom diagnose.cli import main\nmain()"
    call = [sys.executable, "-P", "-c", fault, "defects"]
    environment = {**AT_ROOT, **PLAIN}
    short = subprocess.run(call, cwd=tmp_path, env=environment, capture_output=True, text=True, check=False)
    assert short.returncode == exits.FAULT
    assert re.search(r"It happened at cli/lookup/command\.py, line \d+\.", short.stderr)
    assert "Traceback" not in short.stderr
    environment["PRESSLORE_TRACEBACK"] = "1"
    assert b"Traceback" in subprocess.run(call, cwd=tmp_path, env=environment, capture_output=True, check=False).stderr


@pytest.mark.parametrize(
    ("line", "code", "said"),
    [
        ("presslore defects > /dev/full", 1, "The system refused to go on (No space left on device)."),
        ("presslore defects --help > /dev/full", 1, "No space left on device"),
        ("presslore diagnose --item mug --saw pale --json > /dev/full", 1, "No space left on device"),
        ("presslore defects >&-", 0, ""),
        ("presslore nothing 2>&-", 2, ""),
        ("presslore nothing 2> /dev/full", 1, ""),
        ("presslore diagnose <&-", 3, "Nothing to go on"),
        ("presslore colour - <&-", 1, "the file is empty"),
        ("presslore diagnose --item $'m\\xe9g' --saw pale", 0, ""),
        ("presslore cases add --save --item $'m\\xe9g' --saw pale", 2, ""),
        ("echo 'item: mug' > $'\\xe9'; presslore ready --job $'\\xe9'", 0, ""),
        ("mkfifo f; presslore ready --job f", 1, "f: this is a pipe - expected a plain file"),
        ("mkfifo f; presslore colour f", 1, "f: this is a pipe - expected a plain file"),
        ("mkfifo f; presslore cases import f --book b.sqlite3", 1, "f: this is a pipe - expected a plain file"),
        ("mkfifo f; presslore cases list --book f", 1, "f"),
        ("mkfifo f; presslore cases restore f --book b.sqlite3", 1, "f"),
        ("mkdir rules; mkfifo f; presslore rules take f --yes --shop .", 1, "f: this is a pipe"),
        ("mkfifo f; presslore diagnose --resume ./f", 1, "f: this is a pipe"),
        ("mkfifo shop.yaml; presslore items mug --shop .", 0, ""),
        ("mkfifo f; presslore rules new --draft f --dry-run", 1, "f: this is a pipe - expected a plain file"),
        ("presslore ready --job /dev/zero", 1, "/dev/zero: this is a device - expected a plain file"),
        ("presslore colour - < /dev/zero", 1, "standard input: this is too large"),
        ("truncate -s 20G f; presslore colour f", 1, "f: this is too large"),
        ("presslore rules check $(printf 'x%.0s' {1..300})", 2, "does not exist"),
        ("presslore items --shop $(printf 'x%.0s' {1..300})", 1, "File name too long"),
        ("mkdir gone; cd gone; rmdir ../gone; presslore items mug", 0, ""),
        ("mkdir gone; cd gone; rmdir ../gone; presslore shop new here", 1, "gone"),
    ],
)
def test_what_the_system_does_not_do(tmp_path: Path, line: str, code: int, said: str) -> None:
    done = shell(line, tmp_path)
    told = done.stderr.decode()
    assert (done.returncode, "Traceback" in told) == (code, False), told
    assert said in told


@pytest.mark.parametrize("call", ["diagnose --item mug --saw pale --json", "heat tile", "cases export", "--help"])
def test_who_stops_reading_is_not_told_of_it(tmp_path: Path, call: str) -> None:
    done = shell(f"set -o pipefail; presslore {call} | true", tmp_path)
    assert (done.returncode, done.stderr.count(b"Broken")) == (0, 0)


def test_a_pipe_among_the_rules_is_named_and_not_waited_for(tmp_path: Path) -> None:
    (tmp_path / "rules").mkdir()
    os.mkfifo(tmp_path / "rules" / "x.yaml")
    code, out, _ = play(["rules", "check", str(tmp_path)])
    assert code == exits.PROBLEMS
    assert "x.yaml: this is a pipe - expected a plain file" in out


def test_rules_that_cannot_be_listed_are_not_clean(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "rules").mkdir()
    listing = os.scandir

    def refused(path: str) -> object:
        if str(path) == str(tmp_path / "rules"):
            raise PermissionError(13, "Permission denied", str(path))
        return listing(path)

    monkeypatch.setattr("os.scandir", refused)
    code, out, _ = play(["rules", "check", str(tmp_path)])
    assert code == exits.PROBLEMS
    assert "rules: cannot be read (Permission denied)" in out


def test_the_list_of_what_should_be_so_as_json() -> None:
    code, out, _ = play(["ready", "--list", "--json"])
    assert code == exits.GOOD
    assert {"id", "holds"} == set(json.loads(out)[0])
