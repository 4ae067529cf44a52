"""Evidence as factors on the causes: what each cause must not have done, and what must be explained.

A cause is absent, or present and still there, or present until the n-th fix put it right (its *death*).
For an observed finding a present cause either *explains* it (chance ``b``) or leaves it as it is (``c``).
A quiet finding leaves only ``c``; a loud one must be explained by somebody, the leak included.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from math import inf, log

from diagnose.reasoning.evidence import BETTER, SAME, Evidence, Tried, Weighed
from diagnose.reasoning.network import FindingNode, Network
from diagnose.reasoning.pulls import ALIVE, NO_PULL, Pull

IMPROVES = 0.8  # how surely taking one of several causes away is noticed as "better"
FANCIED = 0.15  # how often "better" is said though nothing was put right
FADED = 0.5  # share of unexplained sights that go away by themselves


@dataclass(slots=True, eq=False)
class Loud:
    """A finding that must be explained: the leak's pull, and each cause's by (cause, death)."""

    id: str
    leak: Pull
    pulls: Mapping[int, Mapping[int, Pull]]
    lasting: bool = False  # a defect that is still there


@dataclass(slots=True)
class Factors:
    """``modes[i]`` maps each possible death of cause i to its weight (prior times quiet factors),
    ``absent[i]`` is the weight of its absence; together they sum to 1, unless the evidence is impossible. A
    cause that nothing observed touches is in neither: it keeps its prior. ``log_quiet`` is the log of what
    was divided out."""

    priors: Sequence[float]
    absent: dict[int, float] = field(default_factory=dict)
    modes: dict[int, dict[int, float]] = field(default_factory=dict)
    loud: list[Loud] = field(default_factory=list)
    log_quiet: float = 0.0

    def of(self, cause: int) -> dict[int, float]:
        """The modes of a cause, from its prior where nothing has touched it yet."""
        if cause not in self.modes:
            self.absent[cause] = 1.0 - self.priors[cause]
            self.modes[cause] = {ALIVE: self.priors[cause]}
        return self.modes[cause]

    def reweighed(self, loud: Loud, by: Callable[[Pull], float]) -> "Factors":
        """These factors times those of one finding, given what each pull is worth."""
        modes = {cause: dict(deaths) for cause, deaths in self.modes.items()}
        for cause, pulls in loud.pulls.items():
            for death, pull in pulls.items():
                modes[cause][death] *= by(pull)
        log_quiet = self.log_quiet + log_of(by(loud.leak))
        result = Factors(self.priors, dict(self.absent), modes, self.loud, log_quiet)
        result.settle()
        return result

    def settle(self) -> None:
        """Let the weights of each cause sum to 1."""
        for cause, deaths in self.modes.items():
            total = self.absent[cause] + sum(deaths.values())
            if total == 1.0:
                continue
            self.log_quiet += log_of(total)
            if total:
                self.absent[cause] /= total
                self.modes[cause] = {death: weight / total for death, weight in deaths.items()}


def log_of(value: float) -> float:
    """The natural logarithm; minus infinity for 0."""
    return log(value) if value > 0.0 else -inf


def factors(net: Network, evidence: Evidence) -> Factors:
    """The factors of the evidence on the network. Unknown ids raise KeyError."""
    result = Factors(net.priors)
    for number, tried in enumerate(evidence.tried, 1):
        for cause, cure in net.cures.get(tried.fix, {}).items():
            deaths = result.of(cause)
            deaths[number] = deaths[ALIVE] * cure
            deaths[ALIVE] *= 1.0 - cure
    for observed in _observations(net, evidence):
        observed.put(result, bool(evidence.tried))
    for weighed in evidence.weighed:
        _weigh(net, weighed, result)
    result.settle()
    return result


def _weigh(net: Network, weighed: Weighed, result: Factors) -> None:
    """A figure speaks of its cause as it was when the figure was read. As causes are independent beforehand, a factor
    on one of them is the same as other prior odds, so that beliefs stay exact."""
    cause = net.index[weighed.cause]
    deaths = result.of(cause)
    for death in deaths:
        deaths[death] *= weighed.there if death > weighed.period else weighed.absent
    result.absent[cause] *= weighed.absent


@dataclass(slots=True)
class _Observed:
    """A node at a level, seen in a period; ``until`` is set where a fix made the defect go away."""

    node: FindingNode
    level: int
    period: int
    until: int = 0
    lasting: bool = False

    def put(self, result: Factors, mended: bool) -> None:
        """Enter it. ``mended``: some causes may have been put right, so that deaths matter."""
        leak, pulls = self.node.pulls(self.level)
        if self.level == 0:
            self._put_quiet(result, leak, pulls)
            return
        if self.until:
            leak = Pull(leak.b * FADED, leak.c)
        for cause in pulls:
            if cause not in result.modes:
                result.of(cause)
        if mended:
            pulls = {cause: self._by_death(pull[ALIVE], result.of(cause)) for cause, pull in pulls.items()}
        result.loud.append(Loud(self.node.id, leak, pulls, self.lasting))

    def _put_quiet(self, result: Factors, leak: Pull, pulls: Mapping[int, Mapping[int, Pull]]) -> None:
        result.log_quiet += log_of(leak.c)
        for cause, pull in pulls.items():
            deaths = result.of(cause)
            for death in deaths:
                if death > self.period:
                    deaths[death] *= pull[ALIVE].c

    def _by_death(self, pull: Pull, deaths: Iterable[int]) -> dict[int, Pull]:
        if self.until:
            return {death: self._gone(pull, death) for death in deaths}
        return {death: pull if death > self.period else NO_PULL for death in deaths}

    def _gone(self, pull: Pull, death: int) -> Pull:
        if death == self.until:
            return pull
        return Pull(0.0, pull.c if death > self.until else 1.0)


def _observations(net: Network, evidence: Evidence) -> Iterator[_Observed]:
    went = {defect: number for number, tried in enumerate(evidence.tried, 1) for defect in tried.gone}
    for defect in evidence.seen:
        until = went.get(defect, 0)
        yield _Observed(net.defects[defect], 1, evidence.period, until, lasting=not until)
    for defect in evidence.not_seen:
        yield _Observed(net.defects[defect], 0, 0)
    for check, (outcome, period) in evidence.answers.items():
        node = net.checks[check].told(evidence.times(check))
        yield _Observed(node, node.outcomes.index(outcome), period)
    for number, tried in enumerate(evidence.tried, 1):
        if tried.change in (BETTER, SAME):
            yield _change(net, evidence, tried, number)


def _change(net: Network, evidence: Evidence, tried: Tried, number: int) -> _Observed:
    """Whether things got better is itself a finding, brought on by the causes that this fix put right."""
    linked = {cause for defect in evidence.seen for cause in net.defects[defect].links}
    links = {cause: (IMPROVES,) for cause in net.cures.get(tried.fix, {}) if cause in linked}
    node = FindingNode(f"change after {tried.fix}", (FANCIED,), links)
    return _Change(node, 1 if tried.change == BETTER else 0, number)


class _Change(_Observed):
    """Only a cause that died of this very fix makes things better."""

    __slots__ = ()

    def _put_quiet(self, result: Factors, leak: Pull, pulls: Mapping[int, Mapping[int, Pull]]) -> None:
        result.log_quiet += log_of(leak.c)
        for cause, pull in pulls.items():
            result.of(cause)[self.period] *= pull[ALIVE].c

    def _by_death(self, pull: Pull, deaths: Iterable[int]) -> dict[int, Pull]:
        return {death: pull if death == self.period else NO_PULL for death in deaths}
