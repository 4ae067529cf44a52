"""A page for each care note, for the customer first, and the list of them. What to say at the counter stands on
the pages of defects: a customer is not shown a speech."""

from collections.abc import Iterator

from diagnose.handbook import phrases
from diagnose.handbook.book import Handbook
from diagnose.handbook.leaf import Leaf, item, section
from diagnose.handbook.links import Links, address
from diagnose.handbook.text import plain
from diagnose.knowledge.care import FOOTING, by_kind, items_of, message
from diagnose.knowledge.model import CareNote, CareStatement
from diagnose.speech.saying import say


def leaves(book: Handbook) -> Iterator[Leaf]:
    """The list of care notes, then one page for each."""
    yield _index(book)
    for note in book.knowledge.care.values():
        yield _page(book, note)


def _index(book: Handbook) -> Leaf:
    links = Links(address("care"))
    lines = [say("what-the-customer-is-told", label_first=say("makers-label-first")), ""]
    for note in book.knowledge.care.values():
        items = ", ".join(links.entry("items", each.id, each.title) for each in items_of(book.knowledge, note))
        lines += item(f"**{links.entry('care', note.id, note.title)}.** {items}")
    return Leaf(path=links.start, title=say("care-notes"), lines=tuple(lines), boost=0.5)


def _page(book: Handbook, note: CareNote) -> Leaf:
    links = Links(address("care", note.id))
    lines = [
        *phrases.crumb(links, "care", say("care-notes")),
        *phrases.own(note),
        say("makers-label-first"),
        "{ .lead }",
        "",
    ]
    for title, statements in by_kind(note):
        lines += section(title, _statements(book, links, statements))
    lines += [plain(FOOTING), "{ .footing }", ""]
    lines += section(say("for-a-message"), [plain(message(note)), ""])
    lines += section("For", _links(links, "items", [(each.id, each.title) for each in items_of(book.knowledge, note)]))
    defects = [(each, book.title("defects", each)) for each in note.defects]
    lines += section(say("what-it-guards-against"), _links(links, "defects", defects))
    lines += [f"Print cards: <code>presslore care {note.id} --html</code>", "{ .source }", ""]
    lines += phrases.foot(book, links, note)
    return Leaf(path=links.start, title=note.title, lines=tuple(lines))


def _statements(book: Handbook, links: Links, statements: list[CareStatement]) -> Iterator[str]:
    for each in statements:
        said = phrases.basis(book, links, each.basis)
        titles = [book.title("items", item) for item in each.only_for if item in book.knowledge.items]
        whose = f" *{plain(say('care-only-for', items=', '.join(titles)))}*" if titles else ""
        yield from [f"{plain(each.text)}{whose}", "", f'<span class="source">Basis: {said}</span>', ""]


def _links(links: Links, kind: str, entries: list[tuple[str, str]]) -> Iterator[str]:
    return (f"- {links.entry(kind, entry, title)}" for entry, title in entries)
