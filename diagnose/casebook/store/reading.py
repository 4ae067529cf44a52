"""What is asked of the casebook, within a transaction that is already open. A row that holds no case is passed over,
and ``skip`` is told which one it is and why."""

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from datetime import date, datetime
from typing import Any

from sqlalchemy import (
    REAL,
    ColumnElement,
    Connection,
    Integer,
    LargeBinary,
    RowMapping,
    Select,
    Text,
    cast,
    func,
    literal,
    not_,
    select,
    true,
    tuple_,
)

from diagnose.casebook.case import EARLIEST, MOST, MOST_MONEY, Case, press_name, written
from diagnose.casebook.store import tables
from diagnose.casebook.store.faults import CHANGED, Damaged
from diagnose.casebook.store.rows import as_named, case_from, encodable, representative, unchanged
from diagnose.casebook.tally import Day, Group

AT_ONCE = 500  # cases in one statement
Skip = Callable[[str, str], None]  # is told which case cannot be read, and why
_case, _pattern, _took = tables.cases.c, tables.pattern.c, tables.took.c
_BOTH = tables.cases.join(tables.pattern, _case.pattern == _pattern.digest)
_EITHER = tables.cases.outerjoin(tables.pattern, _case.pattern == _pattern.digest)
_WHOLE = (
    select(tables.cases, _pattern.press, _pattern.moves.label("showed"))
    .select_from(_EITHER)
    .order_by(_case.ended, _case.id)
)
_SOUND = (
    ((func.length(_case.id) == len("0" * 32)) & (_case.id < "g"))
    & (_case.ended.like("____-__-__T__:__:__Z") & (_case.ended >= f"{EARLIEST}-") & (_case.ended < ":"))
    & (_case.minutes.is_(None) | _case.minutes.between(0, MOST))
    & (_case.lost.is_(None) | _case.lost.between(0, MOST_MONEY))
    & _case.spoilt.between(0, MOST)
)  # what a row must be to be counted with others; the database can tell this much without reading it out, and
# bytes sort behind every text
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
    found = connection.scalars(select(_case.id).where(alike).order_by(_case.id).limit(most))
    return [one for one in found if isinstance(one, str)]


def alike(connection: Connection, case_id: str) -> list[str]:
    same = select(_case.pattern).where(_case.id == case_id).scalar_subquery()
    return list(connection.scalars(select(_case.id).where(_case.pattern == same).order_by(_case.id)))


def by_id(connection: Connection, wanted: Sequence[str], skip: Skip) -> Iterator[Case]:
    return _cases(connection, connection.execute(_WHOLE.where(_case.id.in_(wanted))).mappings().all(), skip)


def in_time(
    connection: Connection, skip: Skip, since: datetime | None, press: str | None, item: str | None
) -> Iterator[Case]:
    """The cases in time order, fetched some at a time: each lot begins behind the last row of the one before."""
    wanted = _WHOLE.where(chosen(since, press, item)).limit(AT_ONCE)
    rows = connection.execute(wanted).mappings().all()
    while rows:
        yield from _cases(connection, rows, skip)
        behind = tuple_(_case.ended, _case.id) > _place(rows[-1])
        rows = connection.execute(wanted.where(behind)).mappings().all()


def newest(connection: Connection, most: int, which: ColumnElement[bool], skip: Skip) -> list[Case]:
    """The last cases that can be read, the last of them first."""
    backwards = _WHOLE.order_by(None).order_by(_case.ended.desc(), _case.id.desc()).where(which).limit(most)
    found: list[Case] = []
    rows = connection.execute(backwards).mappings().all()
    while rows and len(found) < most:
        found += _cases(connection, rows, skip)
        before = tuple_(_case.ended, _case.id) < _place(rows[-1])
        rows = connection.execute(backwards.where(before)).mappings().all() if len(found) < most else []
    return found[:most]


def _place(row: RowMapping) -> ColumnElement[Any]:
    """Where a row stands in time."""
    return tuple_(_as_kept(row["ended"]), _as_kept(row["id"]))


def _as_kept(value: Any) -> Any:
    """A value to compare with what stands in a column of texts, whatever it is: bytes that are no text, too. SQLite
    would take a number for a text there, and sorts nothing before everything."""
    if encodable(value) or isinstance(value, bytes):
        return value
    if isinstance(value, str):
        return cast(literal(value.encode("utf-8", "surrogateescape"), LargeBinary), Text)
    number = float("-inf") if value is None else value
    return cast(literal(number), Integer if isinstance(number, int) else REAL)


def _cases(connection: Connection, rows: Sequence[RowMapping], skip: Skip) -> Iterator[Case]:
    took: dict[str, dict[str, float]] = {row["id"]: {} for row in rows if encodable(row["id"])}
    timed = select(tables.took).where(_took.case_id.in_(list(took))).order_by(_took.step)
    for case_id, step, minutes in connection.execute(timed) if took else ():
        took[case_id][step] = minutes
    for row in rows:
        minutes = took.get(row["id"], {})
        try:
            case = case_from(row, minutes)
            if not unchanged(row, minutes):
                raise Damaged(CHANGED)
        except Damaged as error:
            skip(as_named(row["id"]), str(error))
        else:
            yield case


def patterns(connection: Connection, skip: Skip, changed: Collection[str]) -> Iterator[tuple[Case, int]]:
    for row, case in _standing_for(connection, _grouped(_none_of(changed), ()), skip):
        yield case, row["cases"]


def groups(
    connection: Connection, skip: Skip, changed: Collection[str], since: datetime | None, press: str | None
) -> Iterator[Group]:
    which = chosen(since, press) & _none_of(changed)
    for row, case in _standing_for(connection, _grouped(which, _COST[1:]), skip):
        cost = {name: row[name] for name in ("cases", "spoilt", "minutes", "lost")}
        yield Group(case=case, **cost)


def _standing_for(connection: Connection, wanted: Select[Any], skip: Skip) -> Iterator[tuple[RowMapping, Case]]:
    """Each pattern's row, with the case that stands for it."""
    _name_unsound(connection, skip)
    for row in connection.execute(wanted).mappings():
        try:
            case = _representative(row)
        except Damaged as error:
            also = f" and {row['cases'] - 1} that show the same" if row["cases"] > 1 else ""
            skip(f"{as_named(row['first'])}{also}", str(error))
        else:
            yield row, case


def _representative(row: RowMapping) -> Case:
    """The case that stands for a pattern; it does so as well where the day of the first is none."""
    try:
        return representative(row)
    except Damaged:
        return representative({**row, "ended": f"{EARLIEST}-01-01T00:00:00Z"})


def _name_unsound(connection: Connection, skip: Skip) -> None:
    """Pass over, by name, the rows whose own figures keep them from being counted."""
    for _ in _cases(connection, connection.execute(_WHOLE.where(not_(_SOUND))).mappings().all(), skip):
        pass


def _grouped(which: ColumnElement[bool], costs: Sequence[ColumnElement[Any]]) -> Select[Any]:
    """The patterns, each with its number of cases, the first of them, and sums; ordered by what they show."""
    counted = (
        select(_case.pattern, func.min(_case.id).label("first"), func.min(_case.ended).label("ended"), _COST[0], *costs)
        .select_from(tables.cases if which is true() else _BOTH)
        .where(which, _SOUND)
        .group_by(_case.pattern)
        .subquery()
    )
    joined = tables.pattern.join(counted, counted.c.pattern == _pattern.digest)
    shown = [column for column in counted.c if column.name != "pattern"]
    wanted = select(_pattern.press, _pattern.moves, *shown).select_from(joined).order_by(_pattern.digest)
    return wanted.execution_options(yield_per=AT_ONCE)


def times(connection: Connection, changed: Collection[str]) -> Mapping[str, tuple[int, float, float]]:
    """The spread is taken about the mean, so that it comes out right for any unit."""
    sound = _took.minutes.between(0, MOST) & _none_of(changed, _took.case_id)
    mean = select(_took.step, func.avg(_took.minutes).label("mean")).where(sound).group_by(_took.step).subquery()
    off = _took.minutes - mean.c.mean
    timed = (
        select(_took.step, func.count(), func.avg(_took.minutes), func.sum(off * off))
        .select_from(tables.took.join(mean, mean.c.step == _took.step))
        .where(sound)
        .group_by(_took.step)
        .order_by(_took.step)
    )
    found = connection.execute(timed)
    return {
        step: (number, mean, squares / (number - 1) if number > 1 else 0.0)
        for step, number, mean, squares in found
        if isinstance(step, str)
    }


def days(
    connection: Connection, skip: Skip, changed: Collection[str], since: datetime | None, press: str | None
) -> list[Day]:
    day = func.substr(_case.ended, 1, 10).label("day")
    which = chosen(since, press) & _none_of(changed) & _SOUND
    by_day = select(day, *_COST).select_from(_BOTH).where(which).group_by(day).order_by(day)
    found = []
    for row in connection.execute(by_day).mappings():
        try:
            found.append(Day(**{**row, "day": date.fromisoformat(row["day"])}))
        except ValueError:
            skip(f"that ended on {row['day']}", "there is no such day")
    return found


def name_changed(connection: Connection, changed: Collection[str], skip: Skip) -> None:
    """Pass these cases over by name, each with what is wrong with it."""
    which = _case.id.in_([_as_kept(one) for one in changed])
    for _ in _cases(connection, connection.execute(_WHOLE.where(which)).mappings().all(), skip) if changed else ():
        pass
    for one in changed:
        skip(as_named(one), CHANGED)


def _none_of(changed: Collection[str], key: ColumnElement[str] = _case.id) -> ColumnElement[bool]:
    return key.not_in([_as_kept(one) for one in changed]) if changed else true()


def chosen(since: datetime | None, press: str | None, item: str | None = None) -> ColumnElement[bool]:
    """What makes a case one of those that are asked for."""
    wanted: ColumnElement[bool] = true()
    if since is not None:
        wanted &= _case.ended >= written(since)
    if press is not None:
        wanted &= _pattern.press.in_({press, press_name(press)})
    if item is not None:
        wanted &= _pattern.item == item
    return wanted
