"""Runs the tests and holds how much of the package and of the page's engine they reach against a floor.

What the command does in processes of its own counts too: whatever Python a test starts measures itself. The engine
runs inside the tests without being watched; what is asked of it is written down and asked once more of node.
"""

import os
import shutil
import subprocess
import sys
from pathlib import Path

from diagnose.handbook.page.compiled import engine_files
from tests.cover.noted import NOTED

CHECKOUT = Path(__file__).parents[2]
KEPT = CHECKOUT / ".covered"  # the data, until the next run
FLOOR = 97.0  # per cent of lines and branches of the package
FLOOR_OF_ENGINE = 96.0  # per cent of the blocks of the engine's code


def main(arguments: list[str]) -> int:
    measured = run(arguments)
    reached = [package(), engine()]
    return measured or max(reached)


def run(arguments: list[str], kept: Path = KEPT) -> int:
    """Run the tests with everything watched."""
    shutil.rmtree(kept, ignore_errors=True)
    kept.mkdir()
    code = coverage("run", "-m", "pytest", *arguments, kept=kept)
    coverage("combine", "--quiet", kept=kept)
    return code


def package() -> int:
    return coverage("report", f"--fail-under={FLOOR}", "--skip-covered", "--sort=miss")


def coverage(*arguments: str, kept: Path = KEPT) -> int:
    command = [sys.executable, "-P", "-m", "coverage", *arguments]
    environment = {**os.environ, "COVERAGE_FILE": str(kept / "data"), NOTED: str(kept)}
    return subprocess.run(command, cwd=CHECKOUT, env=environment).returncode


def engine() -> int:
    """Ask of node what was asked of the engine, and hold the share of blocks it went through against the floor."""
    files = [str(path) for path in engine_files()]
    script = CHECKOUT / "tests" / "javascript" / "cover.js"
    return subprocess.run(["node", str(script), str(KEPT), str(FLOOR_OF_ENGINE), *files], cwd=CHECKOUT).returncode


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
