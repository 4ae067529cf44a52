"""Whether learnt numbers predict better: each case is predicted before it is learnt, by both sets of numbers.

What is predicted is what comes after the first sight. The *first sight* of a case is all that was said before the first
answer, fix or ending: the item, the facts, what was seen and what was not. Given that, and given which checks were
made and which fixes tried, the *log score* of a case is the natural logarithm of the probability of all that followed:
the outcomes of the checks, and what each fix changed, the last one's cure included. It is proper: only the true
probabilities have the best mean.

Each fix that was tried is besides an event with a yes or no: it made all that was left go away, or it did not. Its
*chance* is the probability of that, given all that was known before. Brier score and calibration are those of
these chances. Both sets of numbers are asked as the dialogue asks them: what nobody told of stays open.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from math import exp

from diagnose.casebook.case import Case
from diagnose.casebook.learning.jobs import job_of, known_of, shown
from diagnose.casebook.learning.numbers import NO_SHOP
from diagnose.dialogue.moves import DidNotSee, Pressed, Saw
from diagnose.dialogue.session import Session
from diagnose.knowledge.conditions import Job
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.reasoning.beliefs import believe
from diagnose.reasoning.evidence import Evidence, Tried
from diagnose.reasoning.network import Network, network


@dataclass(frozen=True, slots=True)
class Prediction:
    """``log_score`` in nats. ``cures``: for each fix tried, the chance given to its cure, and whether it came."""

    log_score: float
    cures: tuple[tuple[float, bool], ...]


@dataclass(slots=True)
class Forecaster:
    """Predicts cases with one set of numbers."""

    knowledge: Knowledge
    shop: Shop = NO_SHOP
    _nets: dict[tuple[object, ...], Network] = field(default_factory=dict)

    def forecast(self, case: Case) -> Prediction | None:
        """The prediction; None for a case in which nothing known was seen at first sight, or nothing followed."""
        net = self._net(job_of(case, self.knowledge, self.shop))
        first, whole = _known(first_sight(case), net), _known(shown(case, self.knowledge), net)
        if not first.seen or first == whole:
            return None
        before = believe(net, first).log_evidence
        return Prediction(believe(net, whole).log_evidence - before, tuple(_cures(net, whole, bool(case.cured_by))))

    def _net(self, job: Job) -> Network:
        key = tuple(sorted(job.items()))
        if key not in self._nets:
            self._nets[key] = network(self.knowledge, job, known_of(job, self.shop))
        return self._nets[key]


def first_sight(case: Case) -> Evidence:
    """What was seen and not seen before anything was checked or tried."""
    moves = []
    for move in case.session.moves:
        if not isinstance(move, Pressed | Saw | DidNotSee):
            break
        moves.append(move)
    return Session(tuple(moves)).evidence


def _known(evidence: Evidence, net: Network) -> Evidence:
    """The evidence without what the network does not know."""
    answers = {
        check: (outcome, period)
        for check, (outcome, period) in evidence.answers.items()
        if check in net.checks and outcome in net.checks[check].outcomes
    }
    tried = tuple([each if each.fix in net.cures else Tried(each.fix) for each in evidence.tried])
    seen = tuple([defect for defect in evidence.seen if defect in net.defects])
    not_seen = tuple([defect for defect in evidence.not_seen if defect in net.defects])
    weighed = tuple([one for one in evidence.weighed if one.cause in net.index])
    return Evidence(seen, not_seen, answers, tried, weighed)


def _cures(net: Network, whole: Evidence, cured: bool) -> Iterator[tuple[float, bool]]:
    for turn, tried in enumerate(whole.tried):
        earlier = {check: answer for check, answer in whole.answers.items() if answer[1] <= turn}
        figures = tuple([one for one in whole.weighed if one.period <= turn])
        before = replace(whole, answers=earlier, tried=whole.tried[:turn], weighed=figures)
        if tried.fix in net.cures and before.left:
            after = replace(before, tried=(*before.tried, Tried(tried.fix, "", before.left)))
            log_chance = believe(net, after).log_evidence - believe(net, before).log_evidence
            yield min(1.0, exp(log_chance)), cured and turn == len(whole.tried) - 1
