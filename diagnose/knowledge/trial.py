"""What is on trial: marked as such wherever it, or what rests on it, shows.

Rules on trial count like any other. Checks and fixes on trial, which came in a bundle, wait: planning proposes one only
where no settled one is left for the same causes (``planning.py``).
"""

from collections.abc import Iterator

from diagnose.knowledge.entry import SETTLED as SETTLED
from diagnose.knowledge.entry import TRIAL as TRIAL
from diagnose.knowledge.model import Check, Defect, Fix, Knowledge, Rule


def on_trial(one: Rule | Check | Fix) -> bool:
    """Whether a rule, check or fix has still to prove itself."""
    return one.status != SETTLED


def trial_steps(knowledge: Knowledge) -> Iterator[Check | Fix]:
    """Every check and fix on trial, in the order written."""
    yield from (check for check in knowledge.checks.values() if on_trial(check))
    yield from (fix for fix in knowledge.fixes.values() if on_trial(fix))


def trial_rules(knowledge: Knowledge) -> Iterator[tuple[Defect, Rule]]:
    """Every rule on trial with its defect, in the order written."""
    for defect in knowledge.defects.values():
        yield from ((defect, rule) for rule in defect.rules if on_trial(rule))


def resting_on_trial(knowledge: Knowledge) -> frozenset[str]:
    """All the causes of which nothing but rules on trial says that they bring anything on."""
    rules = [rule for defect in knowledge.defects.values() for rule in defect.rules]
    return frozenset(rule.cause for rule in rules if on_trial(rule)) - {r.cause for r in rules if not on_trial(r)}


def rests_on_trial(knowledge: Knowledge, cause: str) -> bool:
    """Whether nothing but rules on trial says that a cause brings anything on."""
    return cause in resting_on_trial(knowledge)
