"""``if:`` -> a condition on the job."""

from diagnose.knowledge.conditions import ALWAYS, Condition, FactValue, Test, parse_span
from diagnose.knowledge.documents.document import Node, Plain


def read_condition(node: Node) -> Condition:
    """The condition that a node is; one that always holds where it is empty."""
    tests = tuple(read_test(fact, entry.value) for fact, entry in node.named())
    return Condition(tests) if tests else ALWAYS


def fact_value(value: Plain) -> FactValue:
    """A truth value or text as it is; a number always as a decimal, so that 65 and 65.0 are the same."""
    if isinstance(value, bool):
        return value
    return float(value) if isinstance(value, int | float) else str(value).strip()


def read_test(fact: str, value: Plain) -> Test:
    """One fact and what it must be, from a value of ``if``."""
    if isinstance(value, list):
        return Test(fact, tuple(fact_value(each) for each in value), written=", ".join(map(_written, value)))
    span = parse_span(value) if isinstance(value, str) else None
    if span:
        return Test(fact, span=span, written=_written(value))
    return Test(fact, (fact_value(value),), written=_written(value))


def _written(value: Plain) -> str:
    return str(value).lower() if isinstance(value, bool) else str(value).strip()
