"""The dialogue in a real terminal, with real keys."""

import sys
from collections.abc import Iterator
from pathlib import Path

import pexpect
import pytest

from diagnose.cli import exits
from tests.cli.playing import AT_ROOT

LETTERS = "why and how"


class Person:
    """Somebody at a terminal, in front of ``presslore diagnose``."""

    def __init__(self, tmp_path: Path, *args: str, **environment: str) -> None:
        homes = {"XDG_STATE_HOME": str(tmp_path), "XDG_DATA_HOME": str(tmp_path)}
        own = {**AT_ROOT, **homes, "TERM": "xterm", **environment}
        command = ["-m", "diagnose", "diagnose", *args]
        self.terminal = pexpect.spawn(
            sys.executable, command, env=own, encoding="utf-8", timeout=120, dimensions=(40, 88)
        )

    def reads(self, text: str) -> "Person":
        self.terminal.expect_exact(text)
        return self

    def types(self, *lines: str) -> "Person":
        for line in lines:
            self.terminal.expect_exact("> ")
            self.terminal.sendline(line)
        return self

    def leaves(self) -> int:
        self.terminal.expect(pexpect.EOF)
        self.terminal.close()
        return int(self.terminal.exitstatus)


@pytest.fixture(params=["xterm", "dumb"])
def person(tmp_path: Path, request: pytest.FixtureRequest) -> Iterator[Person]:
    somebody = Person(tmp_path, TERM=request.param)
    yield somebody
    somebody.terminal.close(force=True)


def test_a_whole_evening_at_the_press(person: Person, tmp_path: Path) -> None:
    person.reads("What was pressed?").types("cushion cover").reads("Item: Cushion cover, polyester")
    person.reads("What do you see?").types("the whole print came out washed out").reads("Faint colour").types("y")
    person.reads(LETTERS).types("?").reads("Basis:").types("w").reads("What would change this:").types("u")
    person.reads(LETTERS).types("b").reads(LETTERS).types("s").reads("presslore diagnose --resume")
    assert person.leaves() == exits.GOOD
    again = Person(tmp_path, "--resume")
    again.reads("Cushion cover, polyester · Faint colour").reads(LETTERS)
    again.terminal.sendintr()
    again.reads("Stopped.")
    assert again.leaves() == exits.STOPPED


def test_a_fix_that_cures(tmp_path: Path) -> None:
    person = Person(tmp_path, "--item", "tea-towel-65-35", "--saw", "ghosting", "--saw", "faint-colour")
    person.reads("Tape the sheet").reads("burns at a touch")
    person.reads("How is the test piece?").types("1").reads("Done. Put right").reads("Cured by")
    assert person.leaves() == exits.GOOD


def test_the_end_of_input_and_a_broken_letter(tmp_path: Path) -> None:
    person = Person(tmp_path).reads("What was pressed?").reads("> ")
    person.terminal.delaybeforesend = None
    person.terminal.write("mug \udce9".encode("utf-8", "surrogateescape").decode("latin-1"))
    person.terminal.sendline("")
    person.reads("> ").terminal.sendeof()
    person.reads("Stopped.")
    assert person.leaves() == exits.STOPPED
