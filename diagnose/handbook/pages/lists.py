"""The pages on which many entries stand with anchors: dangers, cautions, glossary, sources; and what changed."""

import re
from collections.abc import Iterable, Iterator

from diagnose.handbook import phrases
from diagnose.handbook.book import Handbook
from diagnose.handbook.leaf import Leaf, fold
from diagnose.handbook.links import LISTS, Links
from diagnose.handbook.text import markup, plain
from diagnose.knowledge.model import Entry
from diagnose.speech.saying import say
from diagnose.speech.titles import titled

NAMES = {
    "defects": "Defects",
    "causes": "Causes",
    "checks": "Checks",
    "fixes": "Fixes",
    "items": "Items",
    "cautions": "Cautions",
    "dangers": "Dangers",
    "glossary": "Glossary",
}


def leaves(book: Handbook) -> Iterator[Leaf]:
    """Dangers, cautions, glossary, sources and changes."""
    yield _dangers(book)
    yield _cautions(book)
    yield _glossary(book)
    yield _sources(book)
    yield _changes(book)


def _dangers(book: Handbook) -> Leaf:
    links = Links(LISTS["dangers"])
    lines = [say("dangers-lead"), "{ .lead }", ""]
    for danger in book.knowledge.dangers.values():
        lines += [
            *_heading(danger),
            *(f"{number}. {plain(step)}" for number, step in enumerate(danger.steps, 1)),
            "",
            f"**{say('danger-call')}** {plain(danger.call)}",
            "",
            *(f"- {plain(never)}" for never in danger.never),
            "",
            *phrases.foot(book, links, danger),
        ]
    return Leaf(path=links.start, title=say("if-somebody-is-hurt"), lines=tuple(lines), boost=3)


def _cautions(book: Handbook) -> Leaf:
    links = Links(LISTS["cautions"])
    lines = [
        say("cautions-lead"),
        "{ .lead }",
        "",
    ]
    for caution in book.knowledge.cautions.values():
        lines += [
            *_heading(caution),
            plain(caution.text),
            "",
            *_needed(book, links, caution.id),
            *phrases.foot(book, links, caution),
        ]
    return Leaf(path=links.start, title="Cautions", lines=tuple(lines))


def _needed(book: Handbook, links: Links, caution: str) -> list[str]:
    kinds = ("checks", "fixes", "items")
    named = {kind: [e for e in getattr(book.knowledge, kind).values() if caution in e.cautions] for kind in kinds}
    salvaged = {d for each in book.knowledge.salvage.values() if caution in each.cautions for d in each.defects}
    named["defects"] = [defect for defect in book.knowledge.defects.values() if defect.id in salvaged]
    lines = [f"- {NAMES[kind]}: {_linked(links, kind, entries)}" for kind, entries in named.items() if entries]
    return fold(say("where-it-is-given"), lines) if lines else []


def _linked(links: Links, kind: str, entries: Iterable[Entry]) -> str:
    return ", ".join(links.entry(kind, one.id, titled(one)) for one in entries)


def _heading(entry: Entry, title: str = "") -> list[str]:
    return [f"## {plain(title or entry.title)} {{ #{entry.id} }}", ""]


def _glossary(book: Handbook) -> Leaf:
    links = Links(LISTS["glossary"])
    lines: list[str] = []
    for term in sorted(book.knowledge.glossary.values(), key=lambda t: t.title.casefold()):
        see = [
            links.entry("glossary", one, book.title("glossary", one))
            for one in term.see
            if one in book.knowledge.glossary
        ]
        lines += [
            *_heading(term),
            plain(term.means),
            "",
            *([say("see", see=", ".join(see)), ""] if see else []),
            *phrases.foot(book, links, term),
        ]
    return Leaf(path=links.start, title="Glossary", lines=tuple(lines))


def _sources(book: Handbook) -> Leaf:
    links = Links(LISTS["sources"])
    lines = [
        say("sources-lead"),
        "{ .lead }",
        "",
    ]
    for source in sorted(book.knowledge.sources.values(), key=lambda s: (s.authors.casefold(), s.year, s.id)):
        lines += [
            *_heading(source, f"{source.authors[:1].upper()}{source.authors[1:]}, {source.year}"),
            f"*{plain(source.title)}* ({plain(source.kind)}; read: {plain(source.read)})",
            "",
            plain(source.says),
            "",
            *_rests(book, links, source.id),
            *phrases.foot(book, links, source),
        ]
    lines += ["## How chances are worded { #chances }", "", plain(book.knowledge.scale_note), "", *_scale(book), ""]
    return Leaf(path=links.start, title="Sources", lines=tuple(lines), boost=0.7)


def _scale(book: Handbook) -> list[str]:
    words = book.knowledge.scale.values()
    return [f"- {plain(one.word)}: {one.value * 100:g} %" for one in words]


def _rests(book: Handbook, links: Links, source: str) -> list[str]:
    known = book.knowledge
    lines = []
    rules = [
        f"{links.entry('causes', rule.cause, book.title('causes', rule.cause))} → "
        f"{links.entry('defects', defect.id, defect.title)}"
        for defect in known.defects.values()
        for rule in defect.rules
        if source in rule.basis
    ]
    if rules:
        lines.append(f"- Rules: {'; '.join(rules)}")
    for kind, name in NAMES.items():
        entries = [entry for entry in getattr(known, kind).values() if source in entry.basis]
        if entries:
            lines.append(f"- {name}: {_linked(links, kind, entries)}")
    words = [plain(one.word) for one in known.scale.values() if one.source == source]
    if words:
        lines.append(f"- [Words for chances](#chances): {', '.join(words)}")
    return fold(markup(say("what-rests-on-it")), lines) if lines else []


def _changes(book: Handbook) -> Leaf:
    """The changelog without its title; it is ours, and Markdown already."""
    body = re.sub(r"\A\s*# .*\n", "", book.changes).strip()
    return Leaf(path="changes.md", title=say("what-changed"), lines=(body or say("nothing-yet"),), boost=0.5)
