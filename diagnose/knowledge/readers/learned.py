"""Reads the numbers that a shop's cases have taught."""

from collections.abc import Iterator

from diagnose.knowledge.chances import Shape
from diagnose.knowledge.documents.node import Node
from diagnose.knowledge.numbers import Learned, LearnedCause, LearnedCheck, LearnedFix, LearnedMinutes, LearnedRule
from diagnose.knowledge.readers.conditions import read_condition
from diagnose.knowledge.readers.reading import FolderReading


def read_learned(node: Node, reading: FolderReading) -> Learned:
    """What stands under ``learned`` in a kb file."""
    return Learned(
        causes={cause: _cause(entry, reading) for cause, entry in node.named("turns-up")},
        rules=tuple([rule for defect, entry in node.named("brings") for rule in _rules(entry, defect, reading)]),
        checks={
            check: LearnedCheck(
                shows={outcome: reading.chances(entry, outcome) for outcome, _ in _entries(entry)}, place=entry.place
            )
            for check, entry in node.named("shows")
        },
        fixes={
            fix: LearnedFix(
                cures={cause: reading.chance(chance) for cause, chance in _entries(entry)}, place=entry.place
            )
            for fix, entry in node.named("cures")
        },
        minutes={
            step: LearnedMinutes(minutes=_number(entry), place=entry.place) for step, entry in node.named("minutes")
        },
    )


def _number(node: Node) -> float:
    return float(node.value) if isinstance(node.value, int | float) else 0.0


def _entries(node: Node) -> Iterator[tuple[str, Node]]:
    """The entries of the mapping that the node is."""
    for name in node.value if isinstance(node.value, dict) else ():
        if entry := node.get(name):
            yield name, entry


def _cause(node: Node, reading: FolderReading) -> LearnedCause:
    """A chance; or a mapping with the usual one and those under a condition."""
    if not isinstance(node.value, dict):
        return LearnedCause(turns_up=reading.chance(node), place=node.place)
    shapes = tuple(
        Shape(condition=read_condition(entry), turns_up=reading.chance_at(entry, "turns-up"))
        for entry in node.each("when")
    )
    usual = reading.chance_at(node, "usually") if node.get("usually") else None
    return LearnedCause(turns_up=usual, shapes=shapes or None, place=node.place)


def _rules(node: Node, defect: str, reading: FolderReading) -> Iterator[LearnedRule]:
    """By cause a chance; or a list with conditions, where several rules lead from it to the defect."""
    for cause, entry in _entries(node):
        if not isinstance(entry.value, list):
            yield LearnedRule(cause=cause, defect=defect, brings=reading.chance(entry), place=entry.place)
        for one in node.each(cause):
            brings, condition = reading.chance_at(one, "brings"), read_condition(one)
            yield LearnedRule(cause=cause, defect=defect, brings=brings, condition=condition, place=entry.place)
