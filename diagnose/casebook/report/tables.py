"""The tables of a report: heads and cells as words, whatever they are then drawn on. The last column is the one that
may be long."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from diagnose.casebook.report import words
from diagnose.casebook.report.report import CauseShare, Report
from diagnose.speech.amounts import money
from diagnose.speech.saying import say

MOST = 15  # rows of a table that could go on
UNDER = 0.01  # share below which a cause is not listed


@dataclass(frozen=True, slots=True)
class Table:
    """``name`` as in the charts; ``rows`` have as many cells as the head."""

    name: str
    title: str
    about: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def tables(report: Report, currency: str) -> list[Table]:
    """All tables, in the order they are shown."""
    coin = currency or "money"
    return [
        Table(
            "causes",
            say("report-causes"),
            say("about-causes"),
            ("cases", "share", "up to", "cause"),
            _shares(report.causes, 1),
        ),
        Table(
            "losses",
            say("report-losses"),
            say("about-losses"),
            (coin, "share", "up to", "cause"),
            _shares(report.losses, 2),
        ),
        Table("weeks", say("report-weeks"), words.run_words(report.run), ("week of", "spoilt"), _weeks(report)),
        Table(
            "fixes", say("report-fixes"), say("about-fixes"), ("tried", "cured", "from", "to", "fix"), _fixes(report)
        ),
        Table(
            "unexplained",
            say("report-unexplained"),
            say("about-unexplained"),
            ("cases", "help", "cost", "what"),
            _unexplained(report, currency),
        ),
    ]


def _shares(shares: Sequence[CauseShare], digits: int) -> tuple[tuple[str, ...], ...]:
    listed = [share for share in shares if share.share >= UNDER][:MOST]
    return tuple(
        (f"{share.amount:.{digits}f}", _percent(share.share), _percent(share.up_to), share.title) for share in listed
    )


def _weeks(report: Report) -> tuple[tuple[str, ...], ...]:
    return tuple((f"{week.begins}", f"{week.spoilt}") for week in report.run.weeks)


def _fixes(report: Report) -> tuple[tuple[str, ...], ...]:
    return tuple(
        (f"{fix.tried}", f"{fix.cured}", _percent(fix.low), _percent(fix.high), fix.title)
        for fix in report.fixes[:MOST]
    )


def _unexplained(report: Report, currency: str) -> tuple[tuple[str, ...], ...]:
    return tuple(
        (
            f"{one.cases}",
            f"{one.handed_over}",
            money(one.lost, currency),
            say("items-and-sights", item=one.item, seen=_listed(one.seen)),
        )
        for one in report.unexplained
    )


def _listed(titles: Iterable[str]) -> str:
    return " · ".join(titles)


def _percent(share: float) -> str:
    return f"{share * 100:.0f} %"
