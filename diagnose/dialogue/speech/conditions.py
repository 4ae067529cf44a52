"""A condition on the job in words."""

import re
from collections.abc import Mapping

from diagnose.knowledge.conditions import Condition, FactValue, Test
from diagnose.knowledge.model import Fact

COMPARISONS = {"<=": "at most", ">=": "at least", "<": "under", ">": "over"}
COMPARED = re.compile(r"\s*(<=|>=|<|>)\s*(.*\S)\s*")
SPANNED = re.compile(r"\s*(\S+?)\s*\.\.\s*(\S+)\s*")


def condition_words(condition: Condition, facts: Mapping[str, Fact]) -> str:
    """``polyester share: under 95 % and kind of press: clamshell or drawer``; "" for no condition."""
    return " and ".join(_test(test, facts.get(test.fact)) for test in condition.tests)


def _test(test: Test, fact: Fact | None) -> str:
    title = fact.title.lower() if fact else test.fact
    if test.span is None:
        *others, last = map(value_words, test.values)
        return f"{title}: {', '.join(others)} or {last}" if others else f"{title}: {last}"
    return f"{title}: {_span(test.written)} {fact.unit if fact else ''}".rstrip()


def _span(written: str) -> str:
    if compared := COMPARED.fullmatch(written):
        return f"{COMPARISONS[compared[1]]} {compared[2]}"
    if spanned := SPANNED.fullmatch(written):
        return f"from {spanned[1]} to {spanned[2]}"
    return written


def value_words(value: FactValue, unit: str = "") -> str:
    """The value of a fact: ``yes``, ``clamshell``, ``65 %``."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return value
    return f"{value:g} {unit}".strip()
