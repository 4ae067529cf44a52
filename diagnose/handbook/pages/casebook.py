"""What the shop's own cases add up to: charts, with their tables beside them."""

from collections.abc import Iterator

from diagnose.casebook.report import words
from diagnose.casebook.report.page import charts, html_table
from diagnose.casebook.report.report import Report
from diagnose.casebook.report.tables import tables
from diagnose.handbook.book import Handbook
from diagnose.handbook.leaf import Leaf
from diagnose.handbook.text import plain

PATH = "casebook.md"


def leaves(book: Handbook) -> Iterator[Leaf]:
    """The page, where the shop has cases."""
    if has_cases(book):
        assert book.report is not None
        yield Leaf(path=PATH, title="Casebook", lines=tuple(_lines(book.report, book.shop.currency)), boost=0)


def has_cases(book: Handbook) -> bool:
    """Whether there is such a page."""
    return book.report is not None and book.report.cases > 0


def _lines(report: Report, currency: str) -> Iterator[str]:
    yield from (plain(words.sums(report, currency)), "{ .lead }", "")
    if note := words.left_out(report):
        yield from (plain(note), "")
    drawn = charts(report, currency)
    for table in tables(report, currency):
        yield from (f"## {plain(table.title)} {{ #{table.name} }}", "", plain(table.about), "")
        if table.name in drawn and table.rows:
            yield from (f'<div class="chart">{drawn[table.name]}</div>', "")
        yield from (html_table(table), "")
