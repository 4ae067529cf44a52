"""The built package works away from its checkout, with the knowledge and all that the handbook needs inside."""

import json
import os
import re
import shlex
import shutil
import subprocess
import sys
from pathlib import Path
from zipfile import ZipFile

import pytest
import yaml

import diagnose
from diagnose.handbook import building
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


class Clean:
    """A place with nothing in it but the installed command and an empty home."""

    def __init__(self, root: Path) -> None:
        self.command, self.tools, home = root / "bin" / "presslore", root / "tools", root / "home"
        homes = {name: str(home) for name in ("HOME", "XDG_CACHE_HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME")}
        self.environment = {"PATH": f"{root / 'bin'}{os.pathsep}{os.defpath}", **homes}

    def run(self, folder: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(arguments, cwd=folder, env=self.environment, capture_output=True, text=True)

    def shipped(self) -> set[Path]:
        [folder] = self.tools.glob("presslore/lib/*/site-packages/diagnose/shipped")
        return {*folder.rglob("*")}


@pytest.fixture(scope="module")
def clean(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Clean:
    """The wheel with its packages, in the versions of the lock files, installed by uv as anybody would."""
    root = tmp_path_factory.mktemp("clean")
    dev, locked = load_dev(), f"--constraints={CHECKOUT / 'requirements-site.lock'}"
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("UV_TOOL_DIR", str(root / "tools"))
        patch.setenv("UV_TOOL_BIN_DIR", str(root / "bin"))
        patch.delenv("PYTHONPATH", raising=False)
        try:
            uv = dev.uv_to_lock_with(str(root))
        except dev.SetUpError as error:
            _without_a_network(str(error))
        asked = f"presslore[handbook] @ {wheel.as_uri()}"
        if complaint := dev.run([uv, "tool", "install", f"--python={sys.executable}", locked, asked]):
            _without_a_network(dev.explain(complaint))
    return Clean(root)


def _without_a_network(why: str) -> None:
    """Where there is none, nothing can be installed; in CI there is one."""
    if "no network" not in why or os.environ.get("CI"):
        pytest.fail(why)
    pytest.skip(why)


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
    written = {f"docs/{name}" for name in building.read_docs(CHECKOUT)} | {building.SETTINGS, building.CHANGES}
    shipped = {f"diagnose/shipped/{name}" for name in files("rules") | files("kb") | written}
    assert "diagnose/py.typed" in code
    assert held == code | shipped


def test_the_installed_command_runs(installed: Path, tmp_path: Path) -> None:
    command = str(installed / "bin" / "presslore")
    assert diagnose.__version__ in run_installed(installed, tmp_path, command, "--version")


def test_the_installed_package_loads_its_own_knowledge(installed: Path, tmp_path: Path) -> None:
    places = run_installed(installed, tmp_path, "-c", LOADING).splitlines()
    assert len(places) == 2
    assert all(Path(place).is_relative_to(installed) for place in places)


def test_in_a_clean_place_it_diagnoses(clean: Clean, tmp_path: Path) -> None:
    saw = ("--item", "polyester t-shirt", "--saw", "a faint second copy of the text", "--json")
    done = clean.run(tmp_path, str(clean.command), "diagnose", *saw)
    assert done.stderr == ""
    told = json.loads(done.stdout)
    assert [told["understood"]["item"]["id"], told["understood"]["defects"][0]["id"]] == [
        "t-shirt-polyester",
        "ghosting",
    ]
    assert told["next"]["kind"] in ("check", "fix")


def test_in_a_clean_place_it_builds_the_handbook(clean: Clean, tmp_path: Path) -> None:
    before = clean.shipped()
    done = clean.run(tmp_path, str(clean.command), "handbook", "build", "--out", "X")
    assert done.returncode == 0, done.stdout + done.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["X"]
    pages = ("index", "diagnose", "defects/ghosting", "lessons/index", "command/1-at-the-press", "changes")
    assert [page for page in pages if not (tmp_path / "X" / f"{page}.html").is_file()] == []
    assert not (tmp_path / "X" / "decisions").exists()
    assert clean.shipped() == before  # nothing is drawn where the package lies


def hook() -> dict[str, object]:
    [only] = yaml.safe_load((CHECKOUT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))
    assert only["language"] == "python"
    assert only["pass_filenames"] is False
    return dict(only)


def run_hook(clean: Clean, repository: Path) -> subprocess.CompletedProcess[str] | None:
    """What pre-commit does with a hook: where a staged file is one of its kind, the entry runs at the top. None where
    there is none."""
    said = hook()
    clean.run(repository, "git", "add", "--all")
    staged = clean.run(repository, "git", "diff", "--staged", "--name-only", "--no-ext-diff").stdout.splitlines()
    if not any(re.search(str(said["files"]), name) for name in staged):
        return None
    arguments = said["args"]
    assert isinstance(arguments, list)
    return clean.run(repository, *shlex.split(str(said["entry"])), *arguments)


@pytest.fixture
def shop(clean: Clean, tmp_path: Path) -> Path:
    """A shop's folder that is a git repository, with one rule of its own."""
    folder = tmp_path / "harbour"
    shutil.copytree(CHECKOUT / "tests/cases/harbour", folder, ignore=shutil.ignore_patterns("cold-towels.yaml"))
    assert clean.run(folder, "git", "init", "--quiet").returncode == 0
    return folder


def test_the_hook_lets_a_clean_shop_pass(clean: Clean, shop: Path) -> None:
    done = run_hook(clean, shop)
    assert done is not None
    assert done.returncode == 0, done.stdout + done.stderr
    assert done.stdout.startswith("Clean: ")


def test_the_hook_stops_a_broken_rule_and_names_it(clean: Clean, shop: Path) -> None:
    rule = shop / "rules" / "water-marks.yaml"
    rule.write_text(rule.read_text(encoding="utf-8").replace("cause: ", "cause: no-such-", 1), encoding="utf-8")
    done = run_hook(clean, shop)
    assert done is not None
    assert done.returncode == 1
    assert re.search(r"^rules/water-marks\.yaml:\d+:\d+: .*no-such-", done.stdout, re.MULTILINE)


def test_the_hook_waits_for_what_it_checks() -> None:
    files = re.compile(str(hook()["files"]))
    looked_at = [
        "rules/a.yaml",
        "kb/taken-1/b.yml",
        "shop.yaml",
        "my-shop/shop.yaml",
        "my-shop/rules/a.yaml",
        "taken.json",
        "my-shop/kb/ways/defects/a.txt",
    ]
    assert [name for name in looked_at if not files.search(name)] == []
    passed_over = [
        "README.md",
        "rules/README.md",
        "mkdocs.yml",
        "casebook.sqlite3",
        "overrules/a.yaml",
        "kb/a.txt",
        "workshop.yaml",
    ]
    assert [name for name in passed_over if files.search(name)] == []
