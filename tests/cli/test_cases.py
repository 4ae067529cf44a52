"""The dialogues in tests/cases/, on the pages of the tour and in the README are what the command shows, word for word.

Each block starts with the command after ``$ ``; a line that starts with ``> `` is typed by the person. After a
wanted change: ``./dev test --refresh``, and read the diff.
"""

import re
import shlex
from pathlib import Path

import pytest

from tests.cli.playing import play, typed_in

ROOT = Path(__file__).parents[2]
BLOCK = re.compile(r"^```console\n\$ presslore (?P<args>.*)\n(?P<shown>(?:.*\n)*?)```$", flags=re.MULTILINE)
TOUR = sorted((ROOT / "docs" / "command").glob("*.md"))
PAGES = [*sorted((ROOT / "tests" / "cases").glob("*.md")), *TOUR, ROOT / "README.md"]


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_the_page_shows_what_the_command_shows(
    page: Path, request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    (tmp_path / "tests").symlink_to(ROOT / "tests")
    monkeypatch.chdir(tmp_path)  # what a page lays out is gone with it
    written = page.read_text(encoding="utf-8")
    now = BLOCK.sub(_replayed, written)
    if request.config.getoption("--refresh"):
        page.write_text(now, encoding="utf-8")
    assert now == written, f"{page.name} no longer shows what presslore prints; refresh it with: ./dev test --refresh"


def test_there_are_dialogues() -> None:
    blocks = [match for page in PAGES for match in BLOCK.finditer(page.read_text(encoding="utf-8"))]
    assert len(blocks) >= 12


def _replayed(match: re.Match[str]) -> str:
    """The block as the command shows it now. What it writes to standard error follows what it writes to output."""
    typed = typed_in(match["shown"])
    _, out, err = play(shlex.split(match["args"]), typed, somebody=bool(typed))
    shown = re.sub(r"[ \t]+$", "", out + err, flags=re.MULTILINE).rstrip("\n")
    return f"```console\n$ presslore {match['args']}\n{shown}\n```"
