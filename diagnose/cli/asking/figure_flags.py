"""The flags of ``presslore diagnose`` for figures measured with an instrument. Loaded before the first question."""

from collections.abc import Callable, Mapping
from typing import Any

import click

FLAGS: Mapping[str, tuple[str, str]] = {
    "set": ("TEMPERATURE", "The temperature on the display: 385F."),
    "dwell": ("TIME", "The time on the press's clock: 45s."),
    "probe": ("TEMPERATURE", "What a probe reads on the platen: 371F."),
    "watch": ("TIME", "The time by a watch, closed to bell: 38s."),
    "sheets": ("NUMBER", "Sheets between platen and transfer: 2."),
    "thickness": ("LENGTH", "How thick a hard blank is: 6mm."),
    "strip": ("TEMPERATURE", "What a strip reads where the print lies: 365F."),
    "proof_lab": ("L,A,B", "A patch on a proof that was right: 52,40,20."),
    "print_lab": ("L,A,B", "The same patch on this piece: 58,33,18."),
    "blank_lab": ("L,A,B", "The bare ground of an unpressed piece."),
    "ground_lab": ("L,A,B", "The bare ground of this piece."),
}


def options(command: Callable[..., Any]) -> Callable[..., Any]:
    """The flags as options of a command."""
    for name, (metavar, text) in reversed(list(FLAGS.items())):
        command = click.option(f"--{name.replace('_', '-')}", name, default="", metavar=metavar, help=text)(command)
    return command
