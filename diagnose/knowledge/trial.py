"""Rules on trial: they count like any other, and are marked as such wherever they, or what rests on them, show."""

from collections.abc import Iterator

from diagnose.knowledge.model import Defect, Knowledge, Rule

TRIAL, SETTLED = "trial", "settled"
MARK = "on trial"


def on_trial(rule: Rule) -> bool:
    """Whether a rule has still to prove itself."""
    return rule.status != SETTLED


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
    rules = [rule for defect in knowledge.defects.values() for rule in defect.rules if rule.cause == cause]
    return bool(rules) and all(map(on_trial, rules))


def marked(title: str, trial: bool) -> str:
    """A title, with the mark where it is on trial."""
    return f"{title} ({MARK})" if trial else title
