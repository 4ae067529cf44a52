"""A condition on the job, and a fact of it, in words."""

import re
from collections.abc import Mapping
from functools import reduce

from diagnose.knowledge.conditions import Condition, FactValue, Test, Usual
from diagnose.knowledge.model import Fact
from diagnose.speech.saying import listed, say

COMPARISONS = {"<=": "at-most", ">=": "at-least", "<": "under", ">": "over"}
COMPARED = re.compile(r"\s*(<=|>=|<|>)\s*(.*\S)\s*")
SPANNED = re.compile(r"\s*(\S+?)\s*\.\.\s*(\S+)\s*")


def condition_words(condition: Condition, facts: Mapping[str, Fact]) -> str:
    """``polyester share: under 95 % and kind of press: clamshell or drawer``; "" for no condition."""
    tests = [_test(test, facts.get(test.fact)) for test in condition.tests]
    return reduce(lambda first, then: say("tests-together", first=first, then=then), tests) if tests else ""


def _test(test: Test, fact: Fact | None) -> str:
    title = fact.title.lower() if fact else test.fact
    if test.span is None:
        return say("fact", title=title, value=listed(map(value_words, test.values), "or"))
    return say("fact", title=title, value=_with_unit(_span(test.written), fact.unit if fact else ""))


def _span(written: str) -> str:
    if compared := COMPARED.fullmatch(written):
        return say("compared", how=COMPARISONS[compared[1]], value=compared[2])
    if spanned := SPANNED.fullmatch(written):
        return say("spanned", least=spanned[1], most=spanned[2])
    return written


def _with_unit(value: str, unit: str) -> str:
    return say("of-unit", value=value, unit=unit) if unit else value


def value_words(value: FactValue, unit: str = "") -> str:
    """The value of a fact: ``yes``, ``clamshell``, ``65 %``."""
    if isinstance(value, bool):
        return say("yes-or-no", answer="yes" if value else "no")
    return value if isinstance(value, str) else _with_unit(say("general-number", value=value), unit)


def fact_words(fact_id: str, value: FactValue | Usual, facts: Mapping[str, Fact]) -> str:
    """A fact of the job with its value: ``Share of polyester: 65 %``; ``… 100 % (usual; may be 65 % or 0 %)``."""
    fact = facts.get(fact_id)
    title, unit = fact.title if fact else fact_id, fact.unit if fact else ""
    if not isinstance(value, Usual):
        return say("fact", title=title, value=value_words(value, unit))
    usual, *others = [value_words(each, unit) for each, _ in value.shares]
    return say("fact", title=title, value=say("usual-or", value=usual, others=listed(others, "or")))
