"""Kills the command at a chosen system call, by strace, and looks at what it leaves behind.

A trial runs once untouched, to list the calls by which it changes files in its folder; then again from the same
beginning for each of them, and is killed as that call begins.
"""

import json
import os
import re
import shutil
import signal
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from threading import Timer

FORKING = Path(__file__).with_name("forking.py")
CHECKOUT = Path(__file__).parents[2]
# Calls that change what is on the disk. Not every machine has each of them: ? lets strace pass over those.
CHANGING = (
    "open openat creat write pwrite64 writev pwritev fsync fdatasync rename renameat renameat2 link linkat symlink "
    "symlinkat unlink unlinkat rmdir mkdir mkdirat ftruncate truncate fallocate chmod fchmod fchmodat utimensat"
).split()
AN_HOUR = 3600.0  # after so long nothing hidden is still somebody's work
PATIENCE = 300.0  # seconds for one start of the command

Call = tuple[str, int]  # its name, and which of that name it is, from 1
Files = dict[str, bytes]


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """``prepare`` lays out a folder, in which ``command`` is then called, with ``typed`` as its input. ``told`` stands
    in its output once it has said that the work is done. ``seen`` is what a person finds in the folder; it raises where
    something cannot be read. ``once``: to call it a second time is refused. ``adds``: it comes on top of what is there.
    ``stays``: where what was begun and not ended may lie afterwards.
    """

    name: str
    prepare: Callable[[Path], object]
    command: tuple[str, ...]
    told: str
    seen: Callable[[Path], object]
    typed: str = ""
    once: bool = False
    adds: bool = False
    stays: str = ""


@dataclass(frozen=True, slots=True)
class Run:
    code: int
    out: str


@dataclass(frozen=True, slots=True)
class Clean:
    """A trial that nobody disturbed: the folder before, what was seen before and after, and how it was done."""

    template: Path
    before: object
    after: object
    files: frozenset[str]
    calls: tuple[Call, ...]


@dataclass(frozen=True, slots=True)
class Bench:
    """A place to hold trials, and the compiled knowledge that several benches share."""

    root: Path
    cache: Path

    @property
    def place(self) -> Path:
        return self.root / "place"

    def run(self, trial: Trial, *strace: str) -> Run:
        settings = {
            "PATH": os.environ["PATH"],
            "HOME": str(self.place),
            "XDG_STATE_HOME": str(self.place / "state"),
            "XDG_DATA_HOME": str(self.place / "data"),
            "PRESSLORE_CACHE": str(self.cache),
        }
        typed, said = self.root / "typed", self.root / "said"
        typed.write_text(trial.typed, encoding="utf-8")
        code = started(
            strace,
            arguments=trial.command,
            folder=str(self.place),
            settings=settings,
            typed=str(typed),
            said=str(said),
        )
        return Run(code, said.read_text(encoding="utf-8", errors="replace"))

    def clean(self, trial: Trial) -> Clean:
        """Hold a trial undisturbed and list its calls; a shop's own knowledge is compiled and cached before that."""
        template, log = self.root / "template", self.root / "log"
        template.mkdir(parents=True)
        trial.prepare(template)
        self.begin(template)
        if (template / "shop").exists() or not self.cache.exists():
            self.run(trial)
            self.begin(template)
        before = trial.seen(self.place)
        self.begin(template)
        run = self.run(trial, *strace(CHANGING, "-y", "-s", "0", "-o", str(log)))
        assert run.code == 0, run.out
        assert trial.told in run.out, run.out
        calls = tuple(changing_calls(log.read_text(encoding="utf-8", errors="replace"), self.place))
        files = frozenset(names(self.place) | names(template))
        after = trial.seen(self.place)
        assert after != before
        return Clean(template, before, after, files, calls)

    def begin(self, template: Path) -> None:
        shutil.rmtree(self.place, ignore_errors=True)
        shutil.copytree(template, self.place, symlinks=True)

    def kill(self, trial: Trial, clean: Clean, call: Call) -> str:
        """Kill the trial at this call, and look. Returns what is wrong with what it left, "" where nothing is."""
        self.begin(clean.template)
        name, number = call
        run = self.run(trial, *strace([name], "-o", os.devnull, "-e", f"inject={name}:signal=KILL:when={number}"))
        try:
            return self._wrong(trial, clean, run)
        except Exception as error:
            return f"{type(error).__name__}: {error}"

    def _wrong(self, trial: Trial, clean: Clean, run: Run) -> str:
        found = trial.seen(self.place)
        done = found == clean.after
        if run.code == 0 or trial.told in run.out:
            if not done:
                return f"it said {trial.told!r}, and it is not so: {found}"
        elif not done and found != clean.before:
            return f"neither as before nor as after: {found}"
        grow_old(self.place)
        again = self.run(trial)
        if again.code != 0 and not (done and trial.once and "Traceback" not in again.out):
            return f"the next start failed: {again.out[-2000:]}"
        if trial.seen(self.place) != clean.after and not (trial.adds and done):
            return "the next start did not do it"
        left = {name for name in names(self.place) - clean.files if not name.startswith(trial.stays or "\0")}
        return f"left behind: {sorted(left)}" if left else ""


def started(strace: Sequence[str], **asked: object) -> int:
    """Start the command as asked, under strace where that is wanted, and return its exit code."""
    server = starter()
    assert server.stdin
    assert server.stdout
    server.stdin.write(json.dumps({**asked, "waits": bool(strace)}) + "\n")
    server.stdin.flush()
    process = int(server.stdout.readline())
    patience = Timer(PATIENCE, os.kill, (process, signal.SIGKILL))
    patience.start()
    try:
        tracer = traced(process, strace) if strace else None
        code = int(server.stdout.readline())
        assert tracer is None or tracer.wait() is not None
        return code
    finally:
        patience.cancel()


def traced(process: int, strace: Sequence[str]) -> "subprocess.Popen[bytes]":
    """Have a process that is to stand still go on once it does so and strace looks into it."""
    status = Path(f"/proc/{process}/status")
    while "State:\tT" not in status.read_text(encoding="ascii"):
        time.sleep(0.005)
    tracer = subprocess.Popen([*strace, "-p", str(process)])
    while "TracerPid:\t0\n" in status.read_text(encoding="ascii"):
        assert tracer.poll() is None, "strace may not look into the process"
        time.sleep(0.005)
    os.kill(process, signal.SIGCONT)
    return tracer


@cache
def starter() -> "subprocess.Popen[str]":
    """The process that all others are forked from, until this one ends."""
    settings = {
        "PATH": os.environ["PATH"],
        "PYTHONPATH": str(CHECKOUT),
        "PYTHONHASHSEED": "0",
        "PYTHONUTF8": "1",
        **{name: value for name, value in os.environ.items() if name.startswith(("COVERAGE_", "PYTHONPYCACHE"))},
    }
    command = [sys.executable, "-P", str(FORKING)]
    return subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, env=settings)


def can_trace() -> bool:
    """Whether strace is installed, and may look into other processes here."""
    if not shutil.which("strace"):
        return False
    looked = subprocess.run(["strace", "-qq", "-o", os.devnull, sys.executable, "-c", ""], capture_output=True)
    return looked.returncode == 0


def strace(calls: list[str], *options: str) -> list[str]:
    known = ",".join(f"?{name}" for name in calls)
    return ["strace", "-qq", "-e", f"trace={known}", *options]


def changing_calls(log: str, place: Path) -> list[Call]:
    """The calls in strace's log that change files in the folder."""
    count: Counter[str] = Counter()
    found = []
    for line in log.splitlines():
        match = re.match(r"(\w+)\(", line)
        if not match:
            continue
        name = match[1]
        count[name] += 1
        only_reads = name in ("open", "openat") and not re.search(r"O_CREAT|O_TRUNC|O_WRONLY|O_RDWR", line)
        if str(place) in line and not only_reads:
            found.append((name, count[name]))
    return found


def names(folder: Path) -> set[str]:
    """The files in a folder, with what is random or a moment in their names made alike."""
    paths = (path.relative_to(folder).as_posix() for path in folder.rglob("*") if not path.is_dir())
    return {re.sub(r"[0-9a-f]{8,}|\d[\d-]+", "…", path) for path in paths}


def files(folder: Path) -> Files:
    """What a person finds in a folder: every file that is not hidden."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and not any(part.startswith(".") for part in path.relative_to(folder).parts)
    }


def grow_old(folder: Path) -> None:
    """Make what lies in a folder an hour older, so that nothing is taken for the work of somebody who still lives."""
    then = time.time() - AN_HOUR
    for path in folder.rglob("*"):
        if not path.is_symlink():
            os.utime(path, (then, then))
