"""Writes into the shop's file that cases have confirmed a rule, check or fix, and settles it where they are enough."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from diagnose.casebook.proposing.confirming import ENOUGH
from diagnose.casebook.proposing.laying import file_about
from diagnose.casebook.writing.yaml_edit import YamlFile
from diagnose.knowledge.documents.document import Document
from diagnose.knowledge.documents.in_full import in_full
from diagnose.knowledge.model import SHIPPED, THIS_SHOP, Check, Fix, Knowledge, Rule
from diagnose.knowledge.near import did_you_mean
from diagnose.knowledge.trial import SETTLED, on_trial, trial_steps
from diagnose.problems import PressloreError


def trial_rule(knowledge: Knowledge, defect: str, cause: str) -> Rule:
    """The rule on trial, own or taken, that ties a cause to a defect. Raises PressloreError where there is not just
    one."""
    rules = [rule for rule in knowledge.defects[defect].rules if rule.cause == cause]
    trials = [rule for rule in rules if on_trial(rule) and rule.origin != SHIPPED]
    if not rules:
        causes = [rule.cause for rule in knowledge.defects[defect].rules]
        raise PressloreError(f"no rule says that {cause} brings on {defect}. {did_you_mean(cause, causes)}".strip())
    if not trials:
        said = "is settled already" if not any(map(on_trial, rules)) else "ships on trial: it is not yours to settle"
        raise PressloreError(f"{rules[0].place}: this rule {said}")
    if len(trials) > 1:
        raise PressloreError(f"{trials[1].place}: there are {len(trials)} such rules: settle the one you mean by hand")
    return trials[0]


def trial_step(knowledge: Knowledge, name: str) -> Check | Fix:
    """The check or fix on trial with an id. Raises PressloreError where there is none."""
    steps: dict[str, Check | Fix] = {**knowledge.checks, **knowledge.fixes}
    if name not in steps:
        hint = did_you_mean(name, [step.id for step in trial_steps(knowledge)])
        raise PressloreError(f'no check or fix "{name}". {hint}'.strip())
    if not on_trial(steps[name]):
        raise PressloreError(f"{steps[name].place}: {name} is settled already")
    return steps[name]


def settled_step(step: Check | Fix, cases: Sequence[str]) -> YamlFile:
    """The file of a check or fix with the cases noted, and the step settled where they are enough; not saved yet."""
    kind, file = "checks" if isinstance(step, Check) else "fixes", YamlFile(Path(step.place.file))
    if file.get(kind, step.id) is None:
        raise PressloreError(f"{step.place}: {step.id} is no longer there")
    file.set((kind, step.id, "confirmed-by"), list(cases))
    if len(cases) >= ENOUGH:
        file.set((kind, step.id, "status"), SETTLED)
    return file


def promoted(rule: Rule, cases: Sequence[str], shop: Path) -> YamlFile:
    """The rule's file with the cases noted, and the rule settled where they are enough; not saved yet."""
    path = file_about(rule.defect, shop / "rules") if rule.origin == THIS_SHOP else Path(rule.place.file)
    file = YamlFile(path) if path else None
    if file is None:
        raise PressloreError(f"{rule.place}: the rule is no longer there")
    number = _number(file, rule)
    file.set(("rules", number, "confirmed-by"), list(cases))
    if len(cases) >= ENOUGH:
        file.set(("rules", number, "status"), SETTLED)
    return file


def _number(file: YamlFile, rule: Rule) -> int:
    """The place of the rule in its file."""
    usual = file.get("status")
    whole: Any = in_full(Document(str(file.path), file.get()), "rule").value
    for number, entry in enumerate(whole.get("rules") or ()):
        if (
            entry.get("cause") == rule.cause
            and entry.get("status", usual) == rule.status
            and entry["why"].strip() == rule.why
        ):
            return number
    raise PressloreError(f"{rule.place}: the rule is no longer there")
