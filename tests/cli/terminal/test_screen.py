"""The screen as it is: colour only where it is wanted, narrow ones kept to, few letters got along with."""

import ctypes
import io
import json
import os
import re
import subprocess
import sys
from types import ModuleType
from unittest import mock

import pytest

from diagnose.cli.terminal.screen import Screen, screen_for
from tests.cli.playing import AT_ROOT, PLAIN, play

COLOUR = re.compile(r"\x1b\[")
CALLS = (
    "diagnose --item mug --saw pale --tried peel-in-one-stroke",
    "demo",
    "defects",
    "defects ghosting",
    "items mug",
    "causes damp-item",
    "checks probe-the-platen",
    "fixes set-heat-by-probe",
    "why damp-item ghosting",
)


class Terminal(io.StringIO):
    encoding = "utf-8"

    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(
    ("terminal", "environment", "coloured"),
    [
        (True, {"TERM": "xterm"}, True),
        (True, {"TERM": "dumb"}, False),
        (True, {"TERM": "xterm", "NO_COLOR": "1"}, False),
        (True, {"TERM": "xterm", "NO_COLOR": ""}, True),
        (False, {"TERM": "xterm"}, False),
        (False, {"TERM": "xterm", "FORCE_COLOR": "1"}, True),
        (False, {"FORCE_COLOR": "1", "NO_COLOR": "1"}, False),
    ],
)
def test_colour(terminal: bool, environment: dict[str, str], coloured: bool) -> None:
    with mock.patch.dict(os.environ, environment, clear=True):
        screen = screen_for(Terminal() if terminal else io.StringIO())
    assert screen.colour == coloured
    screen.line("Pale", "title")
    screen.hang("!", "Hot", style="caution")
    text = screen.stream.getvalue()  # type: ignore[attr-defined]
    assert bool(COLOUR.search(text)) == coloured


def test_colour_reaches_the_whole_command() -> None:
    coloured = {"COLUMNS": "88", "TERM": "xterm", "FORCE_COLOR": "1", "NO_COLOR": ""}
    _, shown, _ = play(["defects", "ghosting"], environment=coloured)
    _, plain, _ = play(["defects", "ghosting"])
    assert COLOUR.search(shown)
    assert re.sub(r"\x1b\[[0-9;]*m", "", shown) == plain


@pytest.mark.parametrize("columns", [40, 60, 88])
@pytest.mark.parametrize("call", CALLS)
def test_no_line_is_wider_than_the_screen(call: str, columns: int) -> None:
    _, out, _ = play(call.split(), environment={**PLAIN, "COLUMNS": str(columns)})
    whole = re.compile(r"\S{30,}")  # the place of a file, or an id, stays whole so that it can be copied
    assert [line for line in out.splitlines() if len(line) > columns and not whole.search(line)] == []


def test_a_dialogue_keeps_to_a_narrow_screen() -> None:
    typed = ["zxcvbn", "tea towel", "", "pale and doubled", "y", "?", "w", "9", "what", "u", "b", "u", "?", "w", "s"]
    _, out, _ = play(["diagnose"], typed, somebody=True, environment={**PLAIN, "COLUMNS": "40"})
    copied = re.compile(r"^  presslore ")  # a command to copy stays on one line
    assert [line for line in out.splitlines() if len(line) > 40 and not copied.match(line)] == []


@pytest.mark.parametrize("columns", ["1", "0", "-3", "wide", "", "99999"])
def test_an_odd_width_is_no_trouble(columns: str) -> None:
    code, out, _ = play(["defects", "ghosting"], environment={**PLAIN, "COLUMNS": columns})
    assert code == 0
    assert max(map(len, out.splitlines())) <= 88


def test_choices_are_not_torn_apart() -> None:
    screen = Screen(io.StringIO(), 30, False, True)
    screen.choices(["? why and how", "u cannot tell", "b back"])
    assert screen.stream.getvalue() == "? why and how   u cannot tell\nb back\n"  # type: ignore[attr-defined]


def test_a_long_word_stays_whole() -> None:
    screen = Screen(io.StringIO(), 30, False, True)
    screen.line("Kept at /bench/by/the/harbour/wall/with/the/towels.json for now")
    assert "/bench/by/the/harbour/wall/with/the/towels.json" in screen.stream.getvalue()  # type: ignore[attr-defined]


@pytest.mark.parametrize("encoding", ["ascii", "cp1252"])
def test_few_letters_are_enough(encoding: str) -> None:
    environment = {**AT_ROOT, "PYTHONIOENCODING": encoding, "COLUMNS": "88"}
    command = [sys.executable, "-m", "diagnose"]
    done = subprocess.run([*command, "items", "mug"], env=environment, capture_output=True, timeout=120)
    assert (done.returncode, done.stderr) == (0, b"")
    assert b"deg C (" in done.stdout
    assert b"?" not in done.stdout
    done = subprocess.run([*command, "diagnose", "--saw", "ghosting", "--json"], env=environment, capture_output=True)
    assert done.stdout.isascii()
    assert json.loads(done.stdout)["causes"]


def test_letters_beyond_ascii_have_a_likeness() -> None:
    screen = Screen(io.StringIO(), 88, False, False)
    screen.line("Crêpe at 200 °C → ½ a café, “hot” – ≥ 5 …")
    assert screen.stream.getvalue() == 'Crepe at 200 deg C -> 1/2 a cafe, "hot" - >= 5 ...\n'  # type: ignore[attr-defined]


def test_letters_that_are_none_are_shown_somehow() -> None:
    command = [
        os.fsencode(sys.executable),
        b"-m",
        b"diagnose",
        b"diagnose",
        b"--item",
        b"caf\xe9",
        b"--saw",
        b"ghosting",
    ]
    done = subprocess.run(command, env=AT_ROOT, capture_output=True, timeout=120)
    assert done.returncode == 0
    assert b"Traceback" not in done.stderr
    assert b"Not understood: caf" in done.stderr


@pytest.mark.parametrize(("takes", "coloured"), [(True, True), (False, False)])
def test_a_terminal_of_windows_is_told_to_show_colours(
    takes: bool, coloured: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An old one cannot: there the signs for colours would stand among the words."""
    told: list[int] = []

    class Kernel:
        def GetConsoleMode(self, handle: object, mode: object) -> int:  # noqa: N802 - as it is called
            ctypes.cast(mode, ctypes.POINTER(ctypes.c_ulong))[0] = 3  # type: ignore[arg-type]
            return 1

        def SetConsoleMode(self, handle: object, mode: int) -> int:  # noqa: N802
            told.append(mode)
            return int(takes)

    console = ModuleType("msvcrt")
    console.get_osfhandle = lambda handle: handle  # type: ignore[attr-defined]
    terminal = Terminal()
    monkeypatch.setattr(terminal, "fileno", lambda: 1)
    monkeypatch.setitem(sys.modules, "msvcrt", console)
    monkeypatch.setattr(ctypes, "WinDLL", lambda name: Kernel(), raising=False)
    monkeypatch.setattr(sys, "platform", "win32")
    with mock.patch.dict(os.environ, {}, clear=True):
        assert screen_for(terminal).colour == coloured
    assert told == [7]
