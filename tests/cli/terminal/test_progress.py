"""Long work shows how far it is: on a terminal, after a second, and nowhere else."""

import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pexpect
import pytest

from diagnose.cli import exits
from diagnose.cli.program import run
from diagnose.handbook import building
from diagnose.pace import Far
from tests.checkout import CHECKOUT
from tests.cli.playing import AT_ROOT

WORK = """
import time
from diagnose.cli.terminal import screen
screen.SHORT = {short}
with screen.progress("Drawing", shown={shown}) as far:
    for number in range(11):
        far(number / 10)
        time.sleep(0.15)
        if number == {fails_at}:
            raise SystemExit("broken")
print("done")
"""


def at_a_terminal(short: float = 0.2, shown: bool = True, fails_at: int = -1, term: str = "xterm") -> str:
    work = WORK.format(short=short, shown=shown, fails_at=fails_at)
    terminal = pexpect.spawn(
        sys.executable, ["-c", work], env={**AT_ROOT, "TERM": term}, encoding="utf-8", timeout=60, dimensions=(24, 80)
    )
    return str(terminal.read())


def test_a_bar_is_drawn_and_fills() -> None:
    said = at_a_terminal()
    assert "Drawing  [" in said
    assert "100%" in said
    assert " 0%" not in said  # it begins late, where the work has come to by then
    assert said.endswith("done\r\n")


def test_a_bar_fits_a_narrow_terminal() -> None:
    lines = at_a_terminal().replace("\x1b[?25l", "").replace("\x1b[?25h", "").split("\r")
    assert max(map(len, lines)) <= 80


def test_short_work_shows_none() -> None:
    assert at_a_terminal(short=60.0) == "done\r\n"


def test_where_it_is_not_wanted_there_is_none() -> None:
    assert at_a_terminal(shown=False) == "done\r\n"
    assert at_a_terminal(term="dumb") == "done\r\n"


def test_what_fails_leaves_the_bar_where_it_was_on_a_line_of_its_own() -> None:
    said = at_a_terminal(fails_at=5)
    assert "Drawing  [" in said
    assert "100%" not in said
    assert said.endswith("\x1b[?25h\r\nbroken\r\n")


def test_in_a_pipe_nothing_is_drawn() -> None:
    work = WORK.format(short=0.0, shown=True, fails_at=-1)
    done = subprocess.run([sys.executable, "-c", work], env=AT_ROOT, capture_output=True, text=True)
    assert (done.stdout, done.stderr) == ("done\n", "")


class Listener:
    """Stands in for the bar, and keeps what it is told."""

    def __init__(self) -> None:
        self.told: dict[str, list[float]] = {}
        self.shown: dict[str, bool] = {}

    @contextmanager
    def progress(self, what: str, *, shown: bool = True) -> Iterator[Far]:
        self.told[what], self.shown[what] = [], shown
        yield self.told[what].append

    def heard(self, *names: str, least: int) -> None:
        assert tuple(self.told) == names
        for name, shares in self.told.items():
            assert len(shares) >= least, name
            assert shares == sorted(shares), name
            assert 0 <= shares[0] < 0.5, name
            assert shares[-1] == 1.0, name


@pytest.fixture
def listener(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Listener:
    listening = Listener()
    for module in ("rules.command", "rules.diff", "cases.moving", "cases.learn", "handbook"):
        monkeypatch.setattr(f"diagnose.cli.{module}.progress", listening.progress)
    monkeypatch.chdir(tmp_path)
    return listening


HARBOUR = CHECKOUT / "tests/casebook/harbour.jsonl"


def test_checking_rules_tells_how_far_it_is(listener: Listener) -> None:
    assert run(["rules", "check"]) == exits.GOOD
    listener.heard("Planning", "Worked cases", least=20)


def test_comparing_rules_tells_how_far_it_is(listener: Listener) -> None:
    shop = CHECKOUT / "tests/cases/harbour"
    assert run(["cases", "import", str(HARBOUR), "--book", "book.sqlite3"]) == exits.GOOD
    listener.heard("Taking in", least=10)
    listener.told.clear()
    assert run(["rules", "diff", "shipped", str(shop), "--book", "book.sqlite3", "--most", "3"]) == exits.GOOD
    listener.heard("Comparing", least=20)
    assert listener.shown["Comparing"]


def test_taking_in_a_whole_casebook_and_learning_from_it_tell_how_far_they_are(listener: Listener) -> None:
    assert run(["cases", "import", str(HARBOUR), "--book", "theirs.sqlite3"]) == exits.GOOD
    listener.told.clear()
    assert run(["cases", "import", "theirs.sqlite3", "--book", "book.sqlite3"]) == exits.GOOD
    listener.heard("Taking in", least=10)
    for more in ([], ["--json"]):
        listener.told.clear()
        assert run(["learn", "--book", "book.sqlite3", *more]) == exits.GOOD
        listener.heard("Learning", least=5)
        assert listener.shown["Learning"] == (not more)


@pytest.mark.slow
def test_building_the_handbook_tells_how_far_it_is(
    listener: Listener, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pages = {f"{name}.md": f"# {name}\n".encode() for name in ("index", "one", "two", "three")}
    monkeypatch.setattr(
        "diagnose.handbook.site.site", lambda *given: [given[-1](share) for share in (0.0, 1.0)] and pages
    )
    monkeypatch.setattr(building, "GENERATED", "drawn")
    monkeypatch.setattr(building, "LOOK", 0.05)
    root = tmp_path / "checkout"
    root.mkdir()
    settings = (
        "site_name: Small\ndocs_dir: !ENV [PRESSLORE_HANDBOOK_SOURCE, docs]\ntheme: {name: material, font: false}\n"
    )
    (root / "mkdocs.yml").write_text(settings, encoding="utf-8")
    (root / "docs").mkdir()
    monkeypatch.setattr("diagnose.cli.handbook.shipped_folder", lambda: root)
    assert run(["handbook", "build", "--out", "site"]) == exits.GOOD
    listener.heard("Drawing the pages", "Building the site", least=2)
