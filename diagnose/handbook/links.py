"""Where everything stands in the handbook, and relative links from one page to another."""

from dataclasses import dataclass
from functools import cache
from posixpath import dirname, relpath

from diagnose.handbook.text import markup, plain, shown

LISTS = {  # one page each, with anchors
    "dangers": "dangers.md",
    "cautions": "cautions.md",
    "glossary": "glossary.md",
    "sources": "sources.md",
}


def address(kind: str, entry: str = "index") -> str:
    """The Markdown page of an entry, or of the list of its kind; with ``#anchor`` where entries share a page."""
    if kind in LISTS:
        return LISTS[kind] if entry == "index" else f"{LISTS[kind]}#{entry}"
    return f"{kind}/{entry}.md"


def pair_address(one: str, other: str) -> str:
    """The page that tells two look-alike defects apart."""
    first, second = sorted((one, other))
    return f"apart/{first}-or-{second}.md"


def picture_address(defect: str) -> str:
    return f"pictures/{defect}.svg"


def built(address: str) -> str:
    """The built page that a Markdown page becomes."""
    page, mark, anchor = address.partition("#")
    return f"{page.removesuffix('.md')}.html{mark}{anchor}" if page.endswith(".md") else address


@cache
def _way(folder: str, page: str) -> str:
    return relpath(page, folder)


@dataclass(frozen=True, slots=True)
class Links:
    """Links from the page ``start`` (a Markdown page, by its path)."""

    start: str

    def path(self, target: str) -> str:
        """The way to a page or file from here."""
        page, mark, anchor = target.partition("#")
        return f"{_way(dirname(self.start) or '.', page)}{mark}{anchor}"

    def to(self, target: str, text: str) -> str:
        """A Markdown link; ``text`` is shown as it is written."""
        return f"[{plain(text)}]({self.path(target)})"

    def entry(self, kind: str, entry: str, text: str) -> str:
        """A Markdown link to an entry's page or anchor."""
        return self.to(address(kind, entry), text)

    def html(self, target: str, text: str) -> str:
        """The same as HTML, for where Markdown is not looked at."""
        return f'<a href="{markup(self.path(built(target)))}">{shown(text)}</a>'
