"""Plays the command in this process: what is typed comes from a list, what is shown comes back as one text."""

import io
import os
import re
import sys
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from unittest import mock

from diagnose.cli.cases import adding as cases_add
from diagnose.cli.diagnosis import command as diagnosis
from diagnose.cli.diagnosis import recalling
from diagnose.cli.program import run
from diagnose.cli.ready import command as ready
from diagnose.cli.rules import keeping as rule_keeping
from diagnose.cli.rules import new as rule_new

PLAIN = {"NO_COLOR": "1", "COLUMNS": "88", "TERM": "dumb"}
AT_ROOT = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[2])}  # for a process of its own
CTRL_C = "\x03"
TODAY = "2026-11-25"
NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)


class _Screen(io.StringIO):
    """Standard output that can show any letter."""

    encoding = "utf-8"


class _Typed(io.StringIO):
    """Standard input that shows what is typed on the screen, as a terminal does."""

    def __init__(self, lines: Iterable[str], screen: io.StringIO) -> None:
        super().__init__("".join(f"{line}\n" for line in lines))
        self.screen = screen

    # The stubs have a stream of text inherit from one of bytes, too.
    def readline(self, size: int | None = -1, /) -> str:  # type: ignore[override]
        line = super().readline(-1 if size is None else size)
        if line == f"{CTRL_C}\n":
            raise KeyboardInterrupt
        self.screen.write(line or "\n")
        return line


@contextmanager
def _streams(typed: Iterable[str], somebody: bool) -> Iterator[tuple[io.StringIO, io.StringIO]]:
    out, err = _Screen(), _Screen()
    with (
        mock.patch.object(sys, "stdout", out),
        mock.patch.object(sys, "stderr", err),
        mock.patch.object(sys, "stdin", _Typed(typed, out)),
        mock.patch.object(diagnosis, "both_terminals", return_value=somebody),
        mock.patch.object(ready, "both_terminals", return_value=somebody),
        mock.patch.object(rule_new, "both_terminals", return_value=somebody),
        mock.patch.object(rule_keeping, "today", return_value=TODAY),
        mock.patch.object(recalling, "now", return_value=NOON),
        mock.patch.object(cases_add, "both_terminals", return_value=somebody),
    ):
        yield out, err


def play(
    args: list[str],
    typed: Iterable[str] = (),
    *,
    somebody: bool = False,
    environment: Mapping[str, str] = PLAIN,
) -> tuple[int, str, str]:
    """The exit code, what stood on standard output and what on standard error. ``somebody``: a person is there
    to answer, and types these lines; CTRL_C as a line is the key, and after the last line the input ends."""
    with mock.patch.dict(os.environ, environment), _streams(typed, somebody) as (out, err):
        code = run(args)
    return code, out.getvalue(), err.getvalue()


def typed_in(transcript: str) -> list[str]:
    """What was typed in a transcript: the lines that begin with the prompt."""
    return re.findall(r"^> ?(.*)$", transcript, flags=re.MULTILINE)
