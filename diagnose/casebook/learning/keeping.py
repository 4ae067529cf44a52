"""Writes what was learnt into the shop's folder, with the smallest change, and takes the last such change back.

Beside ``kb/learned.yaml`` a hidden file keeps how it was before, with the digest of how it was left: taking back never
undoes what somebody changed by hand since.
"""

import json
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path
from typing import Any

from diagnose.casebook.learning.lesson import Lesson
from diagnose.casebook.writing.yaml_edit import YamlFile
from diagnose.files.reading import place_of, read_if_there
from diagnose.files.writing import replace_all
from diagnose.knowledge.conditions import Condition, Test
from diagnose.knowledge.learned import CASES
from diagnose.knowledge.model import NEVER, Chance
from diagnose.knowledge.numbers import Learned, LearnedCause
from diagnose.problems import PressloreError

FILE = Path("kb") / "learned.yaml"
BEFORE = Path("kb") / ".learned-before.json"
HEAD = (
    "Numbers that this shop's cases have taught. They take the place of those that ship; all else stays as it is.\n"
    "`presslore learn --apply` writes this file anew, `presslore learn --undo` takes the last change back."
)


def as_yaml(lesson: Lesson) -> dict[str, Any]:
    """What stands under ``learned``."""
    learned = lesson.learned
    parts = {
        "turns-up": {key: _cause(learnt) for key, learnt in learned.causes.items()},
        "brings": _rules(learned),
        "shows": {
            key: {outcome: _chances(chances) for outcome, chances in learnt.shows.items()}
            for key, learnt in learned.checks.items()
        },
        "cures": {key: _chances(learnt.cures) for key, learnt in learned.fixes.items()},
        "minutes": {key: _plain(learnt.minutes) for key, learnt in learned.minutes.items()},
    }
    return {"basis": CASES, "cases": lesson.cases, **{name: part for name, part in parts.items() if part}}


def _cause(learnt: LearnedCause) -> Any:
    if not learnt.shapes:
        return _chance(learnt.turns_up or NEVER)
    when = [{"if": _if(shape.condition), "turns-up": _chance(shape.turns_up)} for shape in learnt.shapes]
    return {**({"usually": _chance(learnt.turns_up)} if learnt.turns_up else {}), "when": when}


def _rules(learned: Learned) -> dict[str, dict[str, Any]]:
    result: dict[str, dict[str, Any]] = {}
    for rule in learned.rules:
        causes = result.setdefault(rule.defect, {})
        if rule.condition.tests:
            causes.setdefault(rule.cause, []).append({"if": _if(rule.condition), "brings": _chance(rule.brings)})
        else:
            causes[rule.cause] = _chance(rule.brings)
    return result


def _chances(chances: Mapping[str, Chance]) -> dict[str, Any]:
    return {cause: _chance(chance) for cause, chance in chances.items()}


def _chance(chance: Chance) -> Any:
    return chance.word or _plain(chance.value)


def _if(condition: Condition) -> dict[str, Any]:
    return {test.fact: _required(test) for test in condition.tests}


def _required(test: Test) -> Any:
    if test.span is not None:
        return test.written
    values = [_plain(value) if isinstance(value, float) else value for value in test.values]
    return values if len(values) > 1 else values[0]


def _plain(value: float) -> int | float:
    return int(value) if value == int(value) else value


def apply(lesson: Lesson, folder: Path) -> Path | None:
    """Write what was learnt, whole or not at all. Returns the file; None where it says just that already. Raises
    PressloreError where it cannot be written."""
    file = YamlFile(folder / FILE, HEAD)
    had = file.before
    file.set(("learned",), as_yaml(lesson))
    if not file.changed:
        return None
    kept = {"before": None if had is None else had.decode("utf-8"), "after": _digest(file.data)}
    note = folder / BEFORE
    said = (json.dumps(kept, indent=1) + "\n").encode()
    replace_all({note: (read_if_there(note), said), file.path: (had, file.data)})
    return file.path


def undo(folder: Path) -> Path:
    """Put back what was there before the last change, to the letter. Raises PressloreError where there is nothing to
    take back, or where the file was changed since."""
    note, path = folder / BEFORE, folder / FILE
    kept, now = read_if_there(note), read_if_there(path)
    if kept is None:
        raise PressloreError(f"{path}: no change by `presslore learn --apply` to take back")
    try:
        plain = json.loads(kept)
        before, after = plain["before"], plain["after"]
    except (ValueError, KeyError, TypeError) as error:
        raise PressloreError(
            f"{place_of(error, str(note))}: damaged, so that nothing can be taken back; take it away by hand"
        ) from error
    if now is None or _digest(now) != after:
        raise PressloreError(
            f"{path}: changed since the numbers were written, so that nothing was taken back; mend it by hand, or take "
            "it away to go back to the numbers that ship"
        )
    replace_all({path: (now, None if before is None else before.encode()), note: (kept, None)})
    return path


def _digest(data: bytes) -> str:
    return sha256(data).hexdigest()
