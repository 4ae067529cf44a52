"""The two-layer network: causes that are present or absent, and findings they bring on.

A finding has levels 0, 1, ... m. Each present cause, and the leak, picks a level of its own, and the
finding shows the highest picked (a noisy-MAX; with m = 1 the noisy-OR of a defect seen or not seen).
Strengths exclude the leak: each is what the cause does alone (F. J. Diez's convention).
"""

from collections import deque
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from diagnose.knowledge.conditions import Job
from diagnose.knowledge.model import Cause, Check, Defect, Knowledge, Rule
from diagnose.knowledge.shop import Known
from diagnose.reasoning.pulls import ALIVE, Pull, pull

MOST = 0.999  # no strength is beyond doubt: evidence against the rules must never be impossible
LEAST_LEAK = 1e-4
MOST_NODES, MOST_NETWORKS = 10_000, 200  # that are kept of one knowledge


@dataclass(frozen=True, slots=True)
class FindingNode:
    """A finding. ``leak[k]`` and ``links[cause][k]`` are the chances of picking level k + 1, each summing
    to at most 1; what is missing from 1 is level 0. ``wrong``: how often another level is told than there is; the
    chances speak of what there is, those of what is ``told`` reckon with it."""

    id: str
    leak: tuple[float, ...]
    links: Mapping[int, tuple[float, ...]]
    outcomes: tuple[str, ...] = ()
    wrong: float = 0.0
    _kept: dict[int, tuple[Pull, dict[int, dict[int, Pull]]]] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )
    _told: dict[int, "FindingNode"] = field(default_factory=dict, init=False, repr=False, compare=False)

    def pulls(self, level: int) -> tuple[Pull, Mapping[int, Mapping[int, Pull]]]:
        """What the leak does to the finding seen at this level, and each cause while nothing puts it right:
        by (cause, ``ALIVE``). Kept once asked for."""
        if level not in self._kept:
            by_cause = {cause: {ALIVE: pull(link, level)} for cause, link in self.links.items()}
            self._kept[level] = pull(self.leak, level), by_cause
        return self._kept[level]

    def told(self, times: int = 1) -> "FindingNode":
        """The finding as it is told, the same so many times over. Kept once asked for."""
        if not self.wrong:
            return self
        if times not in self._told:
            self._told[times] = self._mistaken(times)
        return self._told[times]

    def _mistaken(self, times: int) -> "FindingNode":
        levels = len(self.leak)
        each = mistaken_each(self.wrong, levels, times)
        links = {cause: _missed(link, each) for cause, link in self.links.items()}
        return FindingNode(self.id, _fancied(_missed(self.leak, each), each), links, self.outcomes)


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
    """How often the cause turns up in such a job: its first shape that holds, else its usual chance."""
    for shape in cause.shapes:
        if shape.condition.holds(job):
            return shape.turns_up.value
    return cause.turns_up.value


def _prior(cause: Cause, job: Job, of_press: Mapping[str, float]) -> float:
    usual = prior(cause, job)
    return of_press.get(cause.id, usual) if usual else usual


def _defect_node(defect: Defect, same: "_Same", job: Job) -> FindingNode:
    """Made once for all jobs in which the same of its rules may hold."""
    holding = (defect.id, *(rule.condition.may_hold(job) for rule in same.conditional[defect.id]))
    if (kept := same.defects.get(holding)) is not None:
        return kept
    if len(same.defects) >= MOST_NODES:
        same.defects.clear()
    return same.defects.setdefault(holding, _linked(defect, same.index, job))


def _linked(defect: Defect, index: Mapping[str, int], job: Job) -> FindingNode:
    links: dict[int, tuple[float, ...]] = {}
    for rule in defect.rules:
        if rule.cause in index and rule.condition.may_hold(job):
            cause = index[rule.cause]
            strongest = max(rule.brings.value, links.get(cause, (0.0,))[0])
            links[cause] = (min(strongest, MOST),)
    return FindingNode(defect.id, (max(defect.otherwise.value, LEAST_LEAK),), links)


def _check_node(check: Check, index: Mapping[str, int]) -> FindingNode:
    loud = check.outcomes[1:]
    shown = {cause: None for outcome in loud for cause in outcome.shows if cause in index}
    links = {index[cause]: scaled([o.shows[cause].value if cause in o.shows else 0.0 for o in loud]) for cause in shown}
    leak = scaled([max(outcome.otherwise.value, LEAST_LEAK) for outcome in loud])
    return FindingNode(check.id, leak, links, tuple(outcome.id for outcome in check.outcomes), check.wrong)


def scaled(chances: Sequence[float]) -> tuple[float, ...]:
    """The chances, shrunk where they would leave less than 1 - MOST for the quiet level."""
    total = sum(chances)
    if total <= MOST:
        return tuple(chances)
    return tuple(chance * MOST / total for chance in chances)


def mistaken_each(wrong: float, levels: int, times: int) -> float:
    """How often one level is told for one other, where the same was told so many times, each time by itself."""
    right, other = (1.0 - wrong) ** times, (wrong / levels) ** times
    return other / (right + levels * other)


def _missed(chances: tuple[float, ...], each: float) -> tuple[float, ...]:
    """What a cause picks, taken now and then for one of the levels below. As the leak fancies levels besides, so often
    that for one cause by itself just this share of answers names each level that is not there."""
    above = [sum(chances[level:]) for level in range(len(chances) + 1)]
    fallen = [each * (level + 1) / (1.0 - each * (len(chances) - level)) for level in range(len(chances))]
    return _steps([1.0 - over + over * falls for over, falls in zip(above, [*fallen, 0.0], strict=True)])


def _fancied(chances: tuple[float, ...], each: float) -> tuple[float, ...]:
    """What the leak picks, where now and then one of the levels above is told."""
    levels = len(chances)
    return _steps([(1.0 - sum(chances[level:])) * (1.0 - each * (levels - level)) for level in range(levels + 1)])


def _steps(upto: Sequence[float]) -> tuple[float, ...]:
    """The chances of the levels above the quiet one, from those of staying at or below each."""
    return tuple([max(0.0, upto[level] - upto[level - 1]) for level in range(1, len(upto))])


@dataclass(frozen=True, slots=True)
class _Same:
    """What of a network is the same for every job, or for many: ``defects`` by their ids and which of their
    ``conditional`` rules may hold; whole ``networks`` by job and what is known of the press."""

    knowledge: Knowledge
    index: Mapping[str, int]
    checks: Mapping[str, FindingNode]
    cures: Mapping[str, Mapping[int, float]]
    conditional: Mapping[str, tuple[Rule, ...]]
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
    made = _Same(knowledge, index, checks, cures, conditional)
    _latest.append(made)
    return made


def network(knowledge: Knowledge, job: Job, known: Iterable[Known] = ()) -> Network:
    """The network for a job: priors shaped by it, and the rules and checks that may hold for it. What is ``known``
    of the press sets the prior of its cause; a cause that cannot be there in such a job stays out."""
    same, known = _same(knowledge), tuple(known)
    asked = (known, *sorted(job.items()))
    if (kept := same.networks.get(asked)) is not None:
        return kept
    if len(same.networks) >= MOST_NETWORKS:
        same.networks.clear()
    return same.networks.setdefault(asked, _made(same, job, known))


def _made(same: _Same, job: Job, known: Iterable[Known]) -> Network:
    knowledge = same.knowledge
    of_press = {each.cause: min(each.turns_up.value, MOST) for each in known}
    return Network(
        causes=tuple(knowledge.causes),
        priors=tuple(_prior(cause, job, of_press) for cause in knowledge.causes.values()),
        defects={d.id: _defect_node(d, same, job) for d in knowledge.defects.values()},
        checks={c.id: same.checks[c.id] for c in knowledge.checks.values() if c.condition.may_hold(job)},
        cures={f.id: same.cures[f.id] for f in knowledge.fixes.values() if f.condition.may_hold(job)},
        index=same.index,
    )
