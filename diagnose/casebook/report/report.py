"""What the casebook's cases add up to, as plain values: a screen, a page and JSON are drawn from them."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from diagnose.casebook.case import CURED, HANDED_OVER
from diagnose.casebook.looking_back import looked_back
from diagnose.casebook.report.run_chart import Run, run_chart
from diagnose.casebook.tally import Day, Group
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.session import Session
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.reasoning.blame import Blame
from diagnose.speech.saying import say
from diagnose.speech.titles import titled

UNKNOWN = ""  # the id that stands for what the rules do not know
MOST_UNKNOWNS = 10
KNOWN_FROM = 0.5  # chance of the likeliest cause from which a cure counts as explained
CONFIDENCE = 1.96  # standard errors: 95 in 100


@dataclass(frozen=True, slots=True, kw_only=True)
class CauseShare:
    """A cause with its expected number of cases (or money) and with what all up to it come to, as a share of 1."""

    id: str
    title: str
    amount: float
    share: float
    up_to: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FixRecord:
    """How often a fix was tried and was the one that cured; ``low`` and ``high`` hold its chance of being that in
    95 cases of 100 (E. B. Wilson's score interval, 1927)."""

    id: str
    title: str
    tried: int
    cured: int
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Unexplained:
    """Cases with the same sights on the same item that were handed over, or cured with no known cause."""

    item: str
    seen: tuple[str, ...]
    cases: int
    handed_over: int
    minutes: float
    lost: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """``not_worked_out``: cases that speak of what is no longer known; their cost counts, their causes do not."""

    cases: int
    cured: int
    handed_over: int
    spoilt: int
    minutes: float
    lost: float
    not_worked_out: int
    causes: tuple[CauseShare, ...]
    losses: tuple[CauseShare, ...]
    run: Run
    fixes: tuple[FixRecord, ...]
    unexplained: tuple[Unexplained, ...]

    def to_plain(self) -> dict[str, Any]:
        """As plain values for JSON; days as ``2026-03-02``."""
        whole = asdict(self)
        for week in whole["run"]["weeks"]:
            week["begins"] = week["begins"].isoformat()
        return whole


@dataclass(slots=True)
class _Looked:
    """A group with what was behind its cases, None where that cannot be told."""

    group: Group
    blame: Blame | None


def report(groups: Iterable[Group], days: Sequence[Day], knowledge: Knowledge, shop: Shop) -> Report:
    """The report on some cases, looked back on by the rules of today."""
    start = Consultation(knowledge, shop, Session())
    looked = [_Looked(group, looked_back(start, group.case)) for group in groups]
    ends = Counter[str]()
    for one in looked:
        ends[one.group.case.ending] += one.group.cases
    return Report(
        cases=sum(day.cases for day in days),
        cured=ends[CURED],
        handed_over=ends[HANDED_OVER],
        spoilt=sum(day.spoilt for day in days),
        minutes=round(sum(day.minutes for day in days), 1),
        lost=round(sum(day.lost for day in days), 2),
        not_worked_out=sum(one.group.cases for one in looked if one.blame is None),
        causes=_pareto(_expected(looked), knowledge),
        losses=_pareto(_money(looked), knowledge),
        run=run_chart({day.day: day.spoilt for day in days}),
        fixes=_fixes(looked, knowledge),
        unexplained=_unexplained(looked, knowledge),
    )


def _expected(looked: Iterable[_Looked]) -> dict[str, float]:
    """By cause, the expected number of cases that it was behind. A case may have several causes behind it."""
    found: dict[str, float] = defaultdict(float)
    for one in looked:
        for cause, chance in _behind(one).items():
            found[cause] += chance * one.group.cases
    return found


def _money(looked: Iterable[_Looked]) -> dict[str, float]:
    """By cause, the money lost: what a case cost is shared out among what was behind it, by their chances."""
    found: dict[str, float] = defaultdict(float)
    for one in looked:
        behind = _behind(one)
        whole = sum(behind.values())
        for cause, chance in behind.items():
            found[cause] += one.group.lost * chance / whole if whole else 0.0
    return found


def _behind(one: _Looked) -> Mapping[str, float]:
    return {**one.blame.causes, UNKNOWN: one.blame.unknown} if one.blame else {}


def _pareto(amounts: Mapping[str, float], knowledge: Knowledge) -> tuple[CauseShare, ...]:
    """The causes, the greatest first, each with the share of all up to it."""
    whole = sum(amounts.values())
    shares, up_to = [], 0.0
    for cause in sorted(amounts, key=lambda one: (-round(amounts[one], 9), one)):
        amount = amounts[cause]
        if amount <= 0.0:
            continue
        up_to += amount
        title = knowledge.causes[cause].title if cause else say("cause-unknown")
        shares.append(
            CauseShare(
                id=cause, title=title, amount=round(amount, 3), share=amount / whole, up_to=min(1.0, up_to / whole)
            )
        )
    return tuple(shares)


def _fixes(looked: Iterable[_Looked], knowledge: Knowledge) -> tuple[FixRecord, ...]:
    tried, cured = Counter[str](), Counter[str]()
    for one in looked:
        case = one.group.case
        for fix in (*(step.fix for step in case.session.evidence.tried), *filter(None, [case.cured_by])):
            tried[fix] += one.group.cases
        cured[case.cured_by] += one.group.cases
    records = [_record(fix, number, cured[fix], knowledge) for fix, number in tried.items()]
    return tuple(sorted(records, key=lambda record: (-record.cured, -record.tried, record.id)))


def _record(fix: str, tried: int, cured: int, knowledge: Knowledge) -> FixRecord:
    low, high = interval(cured, tried)
    title = titled(knowledge.fixes[fix]) if fix in knowledge.fixes else fix
    return FixRecord(id=fix, title=title, tried=tried, cured=cured, low=round(low, 4), high=round(high, 4))


def interval(hits: int, of: int) -> tuple[float, float]:
    """Wilson's score interval for a chance of which ``hits`` of ``of`` trials came true (E. B. Wilson, 1927)."""
    z2 = CONFIDENCE**2
    middle = (hits + z2 / 2) / (of + z2)
    half = CONFIDENCE / (of + z2) * (hits * (of - hits) / of + z2 / 4) ** 0.5
    return (0.0 if hits == 0 else max(0.0, middle - half)), (1.0 if hits == of else min(1.0, middle + half))


def _unexplained(looked: Iterable[_Looked], knowledge: Knowledge) -> tuple[Unexplained, ...]:
    """The dearest cases without a known cause, those alike taken together."""
    alike: dict[tuple[str, tuple[str, ...]], list[Group]] = defaultdict(list)
    for one in looked:
        if _is_unexplained(one):
            session = one.group.case.session
            alike[session.item, session.evidence.seen].append(one.group)
    found = [_sum(item, seen, groups, knowledge) for (item, seen), groups in alike.items()]
    return tuple(sorted(found, key=lambda one: (-one.lost, -one.cases, one.item, one.seen))[:MOST_UNKNOWNS])


def _is_unexplained(one: _Looked) -> bool:
    case = one.group.case
    if case.ending == HANDED_OVER or (case.ending == CURED and not case.cured_by):
        return True
    return one.blame is not None and max(one.blame.causes.values(), default=0.0) < KNOWN_FROM < one.blame.unknown


def _sum(item: str, seen: Sequence[str], groups: Sequence[Group], knowledge: Knowledge) -> Unexplained:
    known = knowledge.items.get(item)
    return Unexplained(
        item=known.title if known else item or say("unnamed-item"),
        seen=tuple(knowledge.defects[d].title if d in knowledge.defects else d for d in seen),
        cases=sum(group.cases for group in groups),
        handed_over=sum(group.cases for group in groups if group.case.ending == HANDED_OVER),
        minutes=round(sum(group.minutes for group in groups), 1),
        lost=round(sum(group.lost for group in groups), 2),
    )
