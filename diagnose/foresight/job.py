"""A job as it is told before the press, and which statements of the knowledge are so, not so, or open in it."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field

from diagnose.foresight.dosing import Set
from diagnose.knowledge.conditions import ALWAYS, FactValue, Usual
from diagnose.knowledge.model import Item, Knowledge
from diagnose.knowledge.preparing import Statement
from diagnose.knowledge.shop import SPOILT, Known

UNSURE = 0.25  # of the chance where a statement is not so: who is not sure is right more often than wrong
LIGHT, HEAVY, AS_LISTED = "light", "heavy", "as listed"
NO_SHEET = "no-sheet"


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """What is known of a job. ``so``, ``not_so``, ``unsure``: ids of statements; ``rest_so``: all others are so.
    ``pressure``: ``light``, ``heavy`` or ``as listed`` against the item's own, "" where it is not told. ``known``: what
    is known of the press."""

    item: Item | None = None
    facts: Mapping[str, FactValue] = field(default_factory=dict)
    set: Set = field(default_factory=Set)
    pressure: str = ""
    so: Collection[str] = ()
    not_so: Collection[str] = ()
    unsure: Collection[str] = ()
    rest_so: bool = False
    pieces: int = 1
    spoilt: float = SPOILT
    known: tuple[Known, ...] = ()

    @property
    def all_facts(self) -> dict[str, FactValue | Usual]:
        """The facts of the item with those told of the job over them. The goods are taken as they are listed: whether
        these are so is asked by statements. Which kind of press it is stays open."""
        return {**(self.item.listed if self.item else {}), **self.facts}


def fitting(job: Job, knowledge: Knowledge) -> list[Statement]:
    """The statements that go with the goods, in order."""
    return [one for one in knowledge.ready.values() if one.condition.may_hold(job.all_facts)]


def to_ask(job: Job, knowledge: Knowledge) -> list[Statement]:
    """The statements that only a person can speak to: neither facts nor figures settle them."""
    watched = _watched(job)
    return [
        one
        for one in fitting(job, knowledge)
        if _by_facts(one, job) is None and not (one.watched and watched.get(one.watched))
    ]


def doubted(job: Job, knowledge: Knowledge) -> list[tuple[Statement, float]]:
    """The statements that are not so, with 1, then those that nobody is sure of, with less."""
    wrong = [one for one in fitting(job, knowledge) if _wrong(one, job)]
    unsure = [one for one in fitting(job, knowledge) if one.id in job.unsure and one not in wrong]
    return [(one, 1.0) for one in wrong] + [(one, UNSURE) for one in unsure]


def confirmed(job: Job, knowledge: Knowledge) -> list[Statement]:
    """The statements that are so: by the person's word, by the facts, or by a figure given."""
    open_ = {one.id for one, _ in doubted(job, knowledge)}
    watched = _watched(job)
    return [
        one
        for one in fitting(job, knowledge)
        if one.id not in open_
        and (one.id in job.so or job.rest_so or _by_facts(one, job) is False or watched.get(one.watched) == "so")
    ]


def _wrong(statement: Statement, job: Job) -> bool:
    told = statement.id in job.not_so or bool(_by_facts(statement, job))
    return told or (bool(statement.watched) and _watched(job).get(statement.watched) == "not so")


def _by_facts(statement: Statement, job: Job) -> bool | None:
    """Whether the facts of the goods alone speak against a statement; None where they leave it open."""
    return None if statement.refuted == ALWAYS else statement.refuted.holds(job.all_facts)


def _watched(job: Job) -> dict[str, str]:
    """What the figures given say of what is watched: ``so`` or ``not so``."""
    said: dict[str, str] = {}
    if job.pressure:
        said |= {way: "not so" if job.pressure == way else "so" for way in (LIGHT, HEAVY)}
    if job.set.cover_sheets is not None:
        said[NO_SHEET] = "so" if job.set.cover_sheets else "not so"
    return said
