"""Figures measured with an instrument: as flags of ``presslore diagnose``, and typed in answer to a check."""

from collections.abc import Callable, Mapping
from typing import Any

import click

from diagnose.cli.prompts import ask_words
from diagnose.cli.screen import Screen
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Measured
from diagnose.knowledge.model import Check

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


def measured(typed: Mapping[str, str]) -> Measured | None:
    """The figures typed as flags; None where there are none. Raises click.BadParameter for what cannot be taken."""
    from diagnose.foresight.figures import FIGURES, colour, lab
    from diagnose.press.quantities import Unclear

    held: dict[str, float] = {}
    for name, text in typed.items():
        try:
            if name in FIGURES:
                held[name] = FIGURES[name].read(text)
            else:
                held |= colour(name.removesuffix("_lab"), lab(text))
        except Unclear as unclear:
            raise click.BadParameter(str(unclear), param_hint=f"'--{name.replace('_', '-')}'") from unclear
    return Measured(held) if held else None


def hint(consultation: Consultation, check: Check) -> str:
    """What else than a number may be typed in answer to a check, "" where no figure answers it."""
    from diagnose.foresight.figures import FIGURES
    from diagnose.foresight.readings import asked_by

    figure = asked_by(check.id, consultation.item, consultation.knowledge)
    if figure is None:
        return ""
    beside = FIGURES.get(figure.beside)
    return f"or the figure: {figure.example}{f' against {beside.example}' if beside else ''}"


def answered(screen: Screen, consultation: Consultation, check: Check, words: str) -> Measured | None:
    """The figure in some words typed in answer to a check, with the one it stands beside, which is asked for where it
    was not told yet. None where the words hold no figure, or one that cannot be taken: then it has been said why."""
    from diagnose.foresight.figures import FIGURES, typed
    from diagnose.foresight.readings import asked_by
    from diagnose.press.quantities import Unclear

    figure = asked_by(check.id, consultation.item, consultation.knowledge)
    if figure is None or not any(letter.isdigit() for letter in words):
        return None
    try:
        figures = typed(figure, words)
        if figure.beside and not {figure.beside} & {*figures, *_told(consultation)}:
            beside = FIGURES[figure.beside]
            reply = ask_words(screen, f"And {beside.title}? Such as {beside.example}.", {})
            figures |= {beside.id: beside.read(reply.words)}
    except Unclear as unclear:
        screen.line(f"{unclear}.")
        return None
    return Measured(figures, check.id)


def _told(consultation: Consultation) -> set[str]:
    return {name for _, figures in consultation.session.figures for name in figures}
