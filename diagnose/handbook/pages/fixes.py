"""A page for each fix, and the list of them."""

from collections.abc import Iterator

from diagnose.handbook import phrases
from diagnose.handbook.book import Handbook
from diagnose.handbook.leaf import Leaf, section
from diagnose.handbook.links import Links, address
from diagnose.handbook.pages.causes import FAMILIES
from diagnose.handbook.text import plain
from diagnose.knowledge.model import Fix
from diagnose.speech.saying import say


def leaves(book: Handbook) -> Iterator[Leaf]:
    """The list of fixes by what they act on, then one page for each."""
    yield _index(book)
    for fix in book.knowledge.fixes.values():
        yield _page(book, fix)


def _index(book: Handbook) -> Leaf:
    links = Links(address("fixes"))
    causes = book.knowledge.causes
    grouped: dict[str, list[Fix]] = {}
    for fix in sorted(book.knowledge.fixes.values(), key=lambda f: f.title.casefold()):
        aimed = max(fix.cures, key=lambda cause: (fix.cures[cause].value, cause), default="")
        grouped.setdefault(causes[aimed].family if aimed in causes else "", []).append(fix)
    lines = []
    for family in dict.fromkeys([*FAMILIES, *sorted(grouped)]):
        entries = [f"- {phrases.named(links, fix)} ({phrases.price(book, fix)})" for fix in grouped.get(family, [])]
        lines += section(FAMILIES.get(family, plain(family.capitalize())), entries)
    return Leaf(path=links.start, title="Fixes", lines=tuple(lines), boost=0)


def _page(book: Handbook, fix: Fix) -> Leaf:
    links = Links(address("fixes", fix.id))
    lines = [
        *phrases.crumb(links, "fixes", "Fixes"),
        *phrases.own(fix),
        say("and-one-test-press", price=phrases.price(book, fix)),
        "",
        phrases.only_where(book, fix.condition),
        "",
        *phrases.before_step(book, links, fix),
        *section("Steps", _steps(fix), "steps"),
        *section(say("it-puts-right"), _cures(book, links, fix), "puts-right", found=False),
        *section(say("used-for"), _defects(book, links, fix), "used-for", found=False),
        *phrases.foot(book, links, fix),
    ]
    return Leaf(path=links.start, title=book.title("fixes", fix.id), lines=tuple(lines))


def _steps(fix: Fix) -> list[str]:
    steps = (*fix.steps, say("press-one-test-piece-and-look"))
    return [f"{number}. {plain(step)}" for number, step in enumerate(steps, 1)]


def _cures(book: Handbook, links: Links, fix: Fix) -> Iterator[str]:
    for cause, chance in sorted(fix.cures.items(), key=lambda pair: (-pair[1].value, pair[0])):
        yield f"- {links.entry('causes', cause, book.title('causes', cause))}: {phrases.chance(book, chance.value)}"


def _defects(book: Handbook, links: Links, fix: Fix) -> Iterator[str]:
    named = {defect.id: defect for cause in fix.cures for defect, _ in book.rules_by_cause.get(cause, [])}
    if named:
        ordered = sorted(named.values(), key=lambda d: d.title.casefold())
        yield f"{', '.join(links.entry('defects', d.id, d.title) for d in ordered)}."
