"""Before you press: for each family of items, what is most worth a look before the first piece."""

from collections.abc import Iterator

from diagnose.handbook import phrases
from diagnose.handbook.book import Handbook
from diagnose.handbook.leaf import Leaf, item, numbered
from diagnose.handbook.links import Links
from diagnose.handbook.pages.items import families
from diagnose.handbook.text import plain
from diagnose.knowledge.cautions import at_a_press
from diagnose.knowledge.conditions import ALWAYS
from diagnose.knowledge.model import SHIPPED, Fix, Item
from diagnose.knowledge.preparing import Statement
from diagnose.knowledge.trial import on_trial
from diagnose.speech.saying import say

CAUSES_SHOWN = 8
SETTLING = 5.0  # minutes that any fix takes beside its own
SPOILS_SHOWN = 3
FIRST = say("before-read-the-instructions")
LAST = say("press-one-test-piece")


def leaves(book: Handbook) -> Iterator[Leaf]:
    """The one page."""
    links = Links("before.md")
    every_time = [one for one in book.knowledge.ready.values() if one.condition == ALWAYS]
    lines = [
        say("before-the-press-lead"),
        "{ .lead }",
        "",
        *phrases.cautions(book, links, at_a_press(book.knowledge.cautions)),
        "## Every time { #every-time }",
        "",
        FIRST,
        "",
        *(line for one in every_time for line in _statement(book, links, one)),
        LAST,
        "",
        f"{links.to('settings.md', 'Settings by item')}",
        "",
        say("before-the-press-command"),
        "",
    ]
    for family in families(book):
        lines += [
            f"## {plain(book.family(family))} {{ #{_anchor(family)} }}",
            "",
            *_family(book, links, book.items_of(family)),
        ]
    lines += [say("before-the-press-basis"), "{ .source }"]
    yield Leaf(path=links.start, title=say("before-you-press"), lines=tuple(lines), boost=1.5)


def _statement(book: Handbook, links: Links, one: Statement) -> list[str]:
    """A statement, how putting it right can hurt, what to do where it is not so, and why."""
    whose = "" if one.origin == SHIPPED else f" *From {plain(one.origin)}.*"
    mind = phrases.short_cautions(book, links, one.cautions)
    return item(
        f"**{plain(one.holds)}**{whose}",
        mind and f'<span class="mind">{mind}</span>',
        say("if-not", do=plain(one.do), why=plain(one.why)),
    )


def _anchor(family: str) -> str:
    return "".join(sign if sign.isalnum() else "-" for sign in family.lower())


def _family(book: Handbook, links: Links, items: list[Item]) -> Iterator[str]:
    for one in book.knowledge.ready.values():
        if one.condition != ALWAYS and any(one.condition.may_hold(each.job) for each in items):
            yield from _statement(book, links, one)
    yield from ["**What spoils them most**", ""]
    for number, (cause, fix) in enumerate(likeliest(book, items), 1):
        spoils = sorted(book.rules_by_cause[cause], key=lambda r: (-r[1].brings.value, r[0].id))
        shown = [*dict.fromkeys(links.entry("defects", d.id, d.title) for d, _ in spoils)][:SPOILS_SHOWN]
        mind = phrases.short_cautions(book, links, fix.cautions)
        yield from numbered(
            number,
            f"**{phrases.named(links, fix)}** ({phrases.price(book, fix)})",
            mind and f'<span class="mind">{mind}</span>',
            say(
                "guards-against-else",
                entry=links.entry("causes", cause, book.title("causes", cause)),
                shown=", ".join(shown),
            ),
        )
    named_items = ", ".join(links.entry("items", each.id, each.title) for each in items)
    yield from [say("items", named_items=named_items), "{ .source }", ""]


def likeliest(book: Handbook, items: list[Item]) -> list[tuple[str, Fix]]:
    """The causes most worth guarding against before pressing such items, each with what is best done about it; what
    guards against several stands once.

    A cause counts by how often it turns up in these jobs and how much of it would spoil a piece."""
    worth: dict[str, float] = {}
    for each in items:
        net = book.net(each.job)
        for node in net.defects.values():
            for index, strength in node.links.items():
                worth[net.causes[index]] = worth.get(net.causes[index], 0.0) + net.priors[index] * strength[0]
    found: dict[str, tuple[str, Fix]] = {}
    for cause in sorted(worth, key=lambda c: (-round(worth[c], 9), c)):
        if fix := _best(book, cause, items):
            found.setdefault(fix.id, (cause, fix))
    return list(found.values())[:CAUSES_SHOWN]


def _best(book: Handbook, cause: str, items: list[Item]) -> Fix | None:
    """What cures a cause most surely for the time it takes, among what goes with such items and spoils none: what
    is on trial only where nothing else does."""
    fitting = [
        (not on_trial(fix), cures.value / (book.shop.rates.worth(fix) + SETTLING), fix)
        for fix, cures in book.fixes_by_cause.get(cause, [])
        if not fix.spends.blank and any(fix.condition.may_hold(each.job) for each in items)
    ]
    return max(fitting, key=lambda one: (one[0], round(one[1], 9), one[2].id), default=(False, 0.0, None))[2]
