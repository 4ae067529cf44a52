"""Reading built pages: their links, their ids, and the text a person sees."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from hashlib import sha256
from html.parser import HTMLParser
from pathlib import Path

LINKING = {"href", "src", "data-md-src", "poster", "action"}


@dataclass
class Read(HTMLParser):
    """``links``: (tag, attribute, target). ``seen``: the text, scripts and styles left out."""

    links: list[tuple[str, str, str]] = field(default_factory=list)
    ids: list[str] = field(default_factory=list)
    tags: list[str] = field(default_factory=list)
    attributes: list[str] = field(default_factory=list)
    unnamed_images: int = 0
    text: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self._silent = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self._silent = tag if tag in ("script", "style") else ""
        for name, value in attrs:
            self.attributes.append(name)
            if name == "id" and value is not None:
                self.ids.append(value)
            if name in LINKING and value is not None:
                self.links.append((tag, name, value))
            if name == "srcset":
                self.links += [(tag, name, part.split()[0]) for part in (value or "").split(",") if part.strip()]
        self.unnamed_images += tag == "img" and "alt" not in dict(attrs)

    def handle_endtag(self, tag: str) -> None:
        self._silent = ""

    def handle_data(self, data: str) -> None:
        if not self._silent:
            self.text.append(data)

    @property
    def seen(self) -> str:
        return " ".join("".join(self.text).split())


@lru_cache(maxsize=2_000)  # several tests go through the whole handbook
def read(html: str) -> Read:
    """What a page holds, to be looked at only."""
    page = Read()
    page.feed(html)
    page.close()
    return page


def pages(site: Path) -> list[str]:
    """Every page of a built site, by path."""
    return sorted(path.relative_to(site).as_posix() for path in site.rglob("*.html"))


def digest(files: Mapping[str, bytes]) -> str:
    """Of the paths and contents of files, in their order."""
    state = sha256()
    for path, content in files.items():
        state.update(f"{path} {len(content)} ".encode() + content)
    return state.hexdigest()
