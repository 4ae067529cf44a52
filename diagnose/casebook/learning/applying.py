"""From learnt numbers to what a shop's folder says: only numbers that moved, rounded as they will be written."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from diagnose.casebook.learning.learning import Learnt
from diagnose.casebook.learning.numbers import Cure, Link, Parameters
from diagnose.casebook.learning.rounding import settled
from diagnose.casebook.learning.turning_up import TurningUp
from diagnose.knowledge.conditions import ALWAYS
from diagnose.knowledge.model import Chance, Check, Defect, Fix, Knowledge
from diagnose.knowledge.numbers import Learned, LearnedCheck, LearnedFix, LearnedMinutes, LearnedRule
from diagnose.problems import Place

HERE = Place("kb/learned.yaml")
ALMOST_ONE = 0.999  # what a cause may show of a check's outcomes together


@dataclass(frozen=True, slots=True)
class Applying:
    """``minutes``: by check or fix, those that changed."""

    knowledge: Knowledge
    parameters: Parameters
    learnt: Learnt
    minutes: Mapping[str, float]

    def learned(self) -> Learned:
        """Everything that differs from the knowledge."""
        checks = {check.id: self._check(check) for check in self.knowledge.checks.values()}
        fixes = {fix.id: self._fix(fix) for fix in self.knowledge.fixes.values()}
        return Learned(
            causes=self.turning_up().causes(HERE),
            rules=tuple([rule for defect in self.knowledge.defects.values() for rule in self._rules(defect)]),
            checks={key: check for key, check in checks.items() if check.shows},
            fixes={key: fix for key, fix in fixes.items() if fix.cures},
            minutes={key: LearnedMinutes(minutes=minutes, place=HERE) for key, minutes in self.minutes.items()},
        )

    def turning_up(self) -> TurningUp:
        return TurningUp.of(self.knowledge, self.learnt.turns_up, self.learnt.numbers)

    def _rules(self, defect: Defect) -> Iterator[LearnedRule]:
        causes = [rule.cause for rule in defect.rules]
        for number, rule in enumerate(defect.rules):
            brings = settled(rule.brings, self._link(Link(defect.id, rule.cause, number), 0))
            if brings != rule.brings:
                condition = rule.condition if causes.count(rule.cause) > 1 else ALWAYS
                yield LearnedRule(cause=rule.cause, defect=defect.id, brings=brings, condition=condition, place=HERE)

    def _check(self, check: Check) -> LearnedCheck:
        shows: dict[str, dict[str, Chance]] = {}
        for cause, now in self._shown(check).items():
            for outcome, chance in now.items():
                if chance != check.outcome(outcome).shows[cause]:
                    shows.setdefault(outcome, {})[cause] = chance
        return LearnedCheck(shows=shows, place=HERE)

    def _shown(self, check: Check) -> dict[str, dict[str, Chance]]:
        """By cause, what each outcome will show of it; together never more than a chance can be."""
        result: dict[str, dict[str, Chance]] = {}
        for level, outcome in enumerate(check.outcomes[1:]):
            for cause, chance in outcome.shows.items():
                result.setdefault(cause, {})[outcome.id] = settled(chance, self._link(Link(check.id, cause), level))
        for now in result.values():
            over = sum(chance.value for chance in now.values()) / ALMOST_ONE
            if over > 1.0 and any(not chance.word for chance in now.values()):
                now |= {outcome: Chance(float(f"{chance.value / over:.3f}")) for outcome, chance in now.items()}
        return result

    def _fix(self, fix: Fix) -> LearnedFix:
        numbers, at = self.learnt.numbers.cures, self.parameters.at
        cures = {cause: settled(old, float(numbers[at[Cure(fix.id, cause)]])) for cause, old in fix.cures.items()}
        changed = {cause: chance for cause, chance in cures.items() if chance != fix.cures[cause]}
        return LearnedFix(cures=changed, place=HERE)

    def _link(self, link: Link, level: int) -> float:
        return float(np.asarray(self.learnt.numbers.links)[self.parameters.at[link], level])
