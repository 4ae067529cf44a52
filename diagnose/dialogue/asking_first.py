"""What must be asked before a step: a step that goes with one kind of press alone waits until the kind is known.

A fact is asked for where some check is there for it (``Check.asks_for``). Where such a fact leaves a step's condition
open, that check comes first; where nobody can tell, the condition does not count as met, and the step is left out.
"""

from collections.abc import Collection, Iterator
from dataclasses import replace

from diagnose.knowledge.conditions import Condition, Job
from diagnose.knowledge.model import Check, Fix, Knowledge
from diagnose.reasoning.planning import Advice


def never_to_be_met(knowledge: Knowledge, job: Job, closed: Collection[str]) -> set[str]:
    """The checks and fixes that wait for a fact of which nobody can tell."""
    steps: list[Check | Fix] = [*knowledge.checks.values(), *knowledge.fixes.values()]
    lost = {fact for fact, check in _checks(knowledge, job).items() if check in closed}
    return {step.id for step in steps if any(_open(step.condition, job, lost))}


def asking_first(advice: Advice, knowledge: Knowledge, job: Job, closed: Collection[str]) -> Advice:
    """The advice, or the check that has to be asked before its step."""
    if advice.kind == "call":
        return advice
    step = (knowledge.checks if advice.kind == "check" else knowledge.fixes)[advice.id]
    asked = {fact: check for fact, check in _checks(knowledge, job).items() if check not in closed}
    first = next(_open(step.condition, job, asked), "")
    return replace(advice, kind="check", id=asked[first]) if first else advice


def _checks(knowledge: Knowledge, job: Job) -> dict[str, str]:
    """By fact, the id of the check that asks for it in such a job: the first that goes with it and has an answer."""
    fitting = [check for check in knowledge.checks.values() if check.asks_for and check.condition.holds(job)]
    answered = [check for check in fitting if any(outcome.facts.may_hold(job) for outcome in check.outcomes)]
    return {fact: check.id for check in reversed(answered) for fact in check.asks_for}


def _open(condition: Condition, job: Job, asked: Collection[str]) -> Iterator[str]:
    """The facts asked for that leave a condition open."""
    return (test.fact for test in condition.tests if test.fact in asked and test.holds(job) is None)
