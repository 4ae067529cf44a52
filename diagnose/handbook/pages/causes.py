"""A page for each cause, and the list of them."""

from collections.abc import Iterator

from diagnose.handbook import phrases
from diagnose.handbook.book import Handbook
from diagnose.handbook.leaf import Leaf, item, section
from diagnose.handbook.links import Links, address
from diagnose.handbook.text import plain
from diagnose.knowledge.model import Cause
from diagnose.knowledge.trial import on_trial
from diagnose.speech.saying import say

FAMILIES = {
    "heat": "Heat",
    "time": "Time",
    "pressure": "Pressure",
    "moisture": "Moisture",
    "holding": say("holding-and-laying"),
    "item": say("the-item"),
    "paper": "Paper",
    "ink": say("ink-and-printer"),
    "artwork": "Artwork",
    "after": say("after-the-press"),
    "upkeep": "Upkeep",
}


def leaves(book: Handbook) -> Iterator[Leaf]:
    """The list of causes by their family, then one page for each."""
    yield _index(book)
    for cause in book.knowledge.causes.values():
        yield _page(book, cause)


def _index(book: Handbook) -> Leaf:
    links = Links(address("causes"))
    causes = book.knowledge.causes.values()
    families = dict.fromkeys([*FAMILIES, *sorted({cause.family for cause in causes})])
    lines = []
    for family in families:
        named = sorted((c for c in causes if c.family == family), key=lambda c: c.title.casefold())
        entries = [f"- {links.entry('causes', cause.id, book.title('causes', cause.id))}" for cause in named]
        lines += section(FAMILIES.get(family, plain(family.capitalize())), entries)
    return Leaf(path=links.start, title="Causes", lines=tuple(lines), boost=0)


def _page(book: Handbook, cause: Cause) -> Leaf:
    links = Links(address("causes", cause.id))
    lines = [
        *phrases.crumb(links, "causes", "Causes"),
        *phrases.own(cause),
        *([phrases.ON_TRIAL, ""] if cause.id in book.on_trial else []),
        plain(cause.about),
        "{ .lead }",
        "",
        say("turns-up-so-often", chance=phrases.chance(book, cause.turns_up.value)),
        "",
        *_shapes(book, cause),
        *section(say("what-it-brings-on"), _brings(book, links, cause), "brings-on", found=False),
        *section(say("how-to-find-it"), _checks(book, links, cause), "checks", found=False),
        *section(say("what-puts-it-right"), _fixes(book, links, cause), "fixes", found=False),
        *phrases.foot(book, links, cause),
    ]
    return Leaf(path=links.start, title=cause.title, lines=tuple(lines))


def _shapes(book: Handbook, cause: Cause) -> list[str]:
    lines = [
        f"- Where {phrases.condition(book, shape.condition)}: {phrases.chance(book, shape.turns_up.value)}"
        for shape in cause.shapes
    ]
    return [*lines, ""] if lines else []


def _brings(book: Handbook, links: Links, cause: Cause) -> Iterator[str]:
    rules = sorted(book.rules_by_cause.get(cause.id, []), key=lambda r: (-r[1].brings.value, r[0].id))
    for defect, rule in rules:
        only = phrases.only_where(book, rule.condition)
        trial = f"{phrases.ON_TRIAL} " if on_trial(rule) else ""
        yield from item(
            f"**{links.entry('defects', defect.id, defect.title)}** "
            f'<span class="chance">{phrases.chance(book, rule.brings.value)}</span>',
            plain(rule.why),
            f'<span class="source">{only}{" " if only else ""}{trial}Basis: {phrases.basis(book, links, rule.basis)} · '
            f"{phrases.from_where(rule.origin, rule.place)}</span>",
        )


def _checks(book: Handbook, links: Links, cause: Cause) -> Iterator[str]:
    rates = book.shop.rates
    found = sorted(book.checks_by_cause.get(cause.id, []), key=lambda c: (-c[2].value, rates.worth(c[0]), c[0].id))
    found.sort(key=lambda c: on_trial(c[0]))
    for check, outcome, shows in found:
        mind = phrases.short_cautions(book, links, check.cautions)
        yield from item(
            f"**{phrases.named(links, check)}** ({phrases.price(book, check)})",
            mind and f'<span class="mind">{mind}</span>',
            f"“{plain(outcome.looks)}”: {phrases.chance(book, shows.value)}",
        )


def _fixes(book: Handbook, links: Links, cause: Cause) -> Iterator[str]:
    for fix, cures in book.fixes_by_cause.get(cause.id, []):
        mind = phrases.short_cautions(book, links, fix.cautions)
        yield from item(
            f"**{phrases.named(links, fix)}** ({phrases.price(book, fix)})",
            mind and f'<span class="mind">{mind}</span>',
            say("cures-so-surely", chance=phrases.chance(book, cures.value)),
            phrases.only_where(book, fix.condition),
        )
