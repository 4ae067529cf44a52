"""The network of a job in terms of the numbers that can be learnt."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from diagnose.casebook.case import Case
from diagnose.casebook.learning.numbers import (
    KNOWN,
    NO_SHOP,
    USUAL,
    Cure,
    Link,
    Parameters,
    TurnUp,
    parameters,
)
from diagnose.knowledge.conditions import FactValue, Job, Usual
from diagnose.knowledge.model import Cause, Defect, Knowledge
from diagnose.knowledge.shop import PRESS_NAME, Known, Shop
from diagnose.reasoning.evidence import Evidence, Tried
from diagnose.reasoning.factors import log_of
from diagnose.reasoning.network import FindingNode, Network, network, prior
from diagnose.reasoning.pulls import pull

LEAST_QUIET = 1e-12  # of a leak: it always may have been silent
FAMILY, PRESS = "item.family", PRESS_NAME  # facts by which jobs are told apart


@dataclass(frozen=True, slots=True)
class FindingLinks:
    """A defect or check: its leak's pull at each level, its outcomes, and its links as (cause, place of the number)."""

    leak: tuple[tuple[float, float], ...]
    outcomes: tuple[str, ...]
    links: tuple[tuple[int, int], ...]

    @classmethod
    def of(cls, node: FindingNode, links: Iterable[tuple[int, int]]) -> "FindingLinks":
        pulls = [pull(node.leak, level) for level in range(len(node.leak) + 1)]
        return cls(tuple([(b, max(c, LEAST_QUIET)) for b, c in pulls]), node.outcomes, tuple(links))


@dataclass(frozen=True)
class Wiring:
    """``turns_up``: for each cause the place of its number. ``cures``: by fix, (cause, place of the number)."""

    causes: tuple[str, ...]
    turns_up: tuple[int, ...]
    defects: Mapping[str, FindingLinks]
    checks: Mapping[str, FindingLinks]
    cures: Mapping[str, tuple[tuple[int, int], ...]]

    @cached_property
    def hushed(self) -> float:
        """The log of the chance that no leak brings on any defect."""
        return sum([log_of(found.leak[0][1]) for found in self.defects.values()])

    @cached_property
    def key(self) -> tuple[object, ...]:
        """The same for wirings that are alike in what the numbers can tell apart."""
        return (self.turns_up, *[found.links for found in self.defects.values()], *self.checks, *self.cures)


@dataclass(slots=True)
class Jobs:
    """The wirings of jobs, each made once; jobs that no number tells apart share one."""

    knowledge: Knowledge
    parameters: Parameters
    shop: Shop = NO_SHOP
    _made: dict[tuple[object, ...], Wiring] = field(default_factory=dict)
    _alike: dict[tuple[object, ...], Wiring] = field(default_factory=dict)

    @classmethod
    def of(cls, knowledge: Knowledge, shop: Shop) -> "Jobs":
        return cls(knowledge, parameters(knowledge, shop), shop)

    def job(self, case: Case) -> dict[str, FactValue | Usual]:
        return job_of(case, self.knowledge, self.shop)

    def wiring(self, job: Job) -> Wiring:
        key = tuple(sorted(job.items()))
        if key not in self._made:
            wiring = self._make(job)
            self._made[key] = self._alike.setdefault(wiring.key, wiring)
        return self._made[key]

    def _make(self, job: Job) -> Wiring:
        known = known_of(job, self.shop)
        net, at = network(self.knowledge, job, known), self.parameters.at
        of_press = {each.cause: TurnUp(each.cause, KNOWN, press=str(job[PRESS])) for each in known}
        turns_up = tuple(
            [
                at[
                    of_press[cause.id]
                    if cause.id in of_press and prior(cause, job)
                    else TurnUp(cause.id, shape_of(cause, job))
                ]
                for cause in self.knowledge.causes.values()
            ]
        )
        defects = {d: self._defect(net, self.knowledge.defects[d], job) for d in net.defects}
        checks = {
            c: FindingLinks.of(node, [(i, at[Link(c, net.causes[i])]) for i in node.links])
            for c, node in net.checks.items()
        }
        cures = {f: tuple([(i, at[Cure(f, net.causes[i])]) for i in cured]) for f, cured in net.cures.items()}
        return Wiring(net.causes, turns_up, defects, checks, cures)

    def _defect(self, net: Network, defect: Defect, job: Job) -> FindingLinks:
        """Of several rules that may hold, the one that is strongest as shipped stands for the cause."""
        strongest: dict[int, tuple[float, int]] = {}
        for place, rule in enumerate(defect.rules):
            if rule.cause in net.index and rule.condition.may_hold(job):
                cause = net.index[rule.cause]
                mine = (rule.brings.value, self.parameters.at[Link(defect.id, rule.cause, place)])
                strongest[cause] = max(mine, strongest.get(cause, (-1.0, 0)), key=lambda one: one[0])
        return FindingLinks.of(net.defects[defect.id], [(cause, at) for cause, (_, at) in strongest.items()])


def job_of(case: Case, knowledge: Knowledge, shop: Shop = NO_SHOP) -> dict[str, FactValue | Usual]:
    """What is known of the case's job: the item's facts as they are listed and those of the shop's press, then what the
    person said, then which press it was."""
    item, session = knowledge.items.get(case.session.item), case.session
    named = case.press or session.press
    press = shop.presses.get(named) if named else shop.press_for(item.job if item else {})
    told = {**(item.listed if item else {}), **(press.facts if press else {}), **session.facts}
    return {**told, **({PRESS: press.id} if press else {})}


def known_of(job: Job, shop: Shop) -> tuple[Known, ...]:
    """What is known of the press that the job was done on."""
    press = shop.presses.get(str(job.get(PRESS, "")))
    return press.known if press else ()


def shown(case: Case, knowledge: Knowledge) -> Evidence:
    """All that the case shows, its figures weighed as they are today."""
    if not case.session.figures:
        return case.evidence
    from diagnose.foresight.readings import readings, weighing

    item = knowledge.items.get(case.session.item)
    return weighing(case.evidence, readings(case.session.figures, item, knowledge))


def shape_of(cause: Cause, job: Job) -> int:
    """Which of the cause's shapes is the first that holds; ``USUAL`` where none does."""
    return next((place for place, shape in enumerate(cause.shapes) if shape.condition.holds(job)), USUAL)


def known(evidence: Evidence, wiring: Wiring) -> Evidence:
    """The evidence without what the wiring does not know: checks and fixes that do not go with the job, ids of another
    time. ``not_seen`` is left out: every defect that nobody told of counts as not seen. Were they left open, nothing
    would speak against any cause or rule, and every number would drift up."""
    seen = tuple([defect for defect in evidence.seen if defect in wiring.defects])
    answers = {
        check: (outcome, period)
        for check, (outcome, period) in evidence.answers.items()
        if check in wiring.checks and outcome in wiring.checks[check].outcomes
    }
    tried = tuple([tried if tried.fix in wiring.cures else Tried(tried.fix) for tried in evidence.tried])
    weighed = tuple([one for one in evidence.weighed if one.cause in wiring.causes])
    return Evidence(seen, (), answers, tried, weighed)
