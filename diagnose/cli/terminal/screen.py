"""The one place that writes: to a terminal as it is, its width, its colours, whether it can show more than ASCII.

Whatever a text holds and wherever it comes from, nothing that acts on a terminal reaches it (``characters``), and no
password of an address that was typed in the wrong place (``address``). Pages and JSON are data: they stay as they are.
"""

import json
import os
import shutil
import sys
import textwrap
import time
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import TextIO

import click

from diagnose.casebook.store.address import masked
from diagnose.characters import stripped, unsafe
from diagnose.pace import Far, unheard

NARROWEST, WIDEST = 30, 88
TAKES_COLOUR = 4  # Windows: ENABLE_VIRTUAL_TERMINAL_PROCESSING
SHORT, AGAIN = 1.0, 0.1  # seconds: work that shows no bar; between two looks of one
STEPS = 1000  # of a bar
SWATCH, GROUND = 8, frozenset("0123456789;")
STYLES = {
    "title": {"bold": True},
    "key": {"bold": True, "fg": "cyan"},
    "caution": {"bold": True, "fg": "yellow"},
    "good": {"bold": True, "fg": "green"},
    "bad": {"bold": True, "fg": "red"},
    "dim": {"dim": True},
}
PLAIN = str.maketrans(
    {
        "°": "deg ", "·": "-", "–": "-", "—": "-", "\u2011": "-", "→": "->", "×": "x", "½": "1/2", "¼": "1/4",
        "≥": ">=", "≤": "<=", "≈": "about ", "±": "+/-", "“": '"', "”": '"', "‘": "'", "’": "'", "…": "...",
        "─": "-", "│": "|", "é": "e", "µ": "u", "²": "2", "\u00a0": " ", "\u202f": " ",
    }
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Screen:
    """A place to write to. ``unicode`` is false where the stream's encoding has only a few letters."""

    stream: TextIO
    width: int
    colour: bool
    unicode: bool

    def line(self, text: str = "", style: str = "") -> None:
        """One line, or several where the text is longer than the screen is wide."""
        for part in self.wrapped(text) or [""]:
            self._write(part, style)

    def hang(self, mark: str, text: str, *, style: str = "", indent: int = 0) -> None:
        """A mark (a number, a bullet) and a text that wraps beside it."""
        lead = " " * indent + mark + " "
        room = max(NARROWEST // 2, self.width - len(lead))
        lines = _wrap(self._spelt(masked(text)), room) or [""]
        self._print(self.styled(lead, style) + stripped(lines[0]))
        for line in lines[1:]:
            self._write(" " * len(lead) + line)

    def choices(self, choices: Sequence[str], gap: str = "   ", style: str = "dim") -> None:
        """What may be typed, or other short texts, as many beside each other as fit; none is torn apart."""
        line = ""
        for choice in choices:
            if line and len(line + gap + choice) > self.width:
                self.line(line, style)
                line = ""
            line = f"{line}{gap}{choice}" if line else choice
        self.line(line, style)

    def rule(self) -> None:
        """A line across."""
        self._write(("─" if self.unicode else "-") * self.width, "dim")

    def columns(self, rows: Iterable[tuple[str, str]], gap: int = 2) -> None:
        """Two columns: ids and titles. On a narrow screen the second goes below the first."""
        rows = list(rows)
        left = max((len(one) for one, _ in rows), default=0)
        for one, other in rows:
            if left + gap + 20 > self.width:
                self._write(one, "key")
                self.hang(" ", other, indent=1)
            else:
                self.hang(one.ljust(left + gap - 1), other, style="key")

    def whole(self, text: str) -> None:
        """Lines left unbroken: what went wrong and where, or a command to copy."""
        for line in text.splitlines():
            self._write(line)

    def swatches(self, grounds: Iterable[str], text: str) -> None:
        """Patches of colour, and words beside them. A ground is as ``swatches.ground`` gives it; "" draws nothing."""
        drawn = [f"\x1b[{ground}m{' ' * SWATCH}\x1b[0m" for ground in grounds if ground and set(ground) <= GROUND]
        self._print(" ".join([*drawn, stripped(self._spelt(text))]))

    def document(self, lines: Iterable[str]) -> None:
        """A page, a table or a script that goes to a file or another program as often as to a person: line for line
        as it is."""
        for line in lines:
            self.stream.write(stripped(line, lines=True))
        self.stream.flush()

    def json(self, value: object) -> None:
        """A value as JSON, in ASCII where the stream has no more."""
        self._print(json_text(value, ascii_only=not self.unicode))

    def prompt(self, text: str) -> None:
        """Words in front of what is to be typed."""
        self.stream.write(self.styled(text, "key"))
        self.stream.flush()

    def wrapped(self, text: str) -> list[str]:
        return _wrap(self._spelt(text), self.width)

    def styled(self, text: str, style: str) -> str:
        """The text in its colour, without whatever colours it brings along."""
        if not (self.colour and style):
            return stripped(text)
        return click.style(stripped(text), **STYLES[style])  # type: ignore[arg-type]

    def _spelt(self, text: str) -> str:
        return text if self.unicode else _plain(text)

    def _write(self, text: str, style: str = "") -> None:
        self._print(self.styled(self._spelt(masked(text)), style))

    def _print(self, ready: str) -> None:
        print(ready, file=self.stream, flush=True)


@contextmanager
def progress(what: str, *, shown: bool = True) -> Iterator[Far]:
    """How far work has come, as a bar on standard error: on a terminal that can draw over a line, once the work has
    taken longer than ``SHORT``. Elsewhere, and unless ``shown``, nothing."""
    if not (shown and sys.stderr and sys.stderr.isatty() and os.environ.get("TERM", "") != "dumb"):
        yield unheard
        return
    bar = _Progress(what, sys.stderr)
    try:
        yield bar.far
        bar.finish()
    finally:
        bar.end()


@dataclass(slots=True)
class _Progress:
    """The library's own bar, begun late and drawn seldom."""

    what: str
    stream: TextIO
    began: float = field(default_factory=time.time)
    _next: float = field(default_factory=lambda: time.monotonic() + SHORT)
    _bar: "click._termui_impl.ProgressBar[int] | None" = None

    def far(self, share: float) -> None:
        if time.monotonic() < self._next:
            return
        if self._bar is None:
            self._bar = click.progressbar(length=STEPS, label=self.what, file=self.stream, width=0)
            self._bar.start = self._bar.last_eta = self.began  # the time it is reckoned to take counts from here
        self._bar.update(int(share * STEPS) - self._bar.pos)
        self._next = time.monotonic() + AGAIN

    def finish(self) -> None:
        if self._bar is not None:
            self._bar.update(STEPS - self._bar.pos)

    def end(self) -> None:
        if self._bar is not None:
            self._bar.render_finish()


def screen_for(stream: TextIO | None) -> Screen:
    """The screen behind a stream: NO_COLOR, TERM=dumb, FORCE_COLOR and COLUMNS are heeded. A closed stream shows
    nothing."""
    stream = stream or open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115
    terminal = stream.isatty()
    colour = terminal and os.environ.get("TERM", "") != "dumb" and _shows_colour(stream)
    if os.environ.get("FORCE_COLOR"):
        colour = True
    if os.environ.get("NO_COLOR"):
        colour = False
    width = shutil.get_terminal_size((WIDEST, 24)).columns if terminal or "COLUMNS" in os.environ else WIDEST
    unicode = _can_show(stream, "─°·")
    if hasattr(stream, "reconfigure"):  # a letter that cannot be shown is no reason to stop
        stream.reconfigure(errors="replace")
    return Screen(stream, max(NARROWEST, min(WIDEST, width)), colour, unicode)


def _shows_colour(terminal: TextIO) -> bool:
    """Whether a terminal takes colours for what they are: on Windows it does once it is told to, an old one never."""
    if sys.platform != "win32":
        return True
    import ctypes
    import msvcrt

    kernel, mode = ctypes.WinDLL("kernel32"), ctypes.c_ulong()
    handle = ctypes.c_void_p(msvcrt.get_osfhandle(terminal.fileno()))
    return bool(
        kernel.GetConsoleMode(handle, ctypes.byref(mode)) and kernel.SetConsoleMode(handle, mode.value | TAKES_COLOUR)
    )


def _wrap(text: str, width: int) -> list[str]:
    """Lines of words; a word longer than the line (an id, the place of a file) stays whole, to be copied."""
    return textwrap.wrap(text, width, break_on_hyphens=False, break_long_words=False)


def _plain(text: str) -> str:
    letters = unicodedata.normalize("NFKD", text.translate(PLAIN))
    return "".join(letter for letter in letters if not unicodedata.combining(letter))


def _can_show(stream: TextIO, text: str) -> bool:
    try:
        text.encode(stream.encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return False
    return True


def both_terminals() -> bool:
    """Whether somebody is there to answer: input and output are both a terminal."""
    return all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout))


def print_json(value: object) -> None:
    """A value as JSON on standard output."""
    screen_for(sys.stdout).json(value)


def json_text(value: object, *, ascii_only: bool = False) -> str:
    """A value as indented JSON in which what acts on a terminal is spelt out: ``\\u202e``."""
    text = json.dumps(value, indent=2, ensure_ascii=ascii_only)
    for sign in {sign for _, sign in unsafe(text)}:
        text = text.replace(sign, json.dumps(sign)[1:-1])
    return text
