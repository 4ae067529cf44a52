"""What is asked of the engine in a test is asked of node once more, which says what of it was gone through."""

import json
import shutil
import subprocess
from pathlib import Path

import pytest
from py_mini_racer import MiniRacer

from tests.checkout import CHECKOUT
from tests.cover.noted import NOTED, noting

ENGINE = """var presslore = presslore || {};
(function () {
  function sign(value) {
    if (value < 0) {
      return 'below';
    }
    return 'above';
  }
  presslore.numbers = { sign };
})();
"""
ASK = "function ask(value) { if (value === 0) throw new Error('nought'); return presslore.numbers.sign(value); }"


@pytest.fixture
def engine(tmp_path: Path) -> Path:
    path = tmp_path / "engine.js"
    path.write_text(ENGINE, encoding="utf-8")
    return path


def noted(folder: Path, monkeypatch: pytest.MonkeyPatch, *values: int) -> None:
    """A test that asks these of an engine, while what it asks is written down."""
    monkeypatch.setenv(NOTED, str(folder))
    world = noting(MiniRacer())
    world.eval(ENGINE)
    world.eval(ASK)
    for value in values:
        assert world.call("ask", value) == ("below" if value < 0 else "above")


def test_what_is_asked_is_written_down_only_where_that_is_wanted(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv(NOTED, raising=False)
    world = MiniRacer()
    assert noting(world) is world
    noted(tmp_path, monkeypatch, 3)
    [file] = tmp_path.glob("asked-*.jsonl")
    *before, last = [json.loads(line) for line in file.read_text().splitlines()]
    assert before == [ENGINE, ASK]
    assert "ask.apply" in last


@pytest.mark.skipif(not shutil.which("node"), reason="there is no node")
@pytest.mark.parametrize(
    ("asked", "floor", "code", "missed"),
    [(((1,),), 100, 1, ["{"]), (((1,),), 50, 0, ["{"]), (((1,), (-1,)), 100, 0, []), (((1, -1),), 100, 0, [])],
)
def test_the_blocks_that_nobody_went_through_are_named_and_held_against_the_floor(
    engine: Path,
    monkeypatch: pytest.MonkeyPatch,
    asked: tuple[tuple[int, ...], ...],
    floor: int,
    code: int,
    missed: list[str],
) -> None:
    for values in asked:
        noted(engine.parent, monkeypatch, *values)
    command = ["node", str(CHECKOUT / "tests/javascript/cover.js"), str(engine.parent), str(floor), str(engine)]
    done = subprocess.run(command, cwd=engine.parent, capture_output=True, text=True, timeout=120)
    assert done.returncode == code, done.stderr
    told = [line for line in done.stdout.splitlines() if line.startswith("  engine.js:")]
    assert [line.startswith("  engine.js:4: ") for line in told] == [True] * len(missed)
    assert f"asked by {len(asked)} files of calls" in done.stdout
    assert ("Coverage failure" in done.stdout) == bool(code)
