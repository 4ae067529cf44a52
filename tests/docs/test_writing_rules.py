"""The page for rule writers: its template is clean, and each of its mistakes is answered as the page says.

After a wanted change: ``./dev test --refresh``, and read the diff.
"""

import re
from pathlib import Path

import pytest

from tests.checkout import CHECKOUT
from tests.cli.playing import play

PAGE = CHECKOUT / "docs" / "command" / "writing-rules.md"
FILE = re.compile(r"^```(?:yaml|text)\n# (?P<name>\S+\.(?:yaml|txt))\n(?P<text>(?:.*\n)*?)```$", re.MULTILINE)
MISTAKE = re.compile(
    r"^### (?P<title>.+)\n\n```diff\n(?P<diff>(?:[-+].*\n)+)```\n(?:\n```text\n(?:.*\n)*?```\n)?", re.MULTILINE
)


def lay_out(folder: Path) -> None:
    for found in FILE.finditer(PAGE.read_text(encoding="utf-8")):
        path = folder / found["name"]
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(found["text"], encoding="utf-8")


def spoil(folder: Path, diff: str) -> None:
    """Change the one line of the files that the diff takes away."""
    gone = "".join(f"{line[1:]}\n" for line in diff.splitlines() if line[0] == "-")
    new = "".join(f"{line[1:]}\n" for line in diff.splitlines() if line[0] == "+")
    files = [path for path in folder.rglob("*.yaml") if gone in path.read_text(encoding="utf-8")]
    assert len(files) == 1, f"not one file holds: {gone}"
    files[0].write_text(files[0].read_text(encoding="utf-8").replace(gone, new), encoding="utf-8")


def test_the_template_is_clean(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    lay_out(tmp_path)
    monkeypatch.chdir(tmp_path)
    code, out, err = play(["rules", "check", "."])
    assert (code, err) == (0, ""), out


def test_each_mistake_is_answered_as_the_page_says(
    request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def answered(mistake: re.Match[str]) -> str:
        folder = tmp_path / re.sub(r"\W", "-", mistake["title"])
        folder.mkdir()
        lay_out(folder)
        spoil(folder, mistake["diff"])
        monkeypatch.chdir(folder)
        code, out, _ = play(["rules", "check", "."])
        assert code == 1, f"no mistake: {mistake['title']}"
        return f"### {mistake['title']}\n\n```diff\n{mistake['diff']}```\n\n```text\n{out}```\n"

    written = PAGE.read_text(encoding="utf-8")
    now = MISTAKE.sub(answered, written)
    if request.config.getoption("--refresh"):
        PAGE.write_text(now, encoding="utf-8")
    assert len(MISTAKE.findall(written)) == 10
    assert now == written, "presslore answers otherwise: ./dev test --refresh, and read the diff"
