"""A page for each pair of look-alike defects, side by side, and the list of pairs."""

from collections.abc import Iterator

from diagnose.handbook import phrases
from diagnose.handbook.book import Handbook
from diagnose.handbook.leaf import Leaf, section
from diagnose.handbook.links import Links, pair_address
from diagnose.handbook.pictures_in import figure
from diagnose.handbook.text import plain
from diagnose.knowledge.model import Check
from diagnose.knowledge.trial import on_trial
from diagnose.speech.saying import say

CHECKS_SHOWN = 5
CAUSES_SHOWN = 4


def leaves(book: Handbook) -> Iterator[Leaf]:
    """The list of pairs, then a page for each."""
    yield _index(book)
    for one, other in book.pairs:
        yield _page(book, one, other)


def _index(book: Handbook) -> Leaf:
    links = Links("apart/index.md")
    lines = []
    for defect in sorted(book.pairs_by_defect, key=lambda d: book.title("defects", d).casefold()):
        others = sorted(book.pairs_by_defect[defect], key=lambda pair: book.title("defects", pair[0]).casefold())
        entries = [
            f"- {links.to(pair_address(defect, other), 'or ' + _small(book.title('defects', other)) + '?')}"
            for other, _ in others
        ]
        lines += section(plain(book.title("defects", defect)), entries, defect)
    return Leaf(path=links.start, title=say("told-apart"), lines=tuple(lines), boost=0)


def _small(title: str) -> str:
    return title[:1].lower() + title[1:]


def _page(book: Handbook, one: str, other: str) -> Leaf:
    links = Links(pair_address(one, other))
    first, second = book.title("defects", one), book.title("defects", other)
    tells = [plain(tell) for _, tell in book.pairs[one, other]]
    lines = [
        f"{links.to('apart/index.md', 'Told apart')}",
        "{ .crumb }",
        "",
        *(line for tell in tells for line in (tell, "{ .lead }", "")),
        '<div class="side-by-side" markdown="1">',
        "",
        *_half(book, links, one),
        *_half(book, links, other),
        "</div>",
        "",
        *section(say("a-check-that-tells-them-apart"), _checks(book, links, one, other), "checks", found=False),
    ]
    return Leaf(path=links.start, title=f"{first} or {_small(second)}?", lines=tuple(lines), boost=0.7)


def _half(book: Handbook, links: Links, defect: str) -> list[str]:
    known = book.knowledge.defects[defect]
    causes = [
        f"- {links.entry('causes', cause, book.title('causes', cause))}"
        for cause, _ in book.all_behind[defect][:CAUSES_SHOWN]
    ]
    return [
        '<div markdown="1">',
        "",
        f"## {plain(known.title)} {{ #{defect} }}",
        "",
        *figure(links, defect),
        plain(known.looks),
        "",
        say("most-often-behind-it-title"),
        "",
        *causes,
        "",
        f"{links.entry('defects', defect, 'All about ' + _small(known.title))}",
        "",
        "</div>",
        "",
    ]


def _checks(book: Handbook, links: Links, one: str, other: str) -> Iterator[str]:
    for check in telling(book, one, other)[:CHECKS_SHOWN]:
        mind = phrases.short_cautions(book, links, check.cautions)
        title = f"- **{phrases.named(links, check)}** ({phrases.price(book, check)}). {plain(check.asks)}"
        yield title
        if mind:
            yield from ["", f'    <span class="mind">{mind}</span>', ""]


def telling(book: Handbook, one: str, other: str) -> list[Check]:
    """The checks whose answer would differ most between the two defects, for the time they take."""
    weight: dict[tuple[str, str], float] = {}
    for defect, sign in ((one, 1.0), (other, -1.0)):
        for cause, likely in book.all_behind[defect]:
            for check, outcome, shows in book.checks_by_cause.get(cause, []):
                key = (check.id, outcome.id)
                weight[key] = weight.get(key, 0.0) + sign * likely * shows.value
    apart: dict[str, float] = {}
    for (check_id, _), value in weight.items():
        apart[check_id] = max(apart.get(check_id, 0.0), abs(value))
    known, rates = book.knowledge.checks, book.shop.rates
    ranked = sorted(apart, key=lambda c: (-round(apart[c] / (rates.worth(known[c]) + 2.0), 9), c))
    return sorted([known[c] for c in ranked], key=on_trial)
