"""A job before it goes under the platen: what is likely to go wrong, from what, what to change, and whether to press.

The chances in the rules count jobs at the bench, not every press. Here they are all made smaller by one number, so that
a usual press of the item goes wrong as often as ``spoilt`` says. What the job itself says is not made smaller: a cause
that its facts make at least even, one that a statement answered "not so" brings, and what the heat model makes of the
settings.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from diagnose.foresight.dosing import Dosing, dosing
from diagnose.foresight.forecast import CARE as CARE
from diagnose.foresight.forecast import EVEN as EVEN
from diagnose.foresight.forecast import GO as GO
from diagnose.foresight.forecast import LATER as LATER
from diagnose.foresight.forecast import STOP as STOP
from diagnose.foresight.forecast import Forecast, behind, forecast, measure_for
from diagnose.foresight.job import Job, confirmed, doubted
from diagnose.foresight.readings import spoken
from diagnose.knowledge.model import Fix, Knowledge
from diagnose.knowledge.preparing import Statement
from diagnose.knowledge.shop import Rates
from diagnose.knowledge.trial import on_trial
from diagnose.reasoning.network import MOST, Network, network

CONFIRMED = 0.2  # what is left of a cause's chance where the person says that all is so: people overlook things
SHOWN = 0.02  # chances below are not told
LIFTED = 1.5  # times the usual chance, from which on a defect is told
STANDS_OUT = 1.2  # times the usual chance, below which nothing stands out
LEADING = LOOKS = 3  # causes told of a defect, and of all
LEAST = 0.1  # of the likeliest cause's chance: what is less is not told beside it
BLAMED = 4.0  # times as often with a cause as without it: from here on a figure calls for care


@dataclass(frozen=True, slots=True)
class Risk:
    """A defect to be expected: its chance, that in a usual press, and the causes behind it with their chances."""

    defect: str
    chance: float
    usual: float
    causes: tuple[tuple[str, float], ...]

    @property
    def leading(self) -> list[tuple[str, float]]:
        """The likeliest causes, as far as they are worth telling."""
        return [(cause, chance) for cause, chance in self.causes[:LEADING] if chance >= LEAST * self.causes[0][1]]


@dataclass(frozen=True, slots=True)
class Remedy:
    """What to change before pressing. ``statement`` says how (None: it is a setting); ``causes`` go by it; ``spoils``:
    the chance that these alone spoil a piece; ``price`` and ``saves`` in the shop's money, for the whole job."""

    statement: Statement | None
    causes: tuple[str, ...]
    spoils: float
    price: float
    saves: float

    @property
    def pays(self) -> bool:
        return self.saves > self.price


@dataclass(frozen=True, slots=True, kw_only=True)
class Readiness:
    """The answer. ``spoilt``: the chance that a piece is spoilt, ``usual`` that in a usual press; ``loss``: what the
    job is expected to lose, ``usual_loss`` what such a job usually loses. ``chances``: of every cause; ``due``: how
    far ``spoilt`` would fall without it."""

    job: Job
    verdict: str
    spoilt: float
    usual: float
    loss: float
    usual_loss: float
    risks: tuple[Risk, ...]
    changes: tuple[Remedy, ...]
    chances: Mapping[str, float]
    due: Mapping[str, float]
    dosing: Dosing | None

    @property
    def as_usual(self) -> bool:
        """Whether nothing stands out."""
        return self.spoilt < STANDS_OUT * self.usual

    @property
    def worth_a_look(self) -> list[str]:
        """The causes most worth a last look: those that spoil most and that the settings do not clear."""
        cleared = self.dosing.causes if self.dosing else {}
        open_ = (cause for cause in self.due if cause not in cleared)
        return sorted(open_, key=lambda cause: (-round(self.due[cause], 9), cause))[:LOOKS]


def readiness(job: Job, knowledge: Knowledge, rates: Rates) -> Readiness:
    """What is to be expected of the job as it stands."""
    net = network(knowledge, job.all_facts, job.known)
    bench = _at_the_bench(net, knowledge)
    background = {cause: _background(knowledge, cause, chance) for cause, chance in bench.items()}
    scale = measure_for(net, background, job.spoilt)
    usual = forecast(net, {cause: scale * chance for cause, chance in background.items()}, scale)
    found = dosing(job.item, knowledge, job.set) if job.item else None
    chances = _chances(job, knowledge, bench, scale) | _dosed(found, knowledge)
    said = spoken(job.item, knowledge, job.set) if job.item and job.set.told else {}
    _read(said, {cause: scale * chance for cause, chance in background.items()}, chances)
    _doubt(job, knowledge, bench, chances)
    now = forecast(net, chances, scale)
    whole = job.pieces * rates.piece(job.item)
    changes = tuple(_changes(_Case(job, knowledge, net, chances, whole, rates)))
    return Readiness(
        job=job,
        verdict=STOP if _barred(job, knowledge) else _verdict(now.spoilt, usual.spoilt, changes, said),
        spoilt=now.spoilt,
        usual=usual.spoilt,
        loss=now.spoilt * whole,
        usual_loss=usual.spoilt * whole,
        risks=tuple(_risks(net, now, usual, chances)),
        changes=changes,
        chances=chances,
        due=now.due,
        dosing=found,
    )


def remedy(knowledge: Knowledge, rates: Rates, ready: Readiness, cause: str) -> Fix | None:
    """What cures a cause most surely for its time, its waiting included, and costs no blank; what is on trial only
    where nothing else does."""
    facts = ready.job.all_facts
    fitting = [
        (not on_trial(fix), fix.cures[cause].value / (rates.worth(fix) + 5.0), fix)
        for fix in knowledge.fixes.values()
        if cause in fix.cures and not fix.spends.blank and fix.condition.may_hold(facts)
    ]
    return max(fitting, key=lambda one: (one[0], round(one[1], 9), one[2].id), default=(False, 0.0, None))[2]


@dataclass(frozen=True, slots=True)
class _Case:
    job: Job
    knowledge: Knowledge
    net: Network
    chances: Mapping[str, float]
    whole: float
    rates: Rates

    def change(self, statement: Statement | None, causes: tuple[str, ...]) -> Remedy:
        """What it is worth to be rid of some causes."""
        there = {cause: self.chances[cause] for cause in causes if cause in self.chances}
        spoils = forecast(self.net, there, 0.0).spoilt
        minutes, paper = (statement.minutes, statement.paper) if statement else (1.0, 0.0)
        price = minutes * self.rates.minute + paper * self.rates.paper
        return Remedy(statement, causes, spoils, price, spoils * self.whole)


def _at_the_bench(net: Network, knowledge: Knowledge) -> dict[str, float]:
    """How often each cause turns up in such jobs at the bench, without those that come after the press."""
    priors = zip(net.causes, net.priors, strict=True)
    return {cause: chance for cause, chance in priors if chance > 0.0 and knowledge.causes[cause].family != LATER}


def _background(knowledge: Knowledge, cause: str, chance: float) -> float:
    """How often a cause turns up at the bench where the goods do not bring it along."""
    return min(chance, knowledge.causes[cause].turns_up.value) if chance >= EVEN else chance


def _chances(job: Job, knowledge: Knowledge, bench: Mapping[str, float], scale: float) -> dict[str, float]:
    """The chance of every cause, with what the person confirms."""
    chances = {cause: min(MOST, chance) if chance >= EVEN else scale * chance for cause, chance in bench.items()}
    for statement in confirmed(job, knowledge):
        for cause in statement.not_so:
            if cause in chances:
                chances[cause] = CONFIRMED * scale * _background(knowledge, cause, bench[cause])
    return chances


def _dosed(found: Dosing | None, knowledge: Knowledge) -> dict[str, float]:
    causes = found.causes if found else {}
    return {cause: chance for cause, chance in causes.items() if cause in knowledge.causes}


def _read(said: Mapping[str, float], usual: Mapping[str, float], chances: dict[str, float]) -> None:
    """Raise the chances of what the settings speak for: a figure says before the press what it says after it."""
    for cause, ratio in said.items():
        if cause in chances and ratio > 1.0:
            odds = ratio * usual[cause] / (1.0 - usual[cause])
            chances[cause] = max(chances[cause], min(MOST, odds / (1.0 + odds)))


def _doubt(job: Job, knowledge: Knowledge, bench: Mapping[str, float], chances: dict[str, float]) -> None:
    """Raise the chances of what is not so or not sure. What the goods bring along and nobody spoke of is halved: it may
    have been agreed with the customer."""
    told = doubted(job, knowledge)
    for statement in _open(job, knowledge, bench):
        for cause in statement.not_so:
            chances[cause] = EVEN * min(MOST, bench.get(cause, 0.0))
    for statement, sure in told:
        for cause, chance in statement.not_so.items():
            chances[cause] = max(chances.get(cause, 0.0), min(MOST, sure * chance.value))


def _open(job: Job, knowledge: Knowledge, bench: Mapping[str, float]) -> list[Statement]:
    """The statements that nobody spoke of and that the goods speak against."""
    told = {one.id for one in confirmed(job, knowledge)} | {one.id for one, _ in doubted(job, knowledge)}
    return [
        one
        for one in knowledge.ready.values()
        if one.id not in told
        and one.condition.may_hold(job.all_facts)
        and any(bench.get(cause, 0.0) >= EVEN for cause in one.not_so)
    ]


def _risks(net: Network, now: Forecast, usual: Forecast, chances: Mapping[str, float]) -> Iterator[Risk]:
    """The defects worth telling, the likeliest first."""
    for defect in sorted(now.defects, key=lambda one: (-round(now.defects[one], 9), one)):
        chance, before = now.defects[defect], usual.defects[defect]
        if chance >= SHOWN and chance > LIFTED * before:
            yield Risk(defect, chance, before, tuple(behind(net, defect, chances)))


def _changes(case: _Case) -> list[Remedy]:
    """What to change, the most harmful first: statements that are not so or not sure, then what stands out by the
    settings or the goods and no statement speaks of."""
    bench = _at_the_bench(case.net, case.knowledge)
    wrong = [one for one, _ in doubted(case.job, case.knowledge)] + _open(case.job, case.knowledge, bench)
    found = [case.change(statement, tuple(statement.not_so)) for statement in wrong]
    spoken = {cause for change in found for cause in change.causes}
    found += [case.change(None, (cause,)) for cause in case.chances if cause not in spoken]
    worth = [change for change in found if change.spoils >= SHOWN]
    return sorted(worth, key=lambda change: (-round(change.spoils, 9), change.causes))


def _barred(job: Job, knowledge: Knowledge) -> bool:
    """Whether the goods are not pressed at all, by what is known of them."""
    return any(sure == 1.0 and statement.bars for statement, sure in doubted(job, knowledge))


def _verdict(spoilt: float, usual: float, changes: tuple[Remedy, ...], said: Mapping[str, float]) -> str:
    """Stop where a piece is as likely spoilt as not: on average each press then costs more than it brings. Care where a
    piece is twice as likely spoilt as usual, where a change saves more than it costs, or where a figure speaks so
    strongly for a cause that a spoiled piece would be put down to it."""
    if spoilt >= EVEN:
        return STOP
    blamed = any(ratio >= BLAMED for ratio in said.values())
    if spoilt > 2.0 * usual or blamed or any(change.pays for change in changes):
        return CARE
    return GO
