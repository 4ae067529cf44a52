"""Before you press: for each family of items, what is most worth a look before the first piece."""

from collections.abc import Iterator

from diagnose.handbook import phrases
from diagnose.handbook.book import Book
from diagnose.handbook.leaf import Leaf, numbered
from diagnose.handbook.links import Links
from diagnose.handbook.pages.items import families
from diagnose.handbook.text import plain
from diagnose.knowledge.model import Fix, Item

CAUSES_SHOWN = 8
SETTLING = 5.0  # minutes that any fix takes beside its own
SPOILS_SHOWN = 3
ALWAYS = (
    "Read the blank maker's instructions and the job's own card.",
    "See that the press has stood at its heat for ten minutes, and that its display and the recipe use one unit.",
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
        lines += [
            f"## {plain(book.family(family))} {{ #{_anchor(family)} }}",
            "",
            *_family(book, links, book.items_of(family)),
        ]
    lines += ["Basis of this page: common practice, and the rules it is drawn from.", "{ .source }"]
    yield Leaf(path=links.start, title="Before you press", lines=tuple(lines), boost=1.5)


def _anchor(family: str) -> str:
    return "".join(sign if sign.isalnum() else "-" for sign in family.lower())


def _family(book: Book, links: Links, items: list[Item]) -> Iterator[str]:
    for number, (cause, fix) in enumerate(likeliest(book, items), 1):
        spoils = sorted(book.rules_by_cause[cause], key=lambda r: (-r[1].brings.value, r[0].id))
        shown = [*dict.fromkeys(links.entry("defects", d.id, d.title) for d, _ in spoils)][:SPOILS_SHOWN]
        mind = phrases.short_cautions(book, links, fix.cautions)
        yield from numbered(
            number,
            f"**{links.entry('fixes', fix.id, fix.title)}** ({phrases.price(book, fix)})",
            mind and f'<span class="mind">{mind}</span>',
            f"Guards against: {links.entry('causes', cause, book.title('causes', cause))}. Else: {', '.join(shown)}.",
        )
    named_items = ", ".join(links.entry("items", item.id, item.title) for item in items)
    yield from [f"Items: {named_items}", "{ .source }", ""]


def likeliest(book: Book, items: list[Item]) -> list[tuple[str, Fix]]:
    """The causes most worth guarding against before pressing such items, each with what is best done about it; what
    guards against several stands once.

    A cause counts by how often it turns up in these jobs and how much of it would spoil a piece."""
    worth: dict[str, float] = {}
    for item in items:
        net = book.net(item.facts)
        for node in net.defects.values():
            for index, strength in node.links.items():
                worth[net.causes[index]] = worth.get(net.causes[index], 0.0) + net.priors[index] * strength[0]
    found: dict[str, tuple[str, Fix]] = {}
    for cause in sorted(worth, key=lambda c: (-round(worth[c], 9), c)):
        if fix := _best(book, cause, items):
            found.setdefault(fix.id, (cause, fix))
    return list(found.values())[:CAUSES_SHOWN]


def _best(book: Book, cause: str, items: list[Item]) -> Fix | None:
    """What cures a cause most surely for the time it takes, among what goes with such items and spoils none."""
    fitting = [
        (cures.value / (fix.minutes + SETTLING), fix)
        for fix, cures in book.fixes_by_cause.get(cause, [])
        if not fix.spends.blank and any(fix.condition.may_hold(item.facts) for item in items)
    ]
    return max(fitting, key=lambda pair: (round(pair[0], 9), pair[1].id), default=(0.0, None))[1]
