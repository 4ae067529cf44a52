"""How long a person waits: to the first question, and from an answer to the next question.

The start is measured at a pseudo-terminal, from starting the process to the question on the screen, against a
program that only imports click and prints a line, taken in turns. Answers are taken from rehearsed dialogues on
what ships, and on a rule set ten times its size made of ten renamed copies.
"""

import os
import statistics
import sys
import time
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

import pexpect

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Pressed, Saw
from diagnose.dialogue.rehearsal import rehearse
from diagnose.dialogue.session import Session
from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from tests.bench.rows import Row

ROOT = Path(__file__).parents[2]
STARTS = 15
START_LIMIT, NEXT_LIMIT, LARGE_LIMIT = 3.0, 0.030, 0.150
CASES = (
    ("tea-towel-65-35", ("faint-colour", "ghosting"), ("dwell-short", "sheet-lifts-on-opening")),
    ("tea-towel-polyester", ("faint-colour",), ("platen-runs-cool",)),
    ("tea-towel-polyester", ("blotches",), ("damp-item",)),
    ("tea-towel-polyester", ("banding",), ("nozzles-blocked",)),
    ("ceramic-tile", ("haze",), ("film-left-on",)),
    ("tea-towel-polyester", ("press-box", "scorching"), ("platen-runs-hot",)),
)


def run() -> list[Row]:
    """The rows of this bench."""
    ours, bare = _starts()
    knowledge = load(shipped_folder())
    large = ten_times(knowledge)
    small_waits, large_waits = list(_waits(knowledge, CASES)), list(_waits(large, CASES))
    return [
        Row(
            "first question, against a program that only imports click",
            f"{ours * 1e3:.0f} ms against {bare * 1e3:.0f} ms: {ours / bare:.2f}x",
            f"<= {START_LIMIT:g}x",
            ours / bare <= START_LIMIT,
        ),
        _row(f"answer to next question, {len(knowledge.causes)} causes", small_waits, NEXT_LIMIT),
        _row(f"answer to next question, {len(large.causes)} causes", large_waits, LARGE_LIMIT),
    ]


def _row(name: str, waits: list[float], limit: float) -> Row:
    middle, longest = statistics.median(waits), max(waits)
    measured = f"median {middle * 1e3:.1f} ms, longest {longest * 1e3:.1f} ms of {len(waits)}"
    return Row(name, measured, f"median <= {limit * 1e3:.0f} ms", middle <= limit)


def _starts() -> tuple[float, float]:
    ours, bare = [], []
    for _ in range(STARTS):
        ours.append(_until_shown(["-m", "diagnose", "diagnose"]))
        bare.append(_until_shown(["-c", "import click; print('What was pressed?')"]))
    return statistics.median(ours), statistics.median(bare)


def _until_shown(arguments: list[str]) -> float:
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    start = time.perf_counter()
    child = pexpect.spawn(sys.executable, arguments, env=environment, encoding="utf-8", timeout=20)
    child.expect("What was pressed")
    waited = time.perf_counter() - start
    child.close(force=True)
    return waited


def _waits(knowledge: Knowledge, cases: Any) -> Iterator[float]:
    """Seconds from an answer to the next advice, over whole rehearsed dialogues; the first builds the network."""
    for item, saw, truth in cases:
        start = Consultation(knowledge, Shop(), Session((Pressed(item), Saw(saw))))
        for turn in rehearse(start, frozenset(truth)):
            again = turn.consultation.then(turn.consultation.session)
            begun = time.perf_counter()
            _ = again.advice
            yield time.perf_counter() - begun


def ten_times(knowledge: Knowledge) -> Knowledge:
    """The knowledge with nine renamed copies of its causes, checks, fixes and defects. Copies of defects share
    causes with the original's neighbours, so that the copies do not fall apart into separate networks."""
    large = knowledge
    for copy in range(1, 10):
        renamed = {cause: f"{cause}-{copy}" for cause in knowledge.causes}
        large = replace(
            large,
            causes={**large.causes, **{renamed[c]: replace(v, id=renamed[c]) for c, v in knowledge.causes.items()}},
            checks={**large.checks, **{f"{c}-{copy}": _check(v, copy, renamed) for c, v in knowledge.checks.items()}},
            fixes={
                **large.fixes,
                **{
                    f"{f}-{copy}": replace(v, id=f"{f}-{copy}", cures={renamed[c]: p for c, p in v.cures.items()})
                    for f, v in knowledge.fixes.items()
                },
            },
            defects=_defects(large.defects, knowledge, copy, renamed),
        )
    return large


def _check(check: Any, copy: int, renamed: Mapping[str, str]) -> Any:
    outcomes = tuple(replace(o, shows={renamed[c]: p for c, p in o.shows.items()}) for o in check.outcomes)
    return replace(check, id=f"{check.id}-{copy}", outcomes=outcomes)


def _defects(grown: Mapping[str, Any], knowledge: Knowledge, copy: int, renamed: Mapping[str, str]) -> dict[str, Any]:
    """The copies of the defects; every third rule is also given to the original, so that one sight has many
    more causes than today."""
    result = dict(grown)
    for name, defect in knowledge.defects.items():
        rules = tuple(replace(rule, cause=renamed[rule.cause], defect=f"{name}-{copy}") for rule in defect.rules)
        result[f"{name}-{copy}"] = replace(defect, id=f"{name}-{copy}", rules=rules)
        shared = tuple(replace(rule, defect=name) for rule in rules[copy % 3 :: 3])
        result[name] = replace(result[name], rules=(*result[name].rules, *shared))
    return result
