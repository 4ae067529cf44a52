"""Before you press: for each family of items, what is most worth a look before the first piece."""

from collections.abc import Iterator

from diagnose.handbook import phrases
from diagnose.handbook.book import Book
from diagnose.handbook.leaf import Leaf, numbered
from diagnose.handbook.links import Links
from diagnose.handbook.pages.items import families
from diagnose.handbook.text import plain
from diagnose.knowledge.model import Check, Item

CAUSES_SHOWN = 8
SPOILS_SHOWN = 3
ALWAYS = (
    "Read the blank maker's instructions and the job's own card.",
    "See that the press has stood at its heat for ten minutes, and that the unit on its display is the unit of the recipe.",
    "Clean sheet below, clean sheet above; nothing on the platen that was not there before.",
    "Look at the printed sheet: dry, whole, mirrored, the right size.",
    "Press one test piece of the same goods. Judge it cold.",
)
CAUTIONS = ("hot-platen", "pinch", "hot-goods", "fumes")


def leaves(book: Book) -> Iterator[Leaf]:
    """The one page."""
    links = Links("before.md")
    lines = [
        "Five things each time; then what the goods in hand are most often spoilt by.",
        "{ .lead }",
        "",
        *phrases.cautions(book, links, CAUTIONS),
        "## Every time { #every-time }",
        "",
        *(f"{number}. {plain(step)}" for number, step in enumerate(ALWAYS, 1)),
        "",
        f"{links.to('settings.md', 'Settings by item')}",
        "",
    ]
    for family in families(book):
        lines += [f"## {plain(book.family(family))} {{ #{_anchor(family)} }}", "", *_family(book, links, book.items_of(family))]
    lines += ["Basis of this page: common practice, and the rules it is drawn from.", "{ .source }"]
    yield Leaf(path=links.start, title="Before you press", lines=tuple(lines), boost=1.5)


def _anchor(family: str) -> str:
    return "".join(sign if sign.isalnum() else "-" for sign in family.lower())


def _family(book: Book, links: Links, items: list[Item]) -> Iterator[str]:
    number = 0
    for cause, check in likeliest(book, items):
        number += 1
        spoils = sorted(book.rules_by_cause[cause], key=lambda r: (-r[1].brings.value, r[0].id))
        shown = [*dict.fromkeys(links.entry("defects", d.id, d.title) for d, _ in spoils)][:SPOILS_SHOWN]
        mind = phrases.short_cautions(book, links, check.cautions)
        yield from numbered(
            number,
            f"**{links.entry('causes', cause, book.title('causes', cause))}?**",
            mind and f'<span class="mind">{mind}</span>',
            f"{links.entry('checks', check.id, check.title)} ({phrases.price(book, check)}). Else: {', '.join(shown)}.",
        )
    named_items = ", ".join(links.entry("items", item.id, item.title) for item in items)
    yield from [f"Items: {named_items}", "{ .source }", ""]


def likeliest(book: Book, items: list[Item]) -> list[tuple[str, Check]]:
    """The causes most worth looking for before pressing such items, each with the quickest check that finds it.

    A cause counts by how often it turns up in these jobs and how much of it would spoil a piece."""
    worth: dict[str, float] = {}
    for item in items:
        net = book.net(item.facts)
        for node in net.defects.values():
            for index, strength in node.links.items():
                worth[net.causes[index]] = worth.get(net.causes[index], 0.0) + net.priors[index] * strength[0]
    found = []
    for cause in sorted(worth, key=lambda c: (-round(worth[c], 9), c)):
        if check := _quickest(book, cause, items):
            found.append((cause, check))
    return found[:CAUSES_SHOWN]


def _quickest(book: Book, cause: str, items: list[Item]) -> Check | None:
    """The quickest look or measurement that finds a cause in at least half of its cases and spends no blank."""
    fitting = [
        check
        for check, _, shows in book.checks_by_cause.get(cause, [])
        if shows.value >= 0.5
        and check.kind in ("look", "measure", "ask")
        and not check.spends.blank
        and any(check.condition.may_hold(item.facts) for item in items)
    ]
    return min(fitting, key=lambda check: (check.minutes, check.id), default=None)
