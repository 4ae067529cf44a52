"""The whole handbook as files, from the knowledge: the same input gives the same bytes."""

from collections.abc import Callable, Iterator, Mapping

from diagnose.casebook.report.report import Report
from diagnose.handbook.book import Handbook
from diagnose.handbook.care import notes
from diagnose.handbook.leaf import Leaf
from diagnose.handbook.page import offline, page
from diagnose.handbook.pages import (
    apart,
    before,
    blends,
    casebook,
    causes,
    checks,
    colour,
    defects,
    figures,
    fixes,
    front,
    heat,
    items,
    lessons,
    lists,
    settings,
)
from diagnose.handbook.pictures_in import picture_files
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.pace import Far, paced, unheard

LEAVES: tuple[Callable[[Handbook], Iterator[Leaf]], ...] = (
    front.leaves,
    lambda book: iter((page.leaf(book),)),
    defects.leaves,
    apart.leaves,
    causes.leaves,
    checks.leaves,
    fixes.leaves,
    items.leaves,
    notes.leaves,
    settings.leaves,
    heat.leaves,
    figures.leaves,
    before.leaves,
    blends.leaves,
    colour.leaves,
    lists.leaves,
    casebook.leaves,
)
FILES: tuple[Callable[[Handbook], Mapping[str, bytes]], ...] = (
    picture_files,
    page.files,
    lambda book: offline.registration(),
)


def site(
    knowledge: Knowledge,
    shop: Shop,
    changes: str,
    docs: Mapping[str, bytes],
    report: Report | None = None,
    far: Far = unheard,
) -> dict[str, bytes]:
    """Every file that mkdocs is given, by path: pages drawn from the knowledge, pictures, and the hand-written
    files ``docs`` with their questions filled in. ``changes`` is the text of the changelog, ``report`` what the
    shop's cases add up to."""
    book = Handbook(knowledge, shop, changes, docs, report)
    drawn = {leaf.path: leaf.file() for make in paced(LEAVES, far) for leaf in make(book)}
    for make_files in FILES:
        drawn.update(make_files(book))
    drawn.update(lessons.written(book, frozenset(drawn)))
    return dict(sorted(drawn.items()))
