"""The built package works away from its checkout, with the knowledge inside."""

import os
import subprocess
import sys
from pathlib import Path
from zipfile import ZipFile

import pytest

import diagnose
from tests.checkout import CHECKOUT, load_dev

pytestmark = pytest.mark.slow

LOADING = """
import diagnose
from diagnose.knowledge.loading import load, shipped_folder
load()
print(diagnose.__file__, shipped_folder(), sep="\\n")
"""


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    run("-m", "build", "--wheel", "--no-isolation", "--outdir", str(folder), str(CHECKOUT), cwd=folder)
    [built] = folder.glob("presslore-*.whl")
    return built


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    target = tmp_path_factory.mktemp("installed")
    dev = load_dev()
    vars(dev)["PYTHON"] = sys.executable
    call = [part for part in dev.pip() if part != dev.HASHED]  # a wheel just built has no digest in the locks
    assert dev.run([*call, "--no-deps", "--no-index", f"--target={target}", str(wheel)]) == ""
    return target


def files(folder: str) -> set[str]:
    paths = (path for path in (CHECKOUT / folder).rglob("*") if path.is_file() and path.suffix != ".pyc")
    return {path.relative_to(CHECKOUT).as_posix() for path in paths}


def run(*arguments: str, cwd: Path, **settings: str) -> str:
    clean = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    command = [sys.executable, "-P", *arguments]
    done = subprocess.run(command, cwd=cwd, env={**clean, **settings}, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def run_installed(installed: Path, folder: Path, *arguments: str) -> str:
    """Run Python with the installed package, in an empty folder and with an empty home."""
    home = {name: str(folder) for name in ("HOME", "XDG_CACHE_HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME")}
    return run(*arguments, cwd=folder, PYTHONPATH=str(installed), **home)


def test_the_wheel_holds_all_that_is_needed_and_no_more(wheel: Path) -> None:
    held = {name for name in ZipFile(wheel).namelist() if ".dist-info/" not in name}
    code = files("diagnose")
    knowledge = {f"diagnose/shipped/{name}" for name in files("rules") | files("kb")}
    assert "diagnose/py.typed" in code
    assert held == code | knowledge


def test_the_installed_command_runs(installed: Path, tmp_path: Path) -> None:
    command = str(installed / "bin" / "presslore")
    assert diagnose.__version__ in run_installed(installed, tmp_path, command, "--version")


def test_the_installed_package_loads_its_own_knowledge(installed: Path, tmp_path: Path) -> None:
    places = run_installed(installed, tmp_path, "-c", LOADING).splitlines()
    assert len(places) == 2
    assert all(Path(place).is_relative_to(installed) for place in places)
