"""Reads the numbers that a shop's cases have taught."""

from collections.abc import Iterator

from diagnose.knowledge.conditions import ALWAYS
from diagnose.knowledge.documents.document import Node
from diagnose.knowledge.entry import Shape
from diagnose.knowledge.numbers import Learned, LearnedCause, LearnedCheck, LearnedFix, LearnedMinutes, LearnedRule
from diagnose.knowledge.readers.conditions import read_condition
from diagnose.knowledge.readers.reading import FolderReading


def read_learned(node: Node, reading: FolderReading) -> Learned:
    """What stands under ``learned`` in a kb file."""
    return Learned(
        causes={cause: _cause(entry, reading) for cause, entry in node.named("turns-up")},
        rules=tuple([rule for defect, entry in node.named("brings") for rule in _rules(entry, defect, reading)]),
        checks={check: _check(entry, reading) for check, entry in node.named("shows")},
        fixes={fix: LearnedFix(cures=reading.chances(entry), place=entry.place) for fix, entry in node.named("cures")},
        minutes={
            step: LearnedMinutes(minutes=entry.number(), place=entry.place) for step, entry in node.named("minutes")
        },
    )


def _cause(node: Node, reading: FolderReading) -> LearnedCause:
    """A chance; or a mapping with the usual one and those under a condition."""
    if not isinstance(node.value, dict):
        return LearnedCause(turns_up=reading.chance(node), place=node.place)
    shapes = tuple(reading.read(Shape, entry) for entry in node.each("when"))
    usual = node.get("usually")
    return LearnedCause(turns_up=reading.chance(usual) if usual else None, shapes=shapes or None, place=node.place)


def _rules(node: Node, defect: str, reading: FolderReading) -> Iterator[LearnedRule]:
    """By cause a chance; or a list with conditions, where several rules lead from it to the defect."""
    for cause, entry in node.named():
        parts = [*entry.each()] if isinstance(entry.value, list) else [entry]
        for one in parts:
            if_so, brings = one.get("if"), reading.chance(one.get("brings") or one)
            condition = read_condition(if_so) if if_so else ALWAYS
            yield LearnedRule(cause=cause, defect=defect, brings=brings, condition=condition, place=entry.place)


def _check(node: Node, reading: FolderReading) -> LearnedCheck:
    shows = {outcome: reading.chances(entry) for outcome, entry in node.named()}
    return LearnedCheck(shows=shows, place=node.place)
