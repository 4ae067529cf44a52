"""How a new rule looks before it is kept: what is near it, its files, and which worked cases it answers otherwise."""

import difflib
import os
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from diagnose.casebook.answers import Answer, OtherAnswer
from diagnose.casebook.proposing.draft import Draft
from diagnose.casebook.proposing.faults import Fault
from diagnose.casebook.proposing.fields import FIELDS
from diagnose.casebook.proposing.similar import Near
from diagnose.casebook.writing.yaml_edit import YamlFile
from diagnose.cli.terminal.screen import Screen
from diagnose.knowledge.model import Knowledge
from diagnose.speech.amounts import in_words, percent
from diagnose.speech.saying import say

FORMAT, VERSION = "presslore-new-rule", 1
MOST_CHANGES = 6


def shown_path(path: Path) -> str:
    """The path from the working folder where it lies below that."""
    whole, here = os.path.abspath(path), os.path.join(os.getcwd(), "")
    return whole.removeprefix(here)


def faults_card(screen: Screen, faults: Sequence[Fault]) -> None:
    """Everything that is missing and wrong, a line each."""
    missing = [fault for fault in faults if fault.missing]
    wrong = [fault for fault in faults if not fault.missing]
    if missing:
        screen.line("Missing:")
        screen.columns(((f"  --{fault.field}", _with_example(fault)) for fault in missing), gap=3)
    if wrong:
        screen.line(say("cannot-be-taken"))
        screen.columns(((f"  --{fault.field}", fault.wrong) for fault in wrong), gap=3)


def _with_example(fault: Fault) -> str:
    field = FIELDS[fault.field]
    return f"{fault.wrong} Such as: {field.example}" if fault.wrong == field.about else fault.wrong


def near_card(screen: Screen, knowledge: Knowledge, near: Sequence[Near]) -> None:
    """The rules nearest to the new one."""
    if near:
        screen.line(say("the-nearest-rules-there-are"), "title")
    for each in near:
        rule = each.rule
        titles = f"{knowledge.causes[rule.cause].title} → {knowledge.defects[rule.defect].title}"
        screen.hang("-", f"{titles} ({in_words(rule.brings.value, knowledge.scale)})", indent=1)


def files_card(screen: Screen, files: Sequence[YamlFile]) -> None:
    """The lines that are added to each file, as they will stand there."""
    for file in files:
        new = file.before is None
        screen.line(f"{shown_path(file.path)} ({'new' if new else 'changed'})", "title")
        screen.whole("\n".join(_lines(file)).rstrip())


def _lines(file: YamlFile) -> Iterator[str]:
    if file.before is None:
        yield from (f"  {line}" for line in file.text().splitlines())
        return
    before = file.before.decode("utf-8-sig").splitlines()
    after = file.text().removeprefix("\ufeff").splitlines()
    for line in difflib.unified_diff(before, after, lineterm="", n=0):
        if not line.startswith(("---", "+++", "@@")):
            yield f"{line[0]} {line[1:]}"


def changes_card(screen: Screen, after: Knowledge, changes: Sequence[OtherAnswer]) -> None:
    """Which of the worked cases known before are answered otherwise, and how."""
    if not changes:
        screen.line(say("no-worked-case-changes"), "good")
        return
    count = len(changes)
    screen.line(f"{count} worked case{'s' if count > 1 else ''} of before change{'' if count > 1 else 's'}:", "title")
    for change in changes[:MOST_CHANGES]:
        screen.hang("-", f"{change.defect.title}: {change.case.story}", indent=1)
        for words in _change(after, change):
            screen.hang(" ", words, indent=2)
    if count > MOST_CHANGES:
        screen.line(f"   and {count - MOST_CHANGES} more")


def _change(knowledge: Knowledge, change: OtherAnswer) -> Iterator[str]:
    before, after = change.before, change.after
    if before.order != after.order:
        yield f"was: {_causes(knowledge, before)}"
        yield f"now: {_causes(knowledge, after)}"
    if before.step != after.step:
        yield f"next step: {_step(knowledge, before)} → {_step(knowledge, after)}"


def _causes(knowledge: Knowledge, answer: Answer) -> str:
    shown = [f"{knowledge.causes[cause].title} {percent(chance)}" for cause, chance in answer.causes[:3]]
    return ", ".join(shown) or "no cause comes up"


def _step(knowledge: Knowledge, answer: Answer) -> str:
    kind, step = answer.step
    known = knowledge.checks.get(step) if kind == "check" else knowledge.fixes.get(step)
    return known.title if known else "call for help"


def new_rule_json(
    draft: Draft,
    cause: str,
    files: Sequence[YamlFile],
    changes: Sequence[OtherAnswer],
    near: Sequence[Near],
    kept: bool,
) -> dict[str, Any]:
    """The new rule as plain data."""
    return {
        "format": FORMAT,
        "version": VERSION,
        "kept": kept,
        "defect": draft.one("defect"),
        "cause": cause,
        "files": [{"path": shown_path(f.path), "new": f.before is None, "text": f.text()} for f in files],
        "changes": [_change_json(change) for change in changes],
        "nearest": [{"defect": n.rule.defect, "cause": n.rule.cause, "likeness": n.score} for n in near],
    }


def _change_json(change: OtherAnswer) -> dict[str, Any]:
    return {
        "defect": change.defect.id,
        "story": change.case.story,
        "before": _answer_json(change.before),
        "after": _answer_json(change.after),
    }


def _answer_json(answer: Answer) -> dict[str, Any]:
    kind, step = answer.step
    return {
        "causes": [{"id": cause, "probability": round(chance, 6)} for cause, chance in answer.causes],
        "next": {"kind": kind, "id": step},
    }
