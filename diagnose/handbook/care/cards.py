"""A page to print: the same care card four times on a sheet, each a quarter of it (A6 on A4)."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import segno

from diagnose.handbook.links import address, built
from diagnose.handbook.text import markup, shown
from diagnose.knowledge.care import FOOTING, by_kind
from diagnose.knowledge.model import CareNote, Item
from diagnose.knowledge.shop import Shop
from diagnose.speech.saying import say

QUIET: Final = 4  # modules of white all round, as the standard of the code asks for


STYLE: Final = Path(__file__).with_name("card.css")
PAPERS: Final = {"a4": ("A4", "210mm", "297mm"), "letter": ("letter", "215.9mm", "279.4mm")}
ON_A_SHEET: Final = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """What stands on a card. ``item`` is the piece it is laid in with (None: any of the note's); no code without
    ``shop.handbook``."""

    note: CareNote
    item: Item | None = None
    shop: Shop

    @property
    def title(self) -> str:
        return self.item.title if self.item else self.note.title


def sheet(card: Card, paper: str = "a4") -> str:
    """The whole HTML page, which needs nothing beside it. ``paper`` is a key of PAPERS."""
    name, width, height = PAPERS[paper]
    size = f"@page {{ size: {name}; margin: 0 }}\n:root {{ --sheet-width: {width}; --sheet-height: {height} }}"
    one = "\n".join(_card(card))
    copies = one.replace('<article class="card">', '<article class="card copy" aria-hidden="true">')
    return "\n".join(
        [
            "<!doctype html>",
            '<html lang="en-GB">',
            "<head>",
            '<meta charset="utf-8">',
            '<meta name="viewport" content="width=device-width, initial-scale=1">',
            f"<title>{markup(f'Care card: {card.title}')}</title>",
            f"<style>\n{size}\n{STYLE.read_text(encoding='utf-8')}</style>",
            "</head>",
            "<body>",
            '<p class="hint">Print this page: four cards on a sheet, to cut along the lines.</p>',
            '<main class="sheet">',
            one,
            *[copies] * (ON_A_SHEET - 1),
            "</main>",
            "</body>",
            "</html>",
            "",
        ]
    )


def _card(card: Card) -> Iterator[str]:
    yield '<article class="card">'
    yield f'<header><p class="kind">{shown(say("how-to-look-after-it"))}</p><h1>{shown(card.title)}</h1></header>'
    yield "<dl>"
    for title, statements in by_kind(card.note, card.item):
        said = _together(shown(" ".join(statement.text for statement in statements)))
        yield f"<div><dt>{markup(title)}</dt> <dd>{said}</dd></div>"
    yield "</dl>"
    yield "<footer>"
    yield "<div>"
    yield from _shop(card.shop)
    yield f'<p class="footing">{markup(FOOTING)}</p>'
    yield "</div>"
    if card.shop.handbook:
        target = page_address(card.shop.handbook, card.note.id)
        yield f'<figure>{code(target)}<figcaption><a href="{markup(target)}">More on this</a></figcaption></figure>'
    yield "</footer>"
    yield "</article>"


def _together(text: str) -> str:
    """A number and its unit stay on one line."""
    return re.sub(r"(?<=\d) (?=[°%])", "\u00a0", text)


def _shop(shop: Shop) -> Iterator[str]:
    if shop.name or shop.address:
        name = [f"<strong>{shown(shop.name)}</strong>"] if shop.name else []
        yield f"<address>{'<br>'.join([*name, *map(shown, shop.address)])}</address>"


def page_address(handbook: str, note_id: str) -> str:
    """The web address of a note's page, in the handbook at ``handbook``."""
    return f"{handbook.rstrip('/')}/{built(address('care', note_id))}"


def code(web_address: str) -> str:
    """A web address as inline SVG: dark on light whatever lies behind it. A seventh of it may be soiled."""
    drawn: str = segno.make(web_address, micro=False, error="m").svg_inline(
        border=QUIET, dark="#000", light="#fff", omitsize=True, svgclass="code", lineclass=None
    )
    return drawn.replace("<svg ", f'<svg role="img" aria-label="{markup(f"Code for {web_address}")}" ', 1)
