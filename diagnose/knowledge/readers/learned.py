"""Reads the numbers that a shop's cases have taught."""

from diagnose.knowledge.learned import Learned, LearnedCause, LearnedCheck, LearnedFix, LearnedRule
from diagnose.knowledge.model import Shape
from diagnose.knowledge.node import Node
from diagnose.knowledge.readers.conditions import read_condition
from diagnose.knowledge.readers.reading import Reading


def read_learned(node: Node, reading: Reading) -> Learned:
    """What stands under ``learned`` in a kb file."""
    return Learned(
        causes={name: _cause(entry, reading) for name, entry in node.named("causes")},
        rules=tuple([_rule(entry, reading) for entry in node.each("rules")]),
        checks={name: _check(entry, reading) for name, entry in node.named("checks")},
        fixes={name: _fix(entry, reading) for name, entry in node.named("fixes")},
    )


def _cause(node: Node, reading: Reading) -> LearnedCause:
    shapes = tuple(
        Shape(condition=read_condition(entry), turns_up=reading.chance_at(entry, "turns-up"))
        for entry in node.each("when")
    )
    return LearnedCause(
        turns_up=reading.chance_at(node, "turns-up") if node.get("turns-up") else None,
        shapes=shapes if node.get("when") else None,
        place=node.place,
    )


def _rule(node: Node, reading: Reading) -> LearnedRule:
    return LearnedRule(
        cause=node.text("cause"),
        defect=node.text("defect"),
        brings=reading.chance_at(node, "brings"),
        condition=read_condition(node),
        place=node.place,
    )


def _check(node: Node, reading: Reading) -> LearnedCheck:
    shows = node.get("shows")
    return LearnedCheck(
        shows={name: reading.chances(shows, name) for name, _ in node.named("shows")} if shows else {},
        minutes=node.number("minutes") if node.get("minutes") else None,
        place=node.place,
    )


def _fix(node: Node, reading: Reading) -> LearnedFix:
    return LearnedFix(
        cures=reading.chances(node, "cures"),
        minutes=node.number("minutes") if node.get("minutes") else None,
        place=node.place,
    )
