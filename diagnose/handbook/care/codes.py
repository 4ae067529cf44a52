"""The square code on a care card, which leads a telephone's camera to the note's page in the handbook."""

from typing import Final

import segno

from diagnose.handbook.links import address, built
from diagnose.handbook.text import markup

QUIET: Final = 4  # modules of white all round, as the standard of the code asks for


def page_address(handbook: str, note_id: str) -> str:
    """The web address of a note's page, in the handbook at ``handbook``."""
    return f"{handbook.rstrip('/')}/{built(address('care', note_id))}"


def code(web_address: str) -> str:
    """A web address as inline SVG: dark on light whatever lies behind it. A seventh of it may be soiled."""
    drawn: str = segno.make(web_address, micro=False, error="m").svg_inline(
        border=QUIET, dark="#000", light="#fff", omitsize=True, svgclass="code", lineclass=None
    )
    return drawn.replace("<svg ", f'<svg role="img" aria-label="{markup(f"Code for {web_address}")}" ', 1)
