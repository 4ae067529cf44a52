"""A page for each check, and the list of them."""

from collections.abc import Iterator

from diagnose.handbook import phrases
from diagnose.handbook.book import Handbook
from diagnose.handbook.leaf import Leaf, section
from diagnose.handbook.links import Links, address
from diagnose.handbook.text import listed, plain
from diagnose.knowledge.model import Check
from diagnose.speech.saying import say

KINDS = {"look": "A look", "ask": "A question", "measure": "A measurement", "try": say("a-small-trial")}
HEADINGS = {"look": "Look", "ask": "Ask", "measure": "Measure", "try": say("try-out")}


def leaves(book: Handbook) -> Iterator[Leaf]:
    """The list of checks by their kind, then one page for each."""
    yield _index(book)
    for check in book.knowledge.checks.values():
        yield _page(book, check)


def _index(book: Handbook) -> Leaf:
    links = Links(address("checks"))
    lines = []
    for kind, heading in HEADINGS.items():
        named = sorted((c for c in book.knowledge.checks.values() if c.kind == kind), key=lambda c: c.title.casefold())
        entries = [f"- {phrases.named(links, c)} ({phrases.price(book, c)})" for c in named]
        lines += section(heading, entries)
    return Leaf(path=links.start, title="Checks", lines=tuple(lines), boost=0)


def _page(book: Handbook, check: Check) -> Leaf:
    links = Links(address("checks", check.id))
    needs = say("you-need", needs=plain(listed(list(check.needs)))) if check.needs else ""
    lines = [
        *phrases.crumb(links, "checks", "Checks"),
        *phrases.own(check),
        plain(check.asks),
        "{ .lead }",
        "",
        f"{KINDS.get(check.kind, plain(check.kind))} · {phrases.price(book, check)}",
        "",
        needs,
        "",
        phrases.only_where(book, check.condition),
        "",
        *phrases.before_step(book, links, check),
        *section("How", _how(check), "how"),
        *section(say("what-it-says"), _outcomes(book, links, check), "outcomes"),
        *section(say("by-a-figure"), _by_figure(book, links, check), "figure", found=False),
        *section(say("used-for"), _defects(book, links, check), "used-for", found=False),
        *phrases.foot(book, links, check),
    ]
    return Leaf(path=links.start, title=book.title("checks", check.id), lines=tuple(lines))


def _how(check: Check) -> list[str]:
    return [f"{number}. {plain(step)}" for number, step in enumerate(check.how, 1)]


def _outcomes(book: Handbook, links: Links, check: Check) -> Iterator[str]:
    for outcome in check.outcomes:
        causes = sorted(outcome.shows.items(), key=lambda pair: (-pair[1].value, pair[0]))
        said = [
            f"    - {links.entry('causes', cause, book.title('causes', cause))}: {phrases.chance(book, shows.value)}"
            for cause, shows in causes
        ]
        if not causes and outcome is check.outcomes[0]:
            said = ["    - The quiet answer: it speaks against the causes below."]
        yield from [f"- **{plain(outcome.looks)}**", "", *said, ""]


def _by_figure(book: Handbook, links: Links, check: Check) -> Iterator[str]:
    """The measures that take the place of an answer by eye."""
    for measure in book.knowledge.readings.values():
        if check.id in measure.settles:
            told = links.to(f"figures.md#{measure.id}", measure.title)
            yield f"- The dialogue takes the figure itself: {told}"


def _defects(book: Handbook, links: Links, check: Check) -> Iterator[str]:
    causes = {cause for outcome in check.outcomes for cause in outcome.shows}
    named = {defect.id: defect for cause in causes for defect, _ in book.rules_by_cause.get(cause, [])}
    if named:
        ordered = sorted(named.values(), key=lambda d: d.title.casefold())
        yield f"{', '.join(links.entry('defects', d.id, d.title) for d in ordered)}."
