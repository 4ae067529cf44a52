"""What is asked of the casebook, within a transaction that is already open."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import UTC, date, datetime
from typing import Any

from sqlalchemy import ColumnElement, Connection, Select, func, select, true, tuple_

from diagnose.casebook import store_tables as tables
from diagnose.casebook.case import TIME, Case
from diagnose.casebook.store_rows import case_from, representative
from diagnose.casebook.tally import Day, Group

AT_ONCE = 500  # cases in one statement
_case, _pattern, _took = tables.cases.c, tables.pattern.c, tables.took.c
_BOTH = tables.cases.join(tables.pattern, _case.pattern == _pattern.digest)
_WHOLE = select(tables.cases, _pattern.press).select_from(_BOTH).order_by(_case.ended, _case.id)
_COST = (
    func.count().label("cases"),
    func.coalesce(func.sum(_case.spoilt), 0).label("spoilt"),
    func.coalesce(func.sum(_case.minutes), 0.0).label("minutes"),
    func.coalesce(func.sum(_case.lost), 0.0).label("lost"),
)


def count(connection: Connection) -> int:
    return connection.scalar(select(func.count()).select_from(tables.cases)) or 0


def ids(connection: Connection, part: str, most: int) -> list[str]:
    """Ids that begin or end with these digits."""
    alike = _case.id.startswith(part, autoescape=True) | _case.id.endswith(part, autoescape=True)
    return list(connection.scalars(select(_case.id).where(alike).order_by(_case.id).limit(most)))


def alike(connection: Connection, case_id: str) -> list[str]:
    same = select(_case.pattern).where(_case.id == case_id).scalar_subquery()
    return list(connection.scalars(select(_case.id).where(_case.pattern == same).order_by(_case.id)))


def by_id(connection: Connection, wanted: Sequence[str]) -> Iterator[Case]:
    return _cases(connection, _WHOLE.where(_case.id.in_(wanted)))


def in_time(connection: Connection, since: datetime | None, press: str | None, item: str | None) -> Iterator[Case]:
    """The cases in time order, fetched some at a time: each lot begins behind the last case of the one before."""
    wanted = _WHOLE.where(chosen(since, press, item)).limit(AT_ONCE)
    lot = list(_cases(connection, wanted))
    while lot:
        yield from lot
        last = lot[-1]
        behind = tuple_(_case.ended, _case.id) > tuple_(_time(last.ended), last.id)
        lot = list(_cases(connection, wanted.where(behind)))


def newest(connection: Connection, most: int, which: ColumnElement[bool]) -> list[Case]:
    """The last cases, the last of them first."""
    backwards = _WHOLE.order_by(None).order_by(_case.ended.desc(), _case.id.desc())
    return list(_cases(connection, backwards.where(which).limit(most)))


def _cases(connection: Connection, wanted: Select[Any]) -> Iterator[Case]:
    rows = connection.execute(wanted).mappings().all()
    took: dict[str, dict[str, float]] = {row["id"]: {} for row in rows}
    timed = select(tables.took).where(_took.case_id.in_(list(took))).order_by(_took.step)
    for case_id, step, minutes in connection.execute(timed) if took else ():
        took[case_id][step] = minutes
    return (case_from(row, took[row["id"]]) for row in rows)


def patterns(connection: Connection) -> Iterator[tuple[Case, int]]:
    for row in connection.execute(_grouped(true(), ())).mappings():
        yield representative(row), row["cases"]


def groups(connection: Connection, since: datetime | None, press: str | None) -> Iterator[Group]:
    for row in connection.execute(_grouped(chosen(since, press), _COST[1:])).mappings():
        cost = {name: row[name] for name in ("cases", "spoilt", "minutes", "lost")}
        yield Group(case=representative(row), **cost)


def _grouped(which: ColumnElement[bool], costs: Sequence[ColumnElement[Any]]) -> Select[Any]:
    """The patterns, each with its number of cases, the first of them, and sums; ordered by what they show."""
    counted = (
        select(_case.pattern, func.min(_case.id).label("first"), func.min(_case.ended).label("ended"), _COST[0], *costs)
        .select_from(tables.cases if which is true() else _BOTH)
        .where(which)
        .group_by(_case.pattern)
        .subquery()
    )
    joined = tables.pattern.join(counted, counted.c.pattern == _pattern.digest)
    shown = [column for column in counted.c if column.name != "pattern"]
    wanted = select(_pattern.press, _pattern.moves, *shown).select_from(joined).order_by(_pattern.digest)
    return wanted.execution_options(yield_per=AT_ONCE)


def times(connection: Connection) -> Mapping[str, tuple[int, float, float]]:
    """The spread is taken about the mean, so that it comes out right for any unit."""
    mean = select(_took.step, func.avg(_took.minutes).label("mean")).group_by(_took.step).subquery()
    off = _took.minutes - mean.c.mean
    timed = (
        select(_took.step, func.count(), func.avg(_took.minutes), func.sum(off * off))
        .select_from(tables.took.join(mean, mean.c.step == _took.step))
        .group_by(_took.step)
        .order_by(_took.step)
    )
    found = connection.execute(timed)
    return {
        step: (number, mean, squares / (number - 1) if number > 1 else 0.0) for step, number, mean, squares in found
    }


def days(connection: Connection, since: datetime | None, press: str | None) -> list[Day]:
    day = func.substr(_case.ended, 1, 10).label("day")
    by_day = select(day, *_COST).select_from(_BOTH).where(chosen(since, press)).group_by(day).order_by(day)
    rows = connection.execute(by_day).mappings()
    return [Day(**{**row, "day": date.fromisoformat(row["day"])}) for row in rows]


def chosen(since: datetime | None, press: str | None, item: str | None = None) -> ColumnElement[bool]:
    """What makes a case one of those that are asked for."""
    wanted: ColumnElement[bool] = true()
    if since is not None:
        wanted &= _case.ended >= _time(since)
    if press is not None:
        wanted &= _pattern.press == press
    if item is not None:
        wanted &= _pattern.item == item
    return wanted


def _time(at: datetime) -> str:
    return at.astimezone(UTC).strftime(TIME)
