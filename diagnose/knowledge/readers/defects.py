"""Reads a rule file: a defect with its rules and worked cases, or a shop's additions to a known one."""

from diagnose.knowledge.documents.node import Node
from diagnose.knowledge.layer import Addition
from diagnose.knowledge.model import Defect, LookAlike, Rule, WorkedCase
from diagnose.knowledge.readers.conditions import read_condition, read_facts
from diagnose.knowledge.readers.reading import FolderReading


def read_defect(node: Node, reading: FolderReading) -> Defect:
    """The defect of a whole rule file."""
    defect = node.text("defect")
    return Defect(
        id=defect,
        title=node.text("title"),
        basis=node.texts("basis"),
        place=node.document.value_place(("defect",)),
        origin=reading.origin,
        looks=node.text("looks"),
        said=node.texts("said"),
        look_alikes=_look_alikes(node),
        otherwise=reading.chance_at(node, "otherwise"),
        rules=_rules(node, defect, reading),
        cases=_cases(node),
    )


def read_addition(node: Node, reading: FolderReading) -> Addition:
    """What a whole rule file adds to a known defect."""
    defect = node.text("adds-to")
    return Addition(
        defect=defect,
        said=node.texts("said"),
        look_alikes=_look_alikes(node),
        rules=_rules(node, defect, reading),
        cases=_cases(node),
        place=node.document.value_place(("adds-to",)),
    )


def _rules(node: Node, defect: str, reading: FolderReading) -> tuple[Rule, ...]:
    status, date = node.text("status"), node.text("date")
    return tuple(
        Rule(
            cause=entry.text("cause"),
            defect=defect,
            brings=reading.chance_at(entry, "brings"),
            condition=read_condition(entry),
            why=entry.text("why"),
            basis=entry.texts("basis"),
            status=entry.text("status", status),
            date=entry.text("date", date),
            learned_from=entry.texts("learned-from"),
            confirmed_by=entry.texts("confirmed-by"),
            place=entry.place,
            origin=reading.origin,
        )
        for entry in node.each("rules")
    )


def _look_alikes(node: Node) -> tuple[LookAlike, ...]:
    return tuple(LookAlike(entry.text("defect"), entry.text("tell")) for entry in node.each("look-alikes"))


def _cases(node: Node) -> tuple[WorkedCase, ...]:
    return tuple(_case(entry) for entry in node.each("cases"))


def _case(node: Node) -> WorkedCase:
    return WorkedCase(
        story=node.text("story"),
        job=read_facts(node, "job"),
        item=node.text("item"),
        saw=node.texts("saw"),
        not_seen=node.texts("not-seen"),
        answers={check: str(entry.value) for check, entry in node.named("answers")},
        tried=node.texts("tried"),
        first=node.texts("first"),
        never=node.texts("never"),
        place=node.place,
    )
