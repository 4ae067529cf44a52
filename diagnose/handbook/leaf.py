"""A page of the handbook, before it becomes a file."""

from collections.abc import Iterable
from dataclasses import dataclass

from diagnose.handbook.text import front_matter, head_title, markup, plain


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaf:
    """``path`` within the site, the title as it was written, the Markdown below it, a line at a time. ``boost``
    is how much a page weighs in the search, 1 being usual; with 0 the search passes it over.
    ``tags`` are names that it weighs more than a title."""

    path: str
    title: str
    lines: tuple[str, ...]
    boost: float = 1
    body_class: str = ""
    hide: tuple[str, ...] = ()
    tags: tuple[str, ...] = ()

    def file(self) -> bytes:
        """The page as a Markdown file."""
        head: dict[str, object] = {"title": head_title(self.title)}
        if self.boost != 1:
            head["search"] = {"boost": self.boost} if self.boost else {"exclude": True}
        if self.tags:
            head["tags"] = [markup(tag) for tag in self.tags]  # the theme shows them as they stand
        if self.hide:
            head["hide"] = list(self.hide)
        text = "\n".join([front_matter(**head), f"# {plain(self.title)}{_classed(self.body_class)}", "", *self.lines])
        return (text.rstrip() + "\n").encode()


def _classed(name: str) -> str:
    return f" {{ .{name} }}" if name else ""


def section(title: str, lines: Iterable[str], anchor: str = "", *, found: bool = True) -> list[str]:
    """A heading of our own words with what stands under it; nothing where nothing stands under it. What repeats
    other pages is not to be ``found`` by the search: it would bury those pages."""
    body = list(lines)
    marks = [f"#{anchor}"] if anchor else []
    marks += [] if found else ["data-search-exclude"]
    mark = f" {{ {' '.join(marks)} }}" if marks else ""
    return [f"## {title}{mark}", "", *body, ""] if body else []


def fold(summary: str, lines: Iterable[str], *, name: str = "fold") -> list[str]:
    """Something folded away until asked for. ``summary`` is HTML, the lines are Markdown. On paper it is unfolded,
    or, with the name ``fold rest``, left out."""
    return [
        f'<details class="{name}" markdown="1">',
        f"<summary>{summary}</summary>",
        "",
        *lines,
        "",
        "</details>",
        "",
    ]


def item(text: str, *below: str) -> list[str]:
    """An entry of a list, with paragraphs that belong to it."""
    return [f"- {text}", *(line for one in below if one for line in ("", f"    {one}")), ""]


def numbered(number: int, text: str, *below: str) -> list[str]:
    """An entry of a numbered list, with paragraphs that belong to it."""
    lead = f"{number}."
    return [f"{lead} {text}", *(line for one in below if one for line in ("", f"    {one}")), ""]
