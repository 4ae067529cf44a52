"""Which characters of a text may reach a terminal or a page.

Kept out are those that show nothing themselves and act on what stands round them: control characters (an escape
begins a command to the terminal), format characters (joiners, and the overrides that turn the order of letters),
separators of lines and paragraphs, and lone surrogates, which no stream can carry. In Unicode these are the general
categories Cc, Cf, Zl, Zp and Cs.
"""

import re
import unicodedata
from collections.abc import Iterator

_ACTING = (
    "\x00-\x1f\x7f-\x9f\xad\u0600-\u0605\u061c\u06dd\u070f\u0890\u0891\u08e2\u180e\u200b-\u200f\u2028-\u202e"
    "\u2060-\u206f\ud800-\udfff\ufeff\ufff0-\ufffb\U000110bd\U000110cd\U00013430-\U0001345f\U0001bca0-\U0001bcaf"
    "\U0001d173-\U0001d17a\U000e0000-\U000e007f"
)
_UNSAFE = re.compile(f"[{_ACTING}]")
_UNSAFE_IN_LINES = re.compile(f"(?!\n)[{_ACTING}]")


def stripped(text: str, *, lines: bool = False) -> str:
    """The text without what acts on its surroundings; a tab becomes a space. ``lines``: line feeds stay."""
    if text.isascii() and text.isprintable():
        return text
    return (_UNSAFE_IN_LINES if lines else _UNSAFE).sub("", text.replace("\t", " "))


def unsafe(text: str) -> Iterator[tuple[int, str]]:
    """Where characters stand that must not be shown, and which; line feeds are passed over."""
    if not (text.isascii() and text.isprintable()):
        yield from ((match.start(), match[0]) for match in _UNSAFE_IN_LINES.finditer(text))


def named(character: str) -> str:
    """A character that cannot be shown, in words: ``U+202E, right-to-left override``."""
    name = unicodedata.name(character, "").lower()
    code = f"U+{ord(character):04X}"
    return f"{code}, {name}" if name else code
