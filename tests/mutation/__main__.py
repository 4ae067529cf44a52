"""``./dev mutants [count] [--seed NUMBER]``: puts so many faults, picked by chance over all floors, into copies of the
checkout, runs the tests that go through the changed lines, and prints the faults that no test noticed.

Which test goes through which line is measured once, by running all of them (``--anew`` measures again, as is due
after a change). Faults that change nothing anybody could notice stand in ``equivalent.toml`` with the reason.
"""

import argparse
import os
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import tomllib
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from queue import SimpleQueue
from typing import Any

from tests.cover.__main__ import CHECKOUT
from tests.mutation.faults import Fault, faults
from tests.mutation.reach import KEPT, Reach, measure, reach

LONGEST = 60.0  # seconds of tests for one fault, the quickest first, as they took when they were measured
PATIENCE = 60.0  # seconds to wait for them, and ten times as long as they took
AT_ONCE = 2
ALLOWED = 0.05  # share of the faults that may go unnoticed
NOT_COPIED = (".git", ".venv*", ".node", ".covered", ".reached", ".*_cache", "__pycache__", "site", "generated")
NOTICED, SURVIVED, UNREACHED, SAME = "noticed", "survived", "no test goes there", "changes nothing"


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    fault: Fault
    end: str
    tests: int


def main(arguments: list[str]) -> int:
    asked = options().parse_args(arguments)
    if asked.anew or not (KEPT / "data").exists():
        measure()
    told = reach()
    picked = pick(asked.count, asked.seed, asked.within)
    print(f"{len(picked)} faults, seed {asked.seed}", flush=True)
    verdicts = list(judged(picked, told))
    return report(verdicts)


def options() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="./dev mutants", description="Put faults into the package: do tests notice?")
    parser.add_argument("count", nargs="?", type=int, default=200, help="how many (200)")
    parser.add_argument("--seed", type=int, default=1, help="another number picks others (1)")
    parser.add_argument("--within", default="", help="only modules whose path holds this, such as cli/rules")
    parser.add_argument("--anew", action="store_true", help="measure again which test goes through which line")
    return parser


def pick(count: int, seed: int, within: str = "", package: Path = CHECKOUT / "diagnose") -> list[Fault]:
    """So many faults by chance; each floor has its share by its size, and one at least."""
    floors: dict[str, list[Fault]] = {}
    for path in sorted(path for path in package.rglob("*.py") if within in path.as_posix()):
        floors.setdefault(path.relative_to(package).parts[0], []).extend(faults(path))
    chance, whole = random.Random(seed), sum(map(len, floors.values()))
    picked = []
    for found in floors.values():
        picked += chance.sample(found, min(len(found), max(1, round(count * len(found) / whole))))
    chance.shuffle(picked)
    return picked[:count]


def judged(picked: list[Fault], told: Reach) -> Iterator[Verdict]:
    """What becomes of each fault, several at a time, each in a copy of the checkout."""
    known = equivalent()
    with tempfile.TemporaryDirectory(prefix="presslore-mutants-") as folder:
        copies: SimpleQueue[Path] = SimpleQueue()
        for number in range(AT_ONCE):
            copies.put(copy(Path(folder) / str(number)))

        def judge(fault: Fault) -> Verdict:
            if named(fault) in known:
                return Verdict(fault=fault, end=SAME, tests=0)
            place = copies.get()
            try:
                return tried(fault, told, place)
            finally:
                copies.put(place)

        with ThreadPoolExecutor(AT_ONCE) as pool:
            for number, verdict in enumerate(pool.map(judge, picked), 1):
                show(number, verdict)
                yield verdict


def copy(place: Path) -> Path:
    shutil.copytree(CHECKOUT, place, ignore=shutil.ignore_patterns(*NOT_COPIED), symlinks=True)
    compiling = [sys.executable, "-m", "compileall", "-q", "--invalidation-mode=checked-hash", "diagnose", "tests"]
    subprocess.run(compiling, cwd=place, check=True)  # so that no changed module is taken for the compiled one
    return place


def tried(fault: Fault, told: Reach, place: Path) -> Verdict:
    """Run the tests that go through the changed lines."""
    path = fault.path.relative_to(CHECKOUT)
    tests = told.of(path, fault.line, fault.line + fault.was.count("\n"), LONGEST)
    if not tests:
        return Verdict(fault=fault, end=UNREACHED, tests=0)
    source = fault.path.read_bytes()
    try:
        (place / path).write_bytes(fault.into(source))
        noticed = fails(tests, place, PATIENCE + 10 * sum(told.took.get(test, 1.0) for test in tests))
    finally:
        (place / path).write_bytes(source)
    return Verdict(fault=fault, end=NOTICED if noticed else SURVIVED, tests=len(tests))


def fails(tests: list[str], place: Path, patience: float) -> bool:
    """Whether one of the tests fails, or they take too many seconds: a fault that hangs is noticed."""
    clean = {name: value for name, value in os.environ.items() if not name.startswith(("COVERAGE", "PYTEST"))}
    own = {"PYTHONPATH": str(place), "PYTHONDONTWRITEBYTECODE": "1", "XDG_CACHE_HOME": str(place / ".cache")}
    command = [sys.executable, "-P", "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", *tests]
    quiet: dict[str, Any] = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL, "start_new_session": True}
    with subprocess.Popen(command, cwd=place, env={**clean, **own}, **quiet) as running:
        try:
            return running.wait(patience) != 0
        except subprocess.TimeoutExpired:
            os.killpg(running.pid, signal.SIGKILL)
            return True


def named(fault: Fault) -> tuple[str, str, str, str]:
    """What a fault is known by, wherever its line has moved."""
    return (fault.path.relative_to(CHECKOUT).as_posix(), fault.inside, fault.was, fault.now)


def equivalent() -> set[tuple[str, str, str, str]]:
    """The faults known to change nothing."""
    told = tomllib.loads(Path(__file__).with_name("equivalent.toml").read_text(encoding="utf-8"))
    return {(one["module"], one["inside"], one["was"], one["now"]) for one in told["fault"]}


def show(number: int, verdict: Verdict) -> None:
    fault = verdict.fault
    place = f"{fault.path.relative_to(CHECKOUT)}:{fault.line} {fault.inside}"
    print(f"{number:4} {verdict.end} ({verdict.tests} tests): {place}")
    if verdict.end in (SURVIVED, UNREACHED):
        print(fault.diff(fault.path.read_bytes()))
    sys.stdout.flush()


def report(verdicts: list[Verdict]) -> int:
    """How many ended how; 1 where too many went unnoticed."""
    ends = Counter(verdict.end for verdict in verdicts)
    judged = len(verdicts) - ends[SAME]
    missed = ends[SURVIVED] + ends[UNREACHED]
    print(", ".join(f"{count} {end}" for end, count in ends.most_common()))
    print(f"unnoticed: {missed} of {judged}, {100 * missed / max(1, judged):.1f} % (at most {100 * ALLOWED:.0f} %)")
    return 1 if missed > ALLOWED * judged else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
