"""The settings of every item in one table. On a narrow screen each row becomes a card."""

from collections.abc import Iterator

from diagnose.handbook import phrases
from diagnose.handbook.book import Book
from diagnose.handbook.leaf import Leaf
from diagnose.handbook.links import Links, address
from diagnose.handbook.pages.items import families
from diagnose.handbook.text import markup
from diagnose.handbook.units import seconds, temperature
from diagnose.knowledge.model import Item

START = (
    "A place to start from. The blank maker's own instructions come first. "
    "Press a test piece, and change one thing at a time."
)
HEAD = ("Item", "Temperature", "Dwell", "Pressure", "Peel")
ALWAYS = ("hot-platen", "pinch", "hot-goods", "fumes")


def leaves(book: Book) -> Iterator[Leaf]:
    """The one page."""
    links = Links("settings.md")
    lines = [
        START,
        "{ .lead }",
        "",
        f"{phrases.short_cautions(book, links, ALWAYS)}",
        "{ .mind }",
        "",
        f"Why, and what another heat makes of the time: {links.to('heat.md', 'Heat and dye')}",
        "",
        '<table class="settings">',
        _head(),
    ]
    for family in families(book):
        rows = [row for item in book.items_of(family) if (row := _row(book, links, item))]
        if rows:
            head = f'<tr><th colspan="{len(HEAD)}" scope="rowgroup">{markup(book.family(family))}</th></tr>'
            lines += ["<tbody>", head, *rows, "</tbody>"]
    yield Leaf(path=links.start, title="Settings by item", lines=(*lines, "</table>"), boost=1.5, hide=("toc",))


def _row(book: Book, links: Links, item: Item) -> str:
    if not (settings := item.settings):
        return ""
    cells = {
        "Temperature": temperature(settings.temperature, book.shop),
        "Dwell": seconds(settings.dwell),
        "Pressure": settings.pressure,
        "Peel": f"{settings.peel}, after {settings.settle:g} s",
    }
    rest = "".join(f'<td data-name="{name}">{markup(value)}</td>' for name, value in cells.items())
    return f'<tr><th scope="row">{links.html(address("items", item.id), item.title)}</th>{rest}</tr>'


def _head() -> str:
    cells = "".join(f'<th scope="col">{name}</th>' for name in HEAD)
    return f"<thead><tr>{cells}</tr></thead>"
