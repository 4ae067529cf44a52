"""Which tests go through which line, from a run of all tests that coverage watched."""

import json
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import accumulate
from pathlib import Path

from coverage import CoverageData

from tests.cover.__main__ import CHECKOUT, run
from tests.cover.contexts import FIXTURE

KEPT = CHECKOUT / ".reached"  # the data, until they are measured anew


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """``lines``: the tests by module and line. ``took``: the seconds of each test."""

    lines: dict[Path, dict[int, frozenset[str]]]
    took: dict[str, float]

    def of(self, path: Path, first: int, last: int, longest: float) -> list[str]:
        """The tests that go through any of these lines, the quickest first, as many as take no more seconds than
        that. What runs when a module is imported is gone through by every test that goes through it at all."""
        own = self.lines.get(path, {})
        found = {test for line in range(first, last + 1) for test in own.get(line, ())}
        if "" in found and found == {""}:
            found = {test for tests in own.values() for test in tests}
        ranked = sorted(found - {""}, key=lambda test: (self.took.get(test, 1.0), test))
        until = accumulate(self.took.get(test, 1.0) for test in ranked)
        return [test for test, end in zip(ranked, until, strict=True) if end <= longest] or ranked[:1]


def reach(folder: Path = KEPT, checkout: Path = CHECKOUT) -> Reach:
    """The reach of the run whose data lie in a folder. A shared fixture's lines are those of all that need it."""
    needs: dict[str, list[str]] = defaultdict(list)
    took: dict[str, float] = {}
    for path in folder.glob("tests-*.json"):
        told = json.loads(path.read_text(encoding="utf-8"))
        took |= told["took"]
        for test, fixtures in told["needs"].items():
            for fixture in fixtures:
                needs[FIXTURE + fixture].append(test)
    data = CoverageData(str(folder / "data"))
    data.read()
    lines = {Path(name).relative_to(checkout): _tests(data, name, needs) for name in data.measured_files()}
    return Reach(lines=lines, took=took)


def _tests(data: CoverageData, name: str, needs: dict[str, list[str]]) -> dict[int, frozenset[str]]:
    shared: dict[tuple[str, ...], frozenset[str]] = {}  # many lines have the same
    found = {}
    for line, contexts in data.contexts_by_lineno(name).items():
        key = tuple(sorted(contexts))
        if key not in shared:
            shared[key] = frozenset(test for one in key for test in _meant(one, needs))
        found[line] = shared[key]
    return found


def _meant(context: str, needs: dict[str, list[str]]) -> Iterable[str]:
    return needs[context] if context.startswith(FIXTURE) else [context]


def measure() -> None:
    """Run all tests once, each watched by itself."""
    run(["-q", "-n", "auto", "-p", "tests.cover.contexts"], KEPT)
