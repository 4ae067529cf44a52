"""The hand-written pages. Lessons get their questions, drawn from worked cases; links to what a shop retired go."""

import re
from collections.abc import Iterator, Mapping
from functools import partial
from posixpath import dirname, join, normpath

from diagnose.handbook import phrases
from diagnose.handbook.book import Handbook
from diagnose.handbook.links import Links
from diagnose.handbook.pages.cases import answer, told
from diagnose.handbook.text import plain
from diagnose.knowledge.model import WorkedCase
from diagnose.problems import PressloreError
from diagnose.speech.saying import say

_QUESTIONS = re.compile(r"^<!-- questions: *(.*?) *-->$", re.MULTILINE)
_LINK = re.compile(r"(?<!!)\[([^\]]+)\]\(([^)#\s]+\.md)(#[^)\s]*)?\)")
_NUMBERED = re.compile(r"([a-z0-9-]+)#(\d+)")
_SOURCE = re.compile(r"(?<!`)`([a-z0-9 -]+)`(?!`)")
_TITLE = re.compile(r"^# +(.+)\n", re.MULTILINE)
LESSONS = "lessons/"
COMMAND = "command/"  # dialogues that say again what other pages say: the search would lead here first
UNFOUND = "---\nsearch:\n  exclude: true\n---\n\n"


def titles(docs: Mapping[str, bytes]) -> list[tuple[str, str]]:
    """The lessons in their order: path and title."""
    found = []
    for path in sorted(path for path in docs if path.startswith(LESSONS) and path.endswith(".md")):
        title = _TITLE.search(docs[path].decode())
        found.append((path, title[1] if title else path))
    return found


def written(book: Handbook, others: frozenset[str]) -> Iterator[tuple[str, bytes]]:
    """Every hand-written file, its questions filled in. ``others`` are the pages that are drawn."""
    pages = others | set(book.docs)
    for path, data in book.docs.items():
        if not path.endswith(".md"):
            yield path, data
            continue
        text = _QUESTIONS.sub(partial(_questions, book, path), data.decode())
        text = _LINK.sub(partial(_kept, path, pages), text)
        yield path, ((UNFOUND if path.startswith(COMMAND) else "") + _on_the_way(book, path, text)).encode()


def _on_the_way(book: Handbook, path: str, text: str) -> str:
    """A lesson with the way up to the list of lessons, and on to the next one."""
    order = titles(book.docs)
    at = next((number for number, (lesson, _) in enumerate(order) if lesson == path), None)
    if at is None:
        return text
    links, known = Links(path), {*book.knowledge.sources, "common practice"}
    crumb = f"{links.to(LESSONS + 'index.md', 'Lessons')}\n{{ .crumb }}\n"
    text = _SOURCE.sub(lambda name: phrases.basis(book, links, [name[1]]) if name[1] in known else name[0], text)
    text = _TITLE.sub(lambda title: f"{title[0]}\n{crumb}", text, count=1)
    following = order[at + 1 : at + 2] or [("before.md", say("before-you-press"))]
    return text.rstrip() + "\n{ .source }\n" + f"\nNext: {links.to(*following[0])}\n"


def _kept(path: str, pages: frozenset[str], link: re.Match[str]) -> str:
    return link[0] if normpath(join(dirname(path), link[2])) in pages else link[1]


def _questions(book: Handbook, path: str, placeholder: re.Match[str]) -> str:
    links = Links(path)
    lines: list[str] = []
    number = 0
    for named in filter(None, re.split(r"[,\s]+", placeholder[1])):
        if case := _case(book, path, named):
            number += 1
            lines += [f"**{number}. {plain(case.story)}.**", "", *told(book, links, case)]
            lines += answer(book, links, case, say("what-was-it-and-why"))
    return "\n".join(lines).rstrip()


def _case(book: Handbook, path: str, named: str) -> WorkedCase | None:
    """The worked case that ``ghosting#2`` names; None where a shop has retired its defect."""
    match = _NUMBERED.fullmatch(named)
    if match is None:
        raise PressloreError(
            f"docs/{path}: {named!r} names no worked case - expected a defect and a number, as in ghosting#2"
        )
    defect = book.knowledge.defects.get(match[1])
    if defect is None:
        return None
    number = int(match[2])
    if not 1 <= number <= len(defect.cases):
        raise PressloreError(
            f"docs/{path}: {named!r} names no worked case - {match[1]} has {len(defect.cases)} of them"
        )
    return defect.cases[number - 1]
