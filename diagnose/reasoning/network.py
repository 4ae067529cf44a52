"""The two-layer network: causes that are present or absent, and findings they bring on.

A finding has levels 0, 1, ... m. Each present cause, and the leak, picks a level of its own, and the
finding shows the highest picked (a noisy-MAX; with m = 1 the noisy-OR of a defect seen or not seen).
Strengths exclude the leak: each is what the cause does alone (F. J. Diez's convention).
"""

from collections import deque
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from diagnose.knowledge.conditions import Condition, Job, Usual, facts_asked, learnt, worlds
from diagnose.knowledge.model import Cause, Check, Defect, Knowledge, Rule
from diagnose.knowledge.shop import Known
from diagnose.reasoning.pulls import ALIVE, Pull, pull

MOST = 0.999  # no strength is beyond doubt: evidence against the rules must never be impossible
LEAST_LEAK = 1e-4
Read: TypeAlias = tuple[str, Condition]  # a check that was answered, and what the answer tells of the job
MOST_NODES, MOST_NETWORKS = 10_000, 200  # that are kept of one knowledge


@dataclass(frozen=True, slots=True)
class FindingNode:
    """A finding. ``leak[k]`` and ``links[cause][k]`` are the chances of picking level k + 1, each summing
    to at most 1; what is missing from 1 is level 0."""

    id: str
    leak: tuple[float, ...]
    links: Mapping[int, tuple[float, ...]]
    outcomes: tuple[str, ...] = ()
    _kept: dict[int, tuple[Pull, dict[int, dict[int, Pull]]]] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )

    def pulls(self, level: int) -> tuple[Pull, Mapping[int, Mapping[int, Pull]]]:
        """What the leak does to the finding seen at this level, and each cause while nothing puts it right:
        by (cause, ``ALIVE``). Kept once asked for."""
        if level not in self._kept:
            by_cause = {cause: {ALIVE: pull(link, level)} for cause, link in self.links.items()}
            self._kept[level] = pull(self.leak, level), by_cause
        return self._kept[level]


@dataclass(frozen=True, slots=True)
class Network:
    """Causes by index with their priors, and the findings: ``defects`` and ``checks`` by id."""

    causes: tuple[str, ...]
    priors: tuple[float, ...]
    defects: Mapping[str, FindingNode]
    checks: Mapping[str, FindingNode]
    cures: Mapping[str, Mapping[int, float]] = field(default_factory=dict)
    index: Mapping[str, int] = field(default_factory=dict)

    @classmethod
    def of(
        cls,
        priors: Mapping[str, float],
        defects: Mapping[str, tuple[float, Mapping[str, float]]],
    ) -> "Network":
        """A plain noisy-OR network: cause id -> prior, finding id -> (leak, {cause id: strength})."""
        index = {cause: i for i, cause in enumerate(priors)}
        nodes = {
            name: FindingNode(name, (leak,), {index[c]: (q,) for c, q in strengths.items()})
            for name, (leak, strengths) in defects.items()
        }
        return cls(tuple(priors), tuple(priors.values()), nodes, {}, {}, index)


def prior(cause: Cause, job: Job) -> float:
    """How often the cause turns up in such a job: its first shape that holds, else its usual chance. Over facts that
    are merely usual it is the mean, by how often each is so."""
    asked = facts_asked([shape.condition for shape in cause.shapes])
    return sum([share * _turns_up(cause, world) for world, share in worlds(job, asked)])


def _turns_up(cause: Cause, job: Job) -> float:
    for shape in cause.shapes:
        if shape.condition.holds(job):
            return shape.turns_up.value
    return cause.turns_up.value


def _prior(cause: Cause, job: Job, of_press: Mapping[str, float]) -> float:
    usual = prior(cause, job)
    return of_press.get(cause.id, usual) if usual else usual


def _defect_node(defect: Defect, same: "_Same", jobs: "_Jobs") -> FindingNode:
    """Made once for all jobs in which its rules hold as surely."""
    holding = (defect.id, *(_held(rule, same, jobs.of(rule.cause)) for rule in same.conditional[defect.id]))
    if (kept := same.defects.get(holding)) is not None:
        return kept
    if len(same.defects) >= MOST_NODES:
        same.defects.clear()
    return same.defects.setdefault(holding, _linked(defect, same, jobs))


def _held(rule: Rule, same: "_Same", job: Job) -> object:
    """Whether a rule may hold; where that hangs on what is merely usual, all that it hangs on."""
    told = [job.get(fact) for fact in same.asked.get((rule.cause, rule.defect), ())]
    return tuple(told) if any(isinstance(each, Usual) for each in told) else rule.condition.may_hold(job)


def _linked(defect: Defect, same: "_Same", jobs: "_Jobs") -> FindingNode:
    by_cause: dict[str, list[Rule]] = {}
    for rule in defect.rules:
        if rule.cause in same.index and rule.condition.may_hold(jobs.of(rule.cause)):
            by_cause.setdefault(rule.cause, []).append(rule)
    brought = {cause: _brings(same, rules, jobs.of(cause)) for cause, rules in by_cause.items()}
    links = {same.index[cause]: (min(brings, MOST),) for cause, brings in brought.items()}
    return FindingNode(defect.id, (max(defect.otherwise.value, LEAST_LEAK),), links)


def _brings(same: "_Same", rules: Sequence[Rule], job: Job) -> float:
    """How surely a cause brings a defect on: by the strongest of its rules that may hold, and over facts that are
    merely usual the mean of that, by how often the cause is there as they are."""
    first = rules[0]
    found = worlds(job, same.asked.get((first.cause, first.defect), ()))
    if len(found) == 1:
        return max([rule.brings.value for rule in rules])
    cause = same.knowledge.causes[first.cause]
    weights = [share * _turns_up(cause, world) for world, share in found]
    strongest = [max([r.brings.value for r in rules if r.condition.may_hold(world)], default=0.0) for world, _ in found]
    if not (total := sum(weights)):
        weights, total = [share for _, share in found], 1.0
    return sum([weight * brings for weight, brings in zip(weights, strongest, strict=True)]) / total


def _check_node(check: Check, index: Mapping[str, int]) -> FindingNode:
    loud = check.outcomes[1:]
    shown = {cause: None for outcome in loud for cause in outcome.shows if cause in index}
    links = {index[cause]: scaled([o.shows[cause].value if cause in o.shows else 0.0 for o in loud]) for cause in shown}
    leak = scaled([max(outcome.otherwise.value, LEAST_LEAK) for outcome in loud])
    return FindingNode(check.id, leak, links, tuple(outcome.id for outcome in check.outcomes))


def scaled(chances: Sequence[float]) -> tuple[float, ...]:
    """The chances, shrunk where they would leave less than 1 - MOST for the quiet level."""
    total = sum(chances)
    if total <= MOST:
        return tuple(chances)
    return tuple(chance * MOST / total for chance in chances)


@dataclass(frozen=True, slots=True)
class _Same:
    """What of a network is the same for every job, or for many: ``defects`` by their ids and how surely their
    ``conditional`` rules hold; whole ``networks`` by job, answers that tell of it and what is known of the press.
    ``asked``: by cause and defect, the facts that conditional rules and the cause's own chance hang on."""

    knowledge: Knowledge
    index: Mapping[str, int]
    checks: Mapping[str, FindingNode]
    cures: Mapping[str, Mapping[int, float]]
    conditional: Mapping[str, tuple[Rule, ...]]
    asked: Mapping[tuple[str, str], tuple[str, ...]]
    defects: dict[tuple[object, ...], FindingNode] = field(default_factory=dict)
    networks: dict[tuple[object, ...], Network] = field(default_factory=dict)


_latest: deque[_Same] = deque(maxlen=4)  # a change of rules is looked at in the old knowledge and the new by turns


def _same(knowledge: Knowledge) -> _Same:
    """Made once for a knowledge, with all that its nodes keep."""
    for kept in _latest:
        if kept.knowledge is knowledge:
            return kept
    index = {cause: i for i, cause in enumerate(knowledge.causes)}
    checks = {check.id: _check_node(check, index) for check in knowledge.checks.values()}
    cures = {
        fix.id: {index[cause]: chance.value for cause, chance in fix.cures.items() if cause in index}
        for fix in knowledge.fixes.values()
    }
    conditional = {
        defect.id: tuple(rule for rule in defect.rules if rule.condition.tests) for defect in knowledge.defects.values()
    }
    made = _Same(knowledge, index, checks, cures, conditional, _asked(knowledge, conditional))
    _latest.append(made)
    return made


def _asked(knowledge: Knowledge, conditional: Mapping[str, Sequence[Rule]]) -> dict[tuple[str, str], tuple[str, ...]]:
    conditions: dict[tuple[str, str], list[Condition]] = {}
    for rule in (rule for rules in conditional.values() for rule in rules):
        if rule.cause in knowledge.causes:
            shapes = [shape.condition for shape in knowledge.causes[rule.cause].shapes]
            conditions.setdefault((rule.cause, rule.defect), shapes).append(rule.condition)
    return {pair: facts_asked(each) for pair, each in conditions.items()}


@dataclass(frozen=True, slots=True)
class _Jobs:
    """The job as each cause has it: an answer that speaks of a cause by itself does not do so again by way of what it
    tells of the job."""

    same: _Same
    job: Job
    told: tuple[Read, ...]
    _made: dict[tuple[Condition, ...], Job] = field(default_factory=dict)

    def of(self, cause: str) -> Job:
        if not self.told:
            return self.job
        place = self.same.index.get(cause, -1)
        others = tuple([facts for check, facts in self.told if place not in self.same.checks[check].links])
        if others not in self._made:
            self._made[others] = learnt(self.job, others)
        return self._made[others]


def read(knowledge: Knowledge, job: Job, answers: Mapping[str, str]) -> tuple[Read, ...]:
    """What answers, by check, tell of the job they go with."""
    asked = [knowledge.checks[check] for check in sorted(answers) if check in knowledge.checks]
    told = [(check.id, check.outcome(answers[check.id]).facts) for check in asked if check.condition.may_hold(job)]
    return tuple([(check, facts) for check, facts in told if facts.tests])


def network(knowledge: Knowledge, job: Job, known: Iterable[Known] = (), told: tuple[Read, ...] = ()) -> Network:
    """The network for a job: priors shaped by it, and the rules and checks that may hold for it. What is ``known``
    of the press sets the prior of its cause; a cause that cannot be there in such a job stays out. ``told``: what
    answers tell of the job (``read``)."""
    same, known = _same(knowledge), tuple(known)
    asked = (known, told, *sorted(job.items()))
    if (kept := same.networks.get(asked)) is not None:
        return kept
    if len(same.networks) >= MOST_NETWORKS:
        same.networks.clear()
    return same.networks.setdefault(asked, _made(_Jobs(same, job, told), known))


def _made(jobs: _Jobs, known: Iterable[Known]) -> Network:
    same, job = jobs.same, learnt(jobs.job, [facts for _, facts in jobs.told])
    knowledge = same.knowledge
    of_press = {each.cause: min(each.turns_up.value, MOST) for each in known}
    return Network(
        causes=tuple(knowledge.causes),
        priors=tuple([_prior(cause, jobs.of(cause.id), of_press) for cause in knowledge.causes.values()]),
        defects={d.id: _defect_node(d, same, jobs) for d in knowledge.defects.values()},
        checks={c.id: same.checks[c.id] for c in knowledge.checks.values() if c.condition.may_hold(job)},
        cures={f.id: same.cures[f.id] for f in knowledge.fixes.values() if f.condition.may_hold(job)},
        index=same.index,
    )
