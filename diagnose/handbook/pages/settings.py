"""The settings of every item in one table, and how goods are made ready and laid. On a narrow screen each row of the
table becomes a card."""

from collections.abc import Iterator

from diagnose.foresight.settings import barred, recipe
from diagnose.handbook import phrases
from diagnose.handbook.book import Handbook
from diagnose.handbook.leaf import Leaf, fold
from diagnose.handbook.leaf import item as bullet
from diagnose.handbook.links import Links, address
from diagnose.handbook.pages.items import families
from diagnose.handbook.text import markup, plain, shown
from diagnose.knowledge.model import SHIPPED, Item
from diagnose.knowledge.preparing import PARTS, Handling
from diagnose.speech.amounts import degrees_between, seconds_between
from diagnose.speech.preparing import part_title
from diagnose.speech.saying import say
from diagnose.speech.titles import refusal

START = say("settings-lead")
HEAD = ("Item", "Pre-press", "Temperature", "Dwell", "Pressure", "Peel")


def leaves(book: Handbook) -> Iterator[Leaf]:
    """The one page."""
    links = Links("settings.md")
    lines = [
        START,
        "{ .lead }",
        "",
        phrases.before_press(book, links),
        "{ .mind }",
        "",
        say("why-and-another-heat", link=links.to("heat.md", "Heat and dye")),
        "",
        '<table class="settings">',
        _head(),
    ]
    for family in families(book):
        rows = [row for item in book.items_of(family) if (row := _row(book, links, item))]
        if rows:
            head = f'<tr><th colspan="{len(HEAD)}" scope="rowgroup">{shown(book.family(family))}</th></tr>'
            lines += ["<tbody>", head, *rows, "</tbody>"]
    lines += ["</table>", "", *_barred(book, links), *_handling(book, links)]
    yield Leaf(path=links.start, title=say("settings-by-item"), lines=tuple(lines), boost=1.5, hide=("toc",))


def _row(book: Handbook, links: Links, item: Item) -> str:
    found = recipe(item, book.knowledge)
    if found is None:
        return ""
    settings, pre_press = found.settings, found.line("pre-press")
    dried = pre_press.seconds if pre_press else None
    cells = {
        "Pre-press": seconds_between(dried) if dried and dried[1] else "none",
        "Temperature": degrees_between(settings.temperature, book.shop.temperature),
        "Dwell": seconds_between(settings.dwell),
        "Pressure": settings.pressure,
        "Peel": f"{settings.peel}, after {settings.settle:g} s",
    }
    rest = "".join(f'<td data-name="{name}">{shown(value)}</td>' for name, value in cells.items())
    return f'<tr><th scope="row">{links.html(address("items", item.id), item.title)}</th>{rest}</tr>'


def _barred(book: Handbook, links: Links) -> Iterator[str]:
    """The items that are not pressed, and the stuffs that are refused, each with its reason."""
    knowledge = book.knowledge
    named = [(item, against) for item in knowledge.items.values() if (against := barred(knowledge, item.facts))]
    if named or knowledge.refused:
        yield from [f"## {say('these-are-not-pressed')} {{ #not-pressed }}", ""]
    for item, against in named:
        why = " ".join(say("not-pressed", why=one.why, do=one.do) for one in against)
        yield f"- {links.entry('items', item.id, item.title)}: {plain(why)}"
    yield from (f"- {plain(refusal(stuff))}" for stuff in knowledge.refused.values())
    yield ""


def _handling(book: Handbook, links: Links) -> Iterator[str]:
    """What is done beside heat, time and pressure: for each part of the work, the lines and the goods they are for."""
    if book.knowledge.handling:
        yield from ["## How goods are made ready and laid { #handling }", ""]
    for part in PARTS:
        lines = [line for line in book.knowledge.handling.values() if line.part == part]
        if lines:
            yield from fold(markup(part_title(part)), _lines(book, links, lines), name="fold rest")


def _lines(book: Handbook, links: Links, lines: list[Handling]) -> Iterator[str]:
    for line in lines:
        goods = phrases.condition(book, line.condition)
        whose = "" if line.origin == SHIPPED else f" *From {plain(line.origin)}.*"
        time = f"{plain(seconds_between(line.seconds))}. " if line.seconds and line.seconds[1] else ""
        lead = f"**{goods[:1].upper()}{goods[1:]}.** " if goods else "**All other goods.** " if len(lines) > 1 else ""
        said = say("basis-is", basis=phrases.basis(book, links, line.basis))
        yield from bullet(f"{lead}{time}{plain(line.title)}{whose}", f"{plain(line.why)} {said}")
    if len(lines) > 1:
        yield from [say("the-first-line-that-fits"), "{ .source }", ""]


def _head() -> str:
    cells = "".join(f'<th scope="col">{name}</th>' for name in HEAD)
    return f"<thead><tr>{cells}</tr></thead>"
