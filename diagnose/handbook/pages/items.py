"""A page for each item, and the list of them."""

from collections.abc import Iterator

from diagnose.foresight.settings import Recipe, SettingLine, barred, recipe
from diagnose.handbook import phrases
from diagnose.handbook.book import Handbook, seen
from diagnose.handbook.leaf import Leaf, section
from diagnose.handbook.links import Links, address
from diagnose.handbook.pages.care_links import care_line
from diagnose.handbook.pages.cases import case_lines
from diagnose.handbook.text import plain
from diagnose.knowledge.cautions import at_a_press
from diagnose.knowledge.model import Item
from diagnose.speech.amounts import degrees_between, seconds_between
from diagnose.speech.preparing import part_title, part_words
from diagnose.speech.saying import say

LIKELY_SHOWN = 6
WORK = ("artwork", "pre-press", "face", "held", "cover", "pad")  # in its order, the peel being last


def leaves(book: Handbook) -> Iterator[Leaf]:
    """The list of items by their family, then one page for each."""
    yield _index(book)
    for item in book.knowledge.items.values():
        yield _page(book, item)


def families(book: Handbook) -> list[str]:
    """The families of items, in the order in which the knowledge names them."""
    return list(dict.fromkeys(item.family for item in book.knowledge.items.values()))


def _index(book: Handbook) -> Leaf:
    links = Links(address("items"))
    lines = [f"{links.to('settings.md', 'Settings of all items in one table')}", ""]
    for family in families(book):
        named = sorted(book.items_of(family), key=lambda i: i.title.casefold())
        entries = [f"- {links.entry('items', item.id, item.title)}" for item in named]
        lines += section(plain(book.family(family)), entries)
    return Leaf(path=links.start, title="Items", lines=tuple(lines), boost=0)


def _page(book: Handbook, item: Item) -> Leaf:
    links = Links(address("items", item.id))
    care = care_line(book, links, item)
    lines = [
        *phrases.crumb(links, "items", "Items"),
        *phrases.own(item),
        *phrases.cautions(book, links, at_a_press(book.knowledge.cautions, item)),
        *section(say("how-it-is-pressed"), _settings(book, item), "settings"),
        *section(say("what-is-known-of-it"), _facts(book, item), "facts"),
        *section(say("what-goes-wrong-most"), _likely(book, links, item), "likely", found=False),
        *section(say("worked-cases"), _cases(book, links, item), "cases", found=False),
        *section("Care", [f"- {care}"] if care else [], "care", found=False),
        *section(
            say("also-called-title"), [f"{plain('; '.join(item.said))}.", "{ .names }"] if item.said else [], "names"
        ),
        *phrases.foot(book, links, item),
    ]
    return Leaf(path=links.start, title=item.title, lines=tuple(lines), boost=2)


def _settings(book: Handbook, item: Item) -> Iterator[str]:
    for against in barred(book.knowledge, item.facts):
        yield from [f"**{plain(say('not-pressed', why=against.why, do=against.do))}**", ""]
    found = recipe(item, book.knowledge)
    if found is not None:
        settings = found.settings
        yield f"- Temperature: **{degrees_between(settings.temperature, book.shop.temperature)}**"
        yield f"- Dwell: **{say('time-by-heat', time=seconds_between(settings.dwell))}**"
        yield f"- Pressure: **{plain(settings.pressure)}**"
        yield from (_part(line) for part in WORK if (line := found.line(part)))
        yield f"- Peel: **{plain(settings.peel)}**, after {settings.settle:g} s{_peel(found)}"
        yield ""
        if settings.note:
            yield from [plain(settings.note), ""]
        yield say("item-makers-instructions-first")


def _peel(found: Recipe) -> str:
    line = found.line("peel")
    return f". {plain(line.text)} {plain(line.why)}" if line else ""


def _part(line: SettingLine) -> str:
    """What is done about one part of the work, and why."""
    why = f" {plain(line.why)}" if line.why else ""
    return f"- {part_title(line.part)}: **{plain(part_words(line))}**{why}"


def _facts(book: Handbook, item: Item) -> list[str]:
    return [f"- {phrases.fact_words(book, fact, value)}" for fact, value in item.job.items()]


def _likely(book: Handbook, links: Links, item: Item) -> Iterator[str]:
    net = book.net(item.job)
    often = sorted(((seen(net, defect), defect) for defect in net.defects), key=lambda p: (-round(p[0], 9), p[1]))
    for _, defect in often[:LIKELY_SHOWN]:
        yield f"- {links.entry('defects', defect, book.title('defects', defect))}"
    yield from ["", links.to("before.md", say("before-you-press"))]


def _cases(book: Handbook, links: Links, item: Item) -> list[str]:
    return [line for _, _, case in book.cases_by_item.get(item.id, []) for line in case_lines(book, links, case)]
