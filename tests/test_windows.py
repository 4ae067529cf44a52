"""A shop's whole life where nothing of POSIX is to be had, as near to Windows as another system comes."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.checkout import CHECKOUT

CASES = CHECKOUT / "tests/cases/quay/five-towels.jsonl"


class Press:
    """A shop's machine: commands are run in its folder."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        homes = {name: str(folder / "home") for name in ("HOME", "XDG_STATE_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME")}
        self.environment = {**os.environ, **homes, "PYTHONPATH": str(CHECKOUT)}

    def run(self, *arguments: str, code: int = 0) -> str:
        command = [sys.executable, "-P", "-m", "tests.windows", *arguments]
        done = subprocess.run(command, cwd=self.folder, env=self.environment, capture_output=True, text=True)
        assert done.returncode == code, done.stdout + done.stderr
        return done.stdout + done.stderr


@pytest.fixture
def press(tmp_path: Path) -> Press:
    if not Path("/proc/self/fd").is_dir():
        pytest.skip("which files are open cannot be told on this system")
    return Press(tmp_path)


def test_what_is_taken_away_is_gone(press: Press) -> None:
    looking = (
        "from tests import windows; windows.pretend(); import os, sys\n"
        "def refused(call, *given):\n"
        "    try: call(*given)\n"
        "    except (OSError, AttributeError, ImportError) as error: return type(error).__name__\n"
        "file = open('a', 'w'); os.mkdir('d')\n"
        "print(refused(__import__, 'fcntl'), refused(lambda: os.kill), refused(os.open, 'd', os.O_RDONLY),"
        "refused(os.replace, 'a', 'b'), refused(os.unlink, 'a'), refused(os.rename, 'd', 'a'))"
    )
    done = subprocess.run(
        [sys.executable, "-P", "-c", looking], cwd=press.folder, env=press.environment, capture_output=True, text=True
    )
    expected = "ModuleNotFoundError AttributeError PermissionError PermissionError PermissionError FileExistsError"
    assert done.stdout.split() == expected.split(), done.stderr


def test_it_diagnoses(press: Press) -> None:
    told = json.loads(press.run("diagnose", "--item", "polyester t-shirt", "--saw", "faint second copy", "--json"))
    assert told["understood"]["defects"][0]["id"] == "ghosting"


@pytest.mark.slow
def test_a_shop_is_laid_out_and_keeps_its_book(press: Press) -> None:
    (press.folder / "quay").mkdir()
    press.run("shop", "new", "quay", "--name", "Quay")
    assert press.run("rules", "check", "quay").startswith("Clean: ")
    press.run("cases", "import", str(CASES), "--shop", "quay")
    for force in ([], ["--force"]):
        press.run("cases", "backup", "copy.sqlite3", "--shop", "quay", *force)
    press.run("cases", "restore", "copy.sqlite3", "--force", "--shop", "quay")
    assert "5" in press.run("cases", "check", "--shop", "quay")
    press.run("learn", "--apply", "--shop", "quay")
    assert not list(press.folder.rglob("*.part"))


@pytest.mark.slow
def test_rules_go_from_shop_to_shop(press: Press) -> None:
    for shop in ("quay", "harbour"):
        press.run("shop", "new", shop, "--name", f"The {shop} workshop")
    rule = (CHECKOUT / "tests/cases/harbour/rules/water-marks.yaml").read_text(encoding="utf-8")
    settled = rule.replace("status: trial", "status: settled").replace("    if: {press.name: left}\n", "")
    (press.folder / "quay/rules/water-marks.yaml").write_text(settled, encoding="utf-8")
    for force in ([], ["--force"]):
        press.run("rules", "share", "--shop", "quay", "--out", "quay.zip", *force)
    press.run("rules", "take", "quay.zip", "--shop", "harbour", "--yes")
    assert list((press.folder / "harbour/rules").glob("taken-*"))
    assert "Clean: " in press.run("rules", "check", "harbour")
    press.run("rules", "take", "--undo", "--shop", "harbour")
    assert not list((press.folder / "harbour/rules").glob("taken-*"))
