"""What a figure says: each measure, how it is taken, and how often such figures show with a cause and without it."""

from collections.abc import Iterator
from itertools import pairwise

from diagnose.foresight.likelihood import ratio
from diagnose.handbook import phrases
from diagnose.handbook.book import Handbook
from diagnose.handbook.curves import curves
from diagnose.handbook.leaf import Leaf, section
from diagnose.handbook.links import Links
from diagnose.handbook.text import listed, plain
from diagnose.knowledge.measures import Measure, Speaks, held
from diagnose.speech.readings import NEAR, amount, times
from diagnose.speech.saying import say

PATH = "figures.md"
LEAD = say("figures-lead")


def leaves(book: Handbook) -> Iterator[Leaf]:
    """The one page. It stands in the site's contents, so that it is there whatever a shop has retired."""
    links = Links(PATH)
    lines = [LEAD, "{ .lead }", "", plain(say("figures-speak")), "", plain(say("figures-trust")), ""]
    for measure in book.knowledge.readings.values():
        lines += section(plain(measure.title), _measure(book, links, measure), measure.id)
    yield Leaf(path=PATH, title=say("what-a-figure-says"), lines=tuple(lines))


def _measure(book: Handbook, links: Links, measure: Measure) -> Iterator[str]:
    needs = say("you-need", needs=plain(listed(list(measure.needs)))) if measure.needs else ""
    yield from (*phrases.cautions(book, links, measure.cautions), needs, "")
    yield from (*(f"{number}. {plain(step)}" for number, step in enumerate(measure.how, 1)), "")
    checks = [links.entry("checks", check, book.title("checks", check)) for check in measure.settles]
    if checks:
        yield from (say("it-answers", checks=", ".join(checks)), "")
    yield from (*curves(book, measure), "")
    for cause in measure.speaks:
        yield f"- {links.entry('causes', cause, book.title('causes', cause))}: {_said(book, measure, cause)}"
    yield from ("", say("basis", basis=phrases.basis(book, links, measure.basis)), "{ .source }", "")


def _said(book: Handbook, measure: Measure, cause: str) -> str:
    """How a figure speaks from beyond the outermost mark inwards."""
    parts = []
    for written in _between(measure.speaks[cause]):
        value = held(measure.id, written)
        unit, either = book.shop.temperature, bool(measure.speaks[cause].either)
        what, much = plain(amount(measure.id, value, unit, either=either)), ratio(value, measure, cause)
        if 1 / NEAR < much < NEAR:
            parts.append(f"{what} is as common either way")
        else:
            side = "with it" if much > 1 else "without it"
            parts.append(f"{what} shows {times(max(much, 1 / much))} as often {side}")
    return "; ".join(dict.fromkeys(parts))


def _between(speaks: Speaks) -> Iterator[float]:
    """A figure from beyond the outermost mark, one from between each two, and one from within the innermost."""
    marks = [mark.at for mark in reversed(speaks.marks)]
    steps = [one - two for one, two in pairwise(marks)]
    inward = -abs(marks[-1]) if speaks.out(1.0) > 0 else abs(marks[-1])
    yield marks[0] + (steps[0] if steps else -inward)
    yield from (0.5 * (one + two) for one, two in pairwise(marks))
    yield marks[-1] + inward
