"""The worst that may be known and seen is answered in bounded work, told and talked; what ships is answered exactly."""

import json
import os
import subprocess
import sys
from pathlib import Path
from random import Random
from typing import Any

import pytest

from diagnose.knowledge.loading import load, shipped_folder
from diagnose.reasoning import arraywise, beliefs, listwise
from diagnose.reasoning.beliefs import MOST, WIDEST, believe, division
from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.factors import factors
from diagnose.reasoning.network import Network, network
from diagnose.reasoning.reasons import MOST_BOUNDED, MOST_TURNED, MOST_WEIGHED, reasons, turns
from diagnose.reasoning.sweep import effort
from tests.reasoning.networks import plain, with_checks
from tests.reasoning.worst import FOLDERS, Sizes, asked, write

ROUNDING = 1e-9
DAILY = (0, 4, 6)  # of the worst folders: many causes, many checks, many names


class Counting:
    """The sweep's arithmetic, with the weights it moves counted."""

    def __init__(self) -> None:
        self.moved = 0

    def of(self, width: int) -> Any:
        kind: Any = listwise if width <= beliefs.LISTS_UP_TO else arraywise
        return _Counted(kind, self)


class _Counted:
    def __init__(self, kind: Any, counting: Counting) -> None:
        self._kind, self._counting = kind, counting

    def __getattr__(self, name: str) -> Any:
        return getattr(self._kind, name)

    def forth(self, f: Any, moves: Any) -> Any:
        self._counting.moved += len(f)
        return self._kind.forth(f, moves)


@pytest.fixture
def counting(monkeypatch: pytest.MonkeyPatch) -> Counting:
    count = Counting()
    monkeypatch.setattr(beliefs, "arithmetic", count.of)
    return count


def everything(causes: int, findings: int) -> tuple[Network, Evidence]:
    """Every cause brings on every finding, and all are seen."""
    net = plain(Random(causes), causes, findings, causes, (0.005, 0.1), (0.005, 0.03), (0.1, 0.95))
    return net, Evidence(seen=tuple(net.defects))


@pytest.mark.parametrize(("causes", "findings"), [(60, 17), (400, 17), (1_600, 17), (300, 60), (20, 300), (1_500, 4)])
def test_the_work_is_bounded_however_many_causes_and_findings_there_are(
    causes: int, findings: int, counting: Counting
) -> None:
    """Weights moved on the way there, as many again come back. 1,600 causes on 17 findings were 200 million."""
    net, evidence = everything(causes, findings)
    found = believe(net, evidence)
    assert counting.moved <= MOST
    counting.moved = 0
    reasons(net, evidence, found, list(range(12)))
    assert counting.moved <= MOST_WEIGHED + MOST_BOUNDED
    assert found.exact == (division(factors(net, evidence)).exact)


def test_what_would_change_the_answer_is_bounded_as_well(counting: Counting) -> None:
    random = Random(3)
    net = with_checks(random, causes=6, defects=4, checks=3)
    evidence = Evidence(seen=tuple(net.defects))
    turns(net, evidence, believe(net, evidence), list(net.checks))
    assert counting.moved <= MOST_TURNED


def test_past_the_work_the_truth_lies_within_the_bounds() -> None:
    net, evidence = everything(120, 12)
    exact, bounded = believe(net, evidence), believe(net, evidence, most=1 << 19, most_bounded=1 << 19)
    assert exact.exact
    assert not bounded.exact
    for truth, told, (least, most) in zip(exact.present, bounded.present, bounded.bounds, strict=True):
        assert least - ROUNDING <= truth <= most + ROUNDING
        assert least - ROUNDING <= told <= most + ROUNDING


def test_where_findings_are_left_aside_the_bounds_claim_nothing() -> None:
    net, evidence = everything(200, 300)
    found = believe(net, evidence)
    assert not found.exact
    assert set(found.bounds) == {(0.0, 1.0)}
    assert all(0.0 <= chance <= 1.0 for chance in (*found.present, *found.alive, *found.behind))


def test_reasons_of_the_causes_asked_for_are_what_they_are_for_all() -> None:
    """Asking for few causes changes the order of the sweep, and nothing else."""
    net, evidence = everything(30, 9)
    found = believe(net, evidence)
    all_of_them = reasons(net, evidence, found, range(30))
    for cause in (0, 7, 29):
        few = reasons(net, evidence, found, [cause])[cause]
        assert [one.finding for one in few] == [one.finding for one in all_of_them[cause]]
        assert [one.weight for one in few] == pytest.approx([one.weight for one in all_of_them[cause]], abs=1e-6)


def test_nothing_that_ships_comes_near_the_limits() -> None:
    """Whatever of it is seen and answered: where the width allows it, answers and reasons are exact."""
    net, random = network(load(shipped_folder()), {}), Random(11)
    wide = 0
    for _ in range(600):
        seen = random.sample(sorted(net.defects), random.randint(1, 20))
        checks = random.sample(sorted(net.checks), random.randint(0, 25))
        evidence = Evidence(seen=tuple(seen), answers={c: (random.choice(net.checks[c].outcomes), 0) for c in checks})
        given = factors(net, evidence)
        width, work = effort(given, given.loud)
        if width <= WIDEST:
            wide += width >= 14
            assert work <= MOST
            assert division(given, most=MOST_WEIGHED // (len(seen) + len(checks))).exact
    assert wide > 20


@pytest.mark.slow
@pytest.mark.parametrize(
    "sizes",
    [pytest.param(one, marks=() if number in DAILY else pytest.mark.thorough) for number, one in enumerate(FOLDERS)],
    ids=str,
)
def test_the_worst_folders_are_answered_within_a_gibibyte_and_no_hang(sizes: Sizes, tmp_path: Path) -> None:
    """Ten seconds of work are a hang: ``./dev bench worst`` holds the two that a person is promised."""
    shop = write(tmp_path / "shop", sizes)
    assert _child("rules", "check", "--shop", str(shop)).returncode == 0
    told = _child("diagnose", "--saw", asked(sizes), "--shop", str(shop), "--json")
    assert told.returncode == 0, told.stderr[-500:]
    assert json.loads(told.stdout)["causes"]
    talked = _child("diagnose", "--shop", str(shop), typed=f"\n{asked(sizes)}\ny\nw\n?\ns\n")
    assert talked.returncode == 0, talked.stderr[-500:]


LIMITED = """
import io, os, resource, sys
sys.stdin = io.StringIO(sys.stdin.read())
checking = sys.argv[1] == "rules"
resource.setrlimit(resource.RLIMIT_CPU, (120, 120) if checking else (10, 10))
if not checking:
    resource.setrlimit(resource.RLIMIT_AS, (1 << 30, 1 << 30))
from diagnose.cli.terminal import screen
screen.both_terminals = lambda: len(sys.argv) == 4  # before a command takes it from there
from diagnose.cli.program import run
sys.exit(run(sys.argv[1:]))
"""


def _child(*arguments: str, typed: str = "") -> subprocess.CompletedProcess[str]:
    """The command within its limits. Nobody watches it: what a watcher costs is no work of its own."""
    alone = {name: value for name, value in os.environ.items() if not name.startswith("COVERAGE_")}
    return subprocess.run(
        [sys.executable, "-P", "-c", LIMITED, *arguments],
        input=typed,
        capture_output=True,
        text=True,
        timeout=300,
        env={**alone, "OPENBLAS_NUM_THREADS": "1"},
    )
