"""The drawn picture of a defect, where there is one (a shop's own defects have none)."""

from diagnose.handbook.book import Handbook
from diagnose.handbook.links import Links, picture_address
from diagnose.handbook.pictures import alternative, draw, drawn
from diagnose.handbook.text import markup


def picture_files(book: Handbook) -> dict[str, bytes]:
    """Every picture, by its path in the site."""
    named = ((one, book.title("defects", one)) for one in book.knowledge.defects if one in drawn())
    return {picture_address(one): draw(one, title).encode() for one, title in named}


def figure(links: Links, defect: str) -> list[str]:
    """The picture of a defect, with words for who cannot see it; nothing where none is drawn."""
    shown = image(links, defect)
    return [f'<p class="picture">{shown}</p>', ""] if shown else []


def image(links: Links, defect: str, *, decorative: bool = False) -> str:
    """The picture alone, as HTML; "" where none is drawn. ``decorative``: its words stand beside it already."""
    if defect not in drawn():
        return ""
    words = "" if decorative else alternative(defect)
    source = markup(links.path(picture_address(defect)))
    return f'<img src="{source}" alt="{markup(words)}" width="640" height="300" loading="lazy">'
