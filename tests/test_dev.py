"""./dev: a checkout sets itself up, once, whatever the machine is like.

Each test works on a tiny checkout of its own. Its .venv is a real one; what would fetch packages is a
stand-in called uv, which only writes down how it was asked.
"""

import hashlib
import json
import os
import shutil
import subprocess
import sys
import time
import zipfile
from pathlib import Path
from types import ModuleType

import pexpect
import pytest

from tests.checkout import CHECKOUT, load_dev
from tests.windows import msvcrt

ECHO = """
import json, os, sys
print(json.dumps({"arguments": sys.argv[1:], "folder": os.getcwd(), "path": sys.path}))
sys.exit(int(os.environ.get("EXIT", "0")))
"""
NPM = """#!/bin/sh
echo "npm $@" >> "$CALLS"
eval "$DURING"
mkdir -p "${2#--prefix=}/node_modules/.bin"
for tool in biome tsc; do
  printf '#!/bin/sh\necho "%s $@"\n' $tool > "${2#--prefix=}/node_modules/.bin/$tool"
  chmod +x "${2#--prefix=}/node_modules/.bin/$tool"
done
"""
UV = """#!/bin/sh
echo "$@" >> "$CALLS"
eval "$DURING"
"""


class Checkout:
    """A small checkout with the real ``dev``, empty lock files, and a command that tells how it was run."""

    def __init__(self, root: Path) -> None:
        self.root = root / "checkout"
        self.tools = root / "tools"
        self.calls = root / "calls"
        (self.root / "diagnose").mkdir(parents=True)
        self.tools.mkdir()
        shutil.copy(CHECKOUT / "dev", self.root)
        (self.root / "diagnose" / "__main__.py").write_text(ECHO)
        (self.root / "pytest.py").write_text(ECHO)
        (self.root / "requirements.lock").write_text("# nothing\n")
        (self.root / "requirements-site.lock").write_text("# nothing\n")
        (self.root / "requirements-dev.lock").write_text("# nothing\n")
        self.put("uv", UV)

    def put(self, tool: str, script: str) -> None:
        """A tool that stands before whatever the machine has by that name."""
        (self.tools / tool).write_text(script)
        (self.tools / tool).chmod(0o755)

    def has_scripts(self) -> None:
        """The checkout has scripts to check, and the machine has node and npm to do it with."""
        (self.root / "tests" / "javascript").mkdir(parents=True)
        for name in ("package.json", "package-lock.json"):
            (self.root / "tests" / "javascript" / name).write_text("{}")
        self.put("node", "#!/bin/sh\n")
        self.put("npm", NPM)

    def start(self, *arguments: str, during: str = ":", **settings: str) -> subprocess.Popen[str]:
        """Start ``dev``; ``during`` is what the shell does while packages are being installed."""
        clean = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
        path = f"{self.tools}{os.pathsep}{os.environ['PATH']}"
        return subprocess.Popen(
            [sys.executable, str(self.root / "dev"), *arguments],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            cwd=self.root.parent,
            env={**clean, "PATH": path, "CALLS": str(self.calls), "DURING": during, **settings},
        )

    def run(self, *arguments: str, during: str = ":", **settings: str) -> subprocess.CompletedProcess[str]:
        process = self.start(*arguments, during=during, **settings)
        out, err = process.communicate(timeout=300)
        return subprocess.CompletedProcess(arguments, process.returncode, out, err)

    @property
    def set_ups(self) -> list[str]:
        return self.calls.read_text().splitlines() if self.calls.exists() else []

    def leave_a_mark(self) -> Path:
        """A file in .venv that is gone when .venv is made anew."""
        mark = self.root / ".venv" / "mark"
        mark.touch()
        return mark


@pytest.fixture
def checkout(tmp_path: Path) -> Checkout:
    return Checkout(tmp_path)


@pytest.fixture
def ready(checkout: Checkout) -> Checkout:
    assert checkout.run("presslore").returncode == 0
    return checkout


def test_the_command_gets_its_arguments_and_the_folder_one_stands_in(checkout: Checkout) -> None:
    done = checkout.run("presslore", "ask", "--job", "a b.yaml", EXIT="3")
    told = json.loads(done.stdout)
    assert told["arguments"] == ["ask", "--job", "a b.yaml"]
    assert told["folder"] == str(checkout.root.parent)
    assert told["path"][0] == str(checkout.root)
    assert done.returncode == 3


def test_set_up_speaks_on_stderr_only(checkout: Checkout) -> None:
    done = checkout.run("presslore", during="echo chatter; echo more >&2")
    assert len(done.stdout.splitlines()) == 1
    assert [line[:5] for line in done.stderr.splitlines()] == ["dev: ", "dev: "]


def test_a_second_start_does_nothing_and_needs_no_tools(ready: Checkout) -> None:
    done = ready.run("presslore", PATH="")
    assert done.returncode == 0
    assert done.stderr == ""
    assert len(ready.set_ups) == 1


def test_the_command_needs_the_runtime_packages_only(ready: Checkout) -> None:
    assert "requirements.lock" in ready.set_ups[0]
    assert "requirements-dev.lock" not in ready.set_ups[0]


def test_tests_add_their_packages_to_what_is_there(ready: Checkout) -> None:
    mark = ready.leave_a_mark()
    done = ready.run("test", "-x")
    assert json.loads(done.stdout)["arguments"] == ["-n", "auto", "--maxprocesses=8", "--dist=worksteal", "-x"]
    assert json.loads(done.stdout)["folder"] == str(ready.root)
    assert "requirements-dev.lock" in ready.set_ups[1]
    assert mark.exists()
    ready.run("presslore")
    ready.run("test")
    assert len(ready.set_ups) == 2


def test_coverage_and_mutants_have_modules_of_their_own(ready: Checkout) -> None:
    (ready.root / "tests").mkdir()
    for name in ("cover", "mutation"):
        (ready.root / "tests" / f"{name}.py").write_text(ECHO)
    told = json.loads(ready.run("test", "--cover", "-x").stdout)
    assert (told["arguments"][-1], "--cover" in told["arguments"]) == ("-x", False)
    told = json.loads(ready.run("mutants", "20", "--seed", "3").stdout)
    assert (told["arguments"], told["folder"]) == (["20", "--seed", "3"], str(ready.root))


def test_a_changed_lock_file_makes_a_new_venv(ready: Checkout) -> None:
    mark = ready.leave_a_mark()
    (ready.root / "requirements.lock").write_text("# other\n")
    ready.run("presslore")
    assert len(ready.set_ups) == 2
    assert not mark.exists()


def test_a_changed_dev_lock_file_leaves_the_command_alone(checkout: Checkout) -> None:
    checkout.run("test")
    mark = checkout.leave_a_mark()
    (checkout.root / "requirements-dev.lock").write_text("# other\n")
    checkout.run("presslore")
    assert len(checkout.set_ups) == 1
    checkout.run("test")
    assert len(checkout.set_ups) == 2
    assert not mark.exists()


def test_a_moved_checkout_makes_a_new_venv(ready: Checkout) -> None:
    mark = ready.leave_a_mark()
    ready.root = ready.root.rename(ready.root.parent / "elsewhere")
    done = ready.run("presslore")
    assert json.loads(done.stdout)["path"][0] == str(ready.root)
    assert len(ready.set_ups) == 2
    assert not (ready.root / ".venv" / mark.name).exists()


def test_a_checkout_reached_by_a_link_is_the_same_checkout(ready: Checkout) -> None:
    link = ready.root.parent / "link"
    link.symlink_to(ready.root)
    ready.root = link
    ready.run("presslore")
    assert len(ready.set_ups) == 1


def test_another_python_makes_a_new_venv(ready: Checkout) -> None:
    stamp = ready.root / ".venv" / "runtime.stamp"
    stamp.write_text(stamp.read_text().replace(sys.version, "3.11.0 (of another machine)"))
    ready.run("presslore")
    assert len(ready.set_ups) == 2


def test_a_python_that_was_removed_makes_a_new_venv(ready: Checkout) -> None:
    python = ready.root / ".venv" / "bin" / "python"
    python.unlink()
    python.symlink_to("no-such-python")
    assert ready.run("presslore").returncode == 0
    assert len(ready.set_ups) == 2


@pytest.mark.parametrize("command", ["presslore", "test"])
def test_a_set_up_broken_off_is_done_again(ready: Checkout, command: str) -> None:
    (ready.root / "requirements.lock").write_text("# other\n")
    ready.run(command, during="kill -9 $PPID")
    mark = ready.leave_a_mark()
    assert ready.run("presslore").returncode == 0
    assert len(ready.set_ups) == 3
    assert not mark.exists()


def test_adding_packages_broken_off_makes_a_new_venv(ready: Checkout) -> None:
    ready.run("test", during="kill -9 $PPID")
    mark = ready.leave_a_mark()
    ready.run("presslore")
    assert not mark.exists()


def test_two_starts_at_once_set_up_once(checkout: Checkout) -> None:
    starts = [checkout.start("presslore", during="sleep 0.5") for _ in range(2)]
    errors = [start.communicate(timeout=300)[1] for start in starts]
    assert [start.returncode for start in starts] == [0, 0]
    assert len(checkout.set_ups) == 1
    assert sum("waiting" in error for error in errors) == 1


def test_a_linked_venv_is_unlinked_not_emptied(checkout: Checkout) -> None:
    precious = checkout.root.parent / "precious"
    precious.mkdir()
    (precious / "file").touch()
    (checkout.root / ".venv").symlink_to(precious)
    assert checkout.run("presslore").returncode == 0
    assert (precious / "file").exists()


def test_what_lies_in_the_folder_one_stands_in_is_not_imported(ready: Checkout) -> None:
    (ready.root.parent / "json.py").write_text("raise SystemExit('the wrong json')")
    assert ready.run("presslore").returncode == 0


def test_check_reports_every_failure(checkout: Checkout) -> None:
    (checkout.root / "ruff.py").write_text("raise SystemExit(1)")
    (checkout.root / "mypy.py").write_text("")
    checkout.has_scripts()
    done = checkout.run("check")
    assert done.stderr.splitlines()[-1] == "dev: failed: format, lint, floors"
    assert done.returncode == 1


def test_the_scripts_are_checked_with_tools_that_are_set_up_once(checkout: Checkout) -> None:
    checkout.has_scripts()
    for _ in range(2):
        done = checkout.run("check")
        assert [line.split()[0] for line in done.stdout.splitlines()[-3:]] == ["biome", "tsc", "tsc"]
    asked = [call for call in checkout.set_ups if call.startswith("npm")]
    prefix = f"--prefix={checkout.root / '.node'}"
    assert asked == [f"npm ci {prefix} --ignore-scripts --no-audit --no-fund"]
    (checkout.root / "tests" / "javascript" / "package-lock.json").write_text("{ }")
    checkout.run("check")
    assert len([call for call in checkout.set_ups if call.startswith("npm")]) == 2


def test_without_node_the_scripts_fail_their_checks_and_all_else_goes_on(checkout: Checkout) -> None:
    checkout.has_scripts()
    (checkout.tools / "node").unlink()
    (checkout.tools / "env").symlink_to("/usr/bin/env")
    (checkout.tools / "sh").symlink_to("/bin/sh")
    (checkout.root / "ruff.py").write_text("")
    done = checkout.run("check", PATH=str(checkout.tools))
    said = done.stderr.splitlines()
    assert said[-1] == "dev: failed: types, floors, scripts, script types, worker types"
    assert said[-2] == ("dev: no node is found to check the page's scripts with; on Debian: apt-get install nodejs npm")
    assert checkout.run("test", PATH=str(checkout.tools)).returncode == 0


def test_tools_for_the_scripts_that_cannot_be_fetched_are_said_in_one_line(checkout: Checkout) -> None:
    checkout.has_scripts()
    done = checkout.run("check", during='case "$0" in *npm) echo "npm error code EAI_AGAIN" >&2; exit 1;; esac')
    assert done.stderr.splitlines()[-2:] == [
        "dev: no network: the packages could not be fetched; the first start needs one",
        "dev: failed: format, lint, types, floors, scripts, script types, worker types",
    ]


def test_help_sets_nothing_up(checkout: Checkout) -> None:
    done = checkout.run("--help")
    assert "./dev presslore" in done.stdout
    assert done.returncode == 0
    assert checkout.run().returncode == 2
    assert checkout.run("prest").returncode == 2
    assert not (checkout.root / ".venv").exists()


# The installers, from the inside: which one is taken where several, or none, are found.


class Machine:
    """A machine on which the named commands work; everything asked of it is written down."""

    def __init__(self, working: list[str], complaint: str = "does not work") -> None:
        self.working = working
        self.complaint = complaint
        self.asked: list[str] = []

    def run(self, command: list[str], packages: int = 0) -> str:
        asked = " ".join(command).replace(sys.executable, "python3")
        self.asked.append(asked)
        return "" if any(asked.startswith(working) for working in self.working) else self.complaint


def install_on(monkeypatch: pytest.MonkeyPatch, machine: Machine, uv: str | None = None) -> None:
    dev = load_dev()
    monkeypatch.setattr(dev, "PYTHON", "venv-python")
    monkeypatch.setattr(dev, "run", machine.run)
    monkeypatch.setattr(dev, "BASE", sys.executable)
    monkeypatch.setattr(shutil, "which", lambda name: uv)
    dev.install(["--requirement=lock"])


@pytest.mark.parametrize(
    ("working", "installs"),
    [
        (["python3 -m pip", "pip"], "python3 -m pip --python=venv-python install"),
        (["pip --"], "pip --python=venv-python install"),
        (["pip3 --"], "pip3 --python=venv-python install"),
        (["venv-python"], "venv-python -m pip install"),
    ],
)
def test_any_pip_will_do(monkeypatch: pytest.MonkeyPatch, working: list[str], installs: str) -> None:
    machine = Machine(working)
    install_on(monkeypatch, machine)
    assert machine.asked[-1] == f"{installs} --require-hashes --requirement=lock"


def test_uv_goes_first(monkeypatch: pytest.MonkeyPatch) -> None:
    machine = Machine(["uv", "pip"])
    install_on(monkeypatch, machine, uv="uv")
    assert machine.asked == ["uv pip install --python=venv-python --require-hashes --requirement=lock"]


def test_pip_steps_in_where_uv_fails(monkeypatch: pytest.MonkeyPatch) -> None:
    machine = Machine(["pip "])
    install_on(monkeypatch, machine, uv="uv")
    assert machine.asked[-1] == "pip --python=venv-python install --require-hashes --requirement=lock"


def test_without_any_pip_the_missing_packages_are_named(monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(Exception, match="python3-venv python3-pip"):
        install_on(monkeypatch, Machine([]))


@pytest.mark.parametrize(
    ("complaint", "shown"),
    [
        ("WARNING: Retrying, broken by 'NewConnectionError'\nERROR: none found", "no network"),
        ("error: Request failed\n  Caused by: dns error: name not known", "no network"),
        ("error sending request\n  cause: invalid peer certificate: UnknownIssuer", "certificate$"),
        (
            "ERROR: THESE PACKAGES DO NOT MATCH THE HASHES FROM\n    click==8.5.1 from file:///x.whl (from -r lock",
            r"fetched as click==8\.5\.1 is not the file that was locked",
        ),
        (
            "error: Failed to download `click==8.5.1`\n  cause: Hash mismatch for `click==8.5.1`\n\n  Expected:\n  00",
            r"fetched as click==8\.5\.1 is not the file that was locked",
        ),
        (
            "ERROR: Hashes are required in --require-hashes mode, but\n    click==8.5.1 --hash=sha256:00",
            r"no digest of click==8\.5\.1; pin",
        ),
        (
            "error: all requirements must have a hash, but none were provided for: click==8.5.1, segno==1",
            r"no digest of click==8\.5\.1; pin",
        ),
        ("Collecting click\nERROR: No matching distribution found for click==99", "found for click==99$"),
    ],
)
def test_a_failure_is_told_in_one_line(monkeypatch: pytest.MonkeyPatch, complaint: str, shown: str) -> None:
    with pytest.raises(Exception, match=shown) as caught:
        install_on(monkeypatch, Machine([], complaint), uv="uv")
    assert "\n" not in str(caught.value)


def test_a_failed_set_up_has_its_own_exit_code(checkout: Checkout) -> None:
    (checkout.root / "requirements.lock").write_text("no-such-package==1\n")
    done = checkout.run("presslore", during="exit 1", PIP_NO_INDEX="1", PIP_CONFIG_FILE=os.devnull)
    assert done.returncode == 69
    assert done.stdout == ""
    assert len(done.stderr.splitlines()) == 2


@pytest.fixture
def wheels(tmp_path: Path) -> Path:
    """A folder with the wheel of one small package, for a pip to find without a network."""
    folder = tmp_path / "wheels"
    folder.mkdir()
    about = {"METADATA": "Metadata-Version: 2.1\nName: press\nVersion: 1\n", "WHEEL": "Wheel-Version: 1.0\n"}
    about["WHEEL"] += "Generator: by hand\nRoot-Is-Purelib: true\nTag: py3-none-any\n"
    with zipfile.ZipFile(folder / "press-1-py3-none-any.whl", "w") as wheel:
        wheel.writestr("press.py", "")
        wheel.writestr("press-1.dist-info/RECORD", "")
        for name, text in about.items():
            wheel.writestr(f"press-1.dist-info/{name}", text)
    return folder


@pytest.mark.parametrize(
    ("digest", "told"),
    [
        (None, "dev: the lock files hold no digest of press==1; pin it with ./dev lock"),
        ("0" * 64, "dev: what was fetched as press==1 is not the file that was locked, and is not used; start again"),
        ("its own", "dev: ready"),
    ],
)
def test_only_what_was_locked_is_installed(checkout: Checkout, wheels: Path, digest: str | None, told: str) -> None:
    (wheel,) = wheels.iterdir()
    right = hashlib.sha256(wheel.read_bytes()).hexdigest() if digest == "its own" else digest
    (checkout.root / "requirements.lock").write_text(f"press==1 --hash=sha256:{right}\n" if right else "press==1\n")
    settings = {"PIP_NO_INDEX": "1", "PIP_CONFIG_FILE": os.devnull, "PIP_FIND_LINKS": str(wheels)}
    done = checkout.run("presslore", during="exit 1", **settings)
    assert done.stderr.splitlines()[-1] == told
    assert done.returncode == (0 if digest == "its own" else 69)
    assert bool(list(checkout.root.glob(".venv/lib/*/site-packages/press.py"))) == (digest == "its own")


def test_each_lock_holds_what_it_adds_in_the_words_of_the_whole(
    checkout: Checkout, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A package that the last set wants on more machines is wanted there from the first."""
    dev = load_dev(checkout.root)
    (checkout.root / "pyproject.toml").write_text(PROJECT)
    (checkout.root / "requirements-site.lock").write_text("# what a site needs\n-r requirements.lock\nold==1\n")
    monkeypatch.setattr(dev, "uv_to_lock_with", lambda folder: "uv")
    monkeypatch.setattr(dev, "run", pretend_to_resolve)
    asked = list[bool]()
    monkeypatch.setattr(dev, "lock_node", lambda: asked.append(True))
    assert dev.lock() == 0
    assert asked == [True]
    locks = [(checkout.root / name).read_text() for name in dev.LOCKS.values()]
    assert locks == [
        "# nothing\na==1\n    --hash=of a for 3\n",
        "# what a site needs\n-r requirements.lock\nb==1\n    --hash=of b for 3\n",
        "# nothing\nc==1\n    --hash=of c for 3\n",
    ]


PROJECT = """
project.dependencies = ["a"]
project.optional-dependencies.handbook = ["b"]
dependency-groups.dev = ["c"]
"""


def pretend_to_resolve(command: list[str]) -> str:
    """Pin whatever is asked for, and tell in each pin how many were asked for together."""
    asked = Path(command[-3]).read_text().split()
    pins = [f"{name}==1\n    --hash=of {name} for {len(asked)}" for name in asked]
    Path(command[-1].partition("=")[2]).write_text("\n".join(pins) + "\n")
    kept = Path(command[-2].partition("=")[2]).read_text().split()
    assert kept == [f"{name}==1" for name in asked[:-1]]
    return ""


def test_an_old_python_is_told_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "version_info", (3, 9, 2))
    with pytest.raises(SystemExit, match=r"needs Python 3\.11 or newer; this is 3\.9"):
        load_dev()


def test_somebody_who_looks_on_sees_the_packages_counted(checkout: Checkout) -> None:
    (checkout.root / "requirements.lock").write_text("press==1 --hash=sha256:00\nplaten==2 --hash=sha256:00\n")
    during = "printf 'Collecting press==1\\nDownloading\\nCollecting platen==2\\n'"
    assert "package" not in checkout.run("presslore", during=during).stderr.replace("runtime packages", "")
    shutil.rmtree(checkout.root / ".venv")
    path = f"{checkout.tools}{os.pathsep}{os.environ['PATH']}"
    env = {**os.environ, "PATH": path, "CALLS": str(checkout.calls), "DURING": during}
    arguments = [str(checkout.root / "dev"), "presslore"]
    said = str(pexpect.spawn(sys.executable, arguments, env=env, encoding="utf-8", timeout=60).read())
    assert "\rdev: package 1 of 2\rdev: package 2 of 2\r\ndev: ready\r\n" in said


# On Windows, as far as that can be told elsewhere.


@pytest.fixture
def dev_on_windows(monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    with monkeypatch.context() as patch:
        patch.setattr(os, "name", "nt")
        return load_dev()


def test_programs_lie_elsewhere_on_windows(dev_on_windows: ModuleType) -> None:
    assert dev_on_windows.WINDOWS
    programs = [dev_on_windows.PYTHON, *dev_on_windows.CHECKS["floors"][:1]]
    assert [Path(one).relative_to(CHECKOUT).as_posix() for one in programs] == [
        ".venv/Scripts/python.exe",
        ".venv/Scripts/lint-imports.exe",
    ]
    assert dev_on_windows.program_in("C:\\a\\venv", "uv").endswith("uv.exe")


def test_windows_waits_for_the_command_and_passes_its_exit_code_on(
    dev_on_windows: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "execve", lambda *given: pytest.fail("on Windows the shell would take it to be over"))
    monkeypatch.setattr(dev_on_windows, "PYTHON", sys.executable)
    assert dev_on_windows.become(["-c", "raise SystemExit(3)"]) == 3


def test_ctrl_c_is_left_to_the_command(dev_on_windows: ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    ends = [KeyboardInterrupt, KeyboardInterrupt]

    class Process:
        def wait(self) -> int:
            if ends:
                raise ends.pop()
            return 130

    monkeypatch.setattr(subprocess, "Popen", lambda command, env: Process())
    assert dev_on_windows.become(["-m", "diagnose"]) == 130
    assert not ends


def test_one_start_waits_for_another_on_windows(
    dev_on_windows: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    import fcntl

    monkeypatch.setitem(sys.modules, "msvcrt", msvcrt(fcntl.flock, fcntl.LOCK_EX | fcntl.LOCK_NB))
    monkeypatch.setitem(sys.modules, "fcntl", None)
    monkeypatch.setattr(sys, "platform", "win32")
    monkeypatch.setattr(dev_on_windows, "VENV", str(tmp_path / ".venv"))
    first = dev_on_windows.hold_lock()
    monkeypatch.setattr(time, "sleep", lambda seconds: first.close())
    with dev_on_windows.hold_lock():
        assert capsys.readouterr().err == "dev: another start is setting up .venv; waiting for it\n"


def test_what_is_written_has_the_same_line_ends_everywhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "linesep", "\r\n")
    dev = load_dev()
    dev.write(str(tmp_path / "lock"), "a\nb\n")
    assert (tmp_path / "lock").read_bytes() == b"a\nb\n"
