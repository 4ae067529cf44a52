"""Learning as it would have gone: the newest cases in time order, each predicted before it is learnt.

Learning anew after every case would change next to nothing, so that cases are predicted some at a time, each by what
all the cases before its lot have taught. The first lot meets numbers learnt from whatever came before it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from diagnose.casebook.case import Case
from diagnose.casebook.learning.applying import Applying
from diagnose.casebook.learning.calibration import Calibration, Interval, calibration, mean_of
from diagnose.casebook.learning.jobs import Jobs
from diagnose.casebook.learning.learning import learn
from diagnose.casebook.learning.material import Gathering
from diagnose.casebook.learning.numbers import Numbers
from diagnose.casebook.learning.scoring import Forecaster, Prediction
from diagnose.casebook.learning.sharing import SharedGathering
from diagnose.knowledge.learned import with_numbers
from diagnose.pace import Far, part, unheard

NEWEST = 500  # cases that are predicted
LEAST_LOT, LOTS = 10, 10


@dataclass(frozen=True, slots=True)
class PredictedPair:
    """A case predicted by the numbers as they were, and by those learnt from the cases before it."""

    before: Prediction
    after: Prediction


@dataclass(frozen=True, slots=True)
class Compared:
    """The learnt numbers against those before, over the same cases. ``log_score``: nats a case gained; ``brier``: what
    was saved of a cure's squared error. Above 0 the learnt ones are better."""

    cases: int
    cures: int
    log_score: Interval
    brier: Interval
    before: Calibration
    after: Calibration


def predicted(
    newest: Sequence[Case], earlier: Gathering | SharedGathering, jobs: Jobs, lots: int, far: Far = unheard
) -> Iterator[PredictedPair]:
    """Each of the newest cases (in time order) that can be predicted, in so many lots. ``earlier`` holds the cases
    before them; these are added as they come."""
    gathering, start = earlier, None
    before = Forecaster(jobs.knowledge, jobs.shop)
    parts = list(_lots(newest, lots))
    for number, lot in enumerate(parts):
        after, start = _taught(gathering, jobs, start, part(far, number / len(parts), (number + 1) / len(parts)))
        for case in lot:
            old, new = before.forecast(case), after.forecast(case)
            if old and new:
                yield PredictedPair(old, new)
        for case in lot:
            gathering.add(case, 1.0)


def _taught(
    gathering: Gathering | SharedGathering, jobs: Jobs, start: Numbers | None, far: Far
) -> tuple[Forecaster, Numbers | None]:
    if gathering.cases < 1.0:
        return Forecaster(jobs.knowledge, jobs.shop), None
    learnt = learn(gathering.done(), jobs.parameters, start, far)
    learned = Applying(jobs.knowledge, jobs.parameters, learnt, {}).learned()
    return Forecaster(with_numbers(jobs.knowledge, learned), jobs.shop), learnt.overall


def _lots(cases: Sequence[Case], lots: int) -> Iterator[list[Case]]:
    waiting, size = iter(cases), max(LEAST_LOT, -(-len(cases) // lots))
    while lot := list(islice(waiting, size)):
        yield lot


def compared(pairs: Sequence[PredictedPair]) -> Compared:
    """What the predictions come to."""
    gained = [pair.after.log_score - pair.before.log_score for pair in pairs]
    saved = [_squared(pair.before) - _squared(pair.after) for pair in pairs]
    events = [len(pair.after.cures) for pair in pairs]
    return Compared(
        cases=len(pairs),
        cures=sum(events),
        log_score=mean_of(gained) if pairs else Interval(0.0, 0.0, 0.0),
        brier=mean_of(saved, events) if pairs else Interval(0.0, 0.0, 0.0),
        before=_calibration([pair.before for pair in pairs]),
        after=_calibration([pair.after for pair in pairs]),
    )


def _squared(forecast: Prediction) -> float:
    return sum((chance - came) ** 2 for chance, came in forecast.cures)


def _calibration(forecasts: Sequence[Prediction]) -> Calibration:
    cures = [cure for forecast in forecasts for cure in forecast.cures]
    return calibration([chance for chance, _ in cures], [came for _, came in cures])
