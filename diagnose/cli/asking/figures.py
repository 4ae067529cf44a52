"""Figures measured with an instrument: typed as flags, or in answer to a check."""

from collections.abc import Mapping

import click

from diagnose.cli.asking.prompts import ask_words
from diagnose.cli.terminal.screen import Screen
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Measured
from diagnose.foresight.figures import FIGURES, Figure, colour, typed
from diagnose.foresight.figures_told import figures_told, without_figures
from diagnose.knowledge.model import Check
from diagnose.press.colour.lab import lab
from diagnose.press.quantities import Unclear
from diagnose.speech.saying import say


def measured(typed: Mapping[str, str]) -> Measured | None:
    """The figures typed as flags; None where there are none. Raises click.BadParameter for what cannot be taken."""
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
    if not any(check.id in measure.settles for measure in consultation.knowledge.readings.values()):
        return ""  # before anything of the press is loaded
    from diagnose.foresight.readings import asked_by

    figure = asked_by(check.id, consultation.item, consultation.knowledge)
    if figure is None:
        return ""
    beside, unit = FIGURES.get(figure.beside), consultation.shop.temperature
    return f"or the figure: {figure.shown(unit)}{f' against {beside.shown(unit)}' if beside else ''}"


def answered(screen: Screen, consultation: Consultation, check: Check, words: str) -> Measured | None:
    """The figure in some words typed in answer to a check, with the one it stands beside, which is asked for where it
    was not told yet. None where the one beside it cannot be taken: then it has been said why. Raises Unclear where the
    words hold no figure of the kind that was asked for."""
    from diagnose.foresight.readings import asked_by

    figure = asked_by(check.id, consultation.item, consultation.knowledge)
    if figure is None:
        raise Unclear("no figure answers this")
    figures = _in_words(figure, words)
    try:
        if figure.beside and not {figure.beside} & {*figures, *_told(consultation)}:
            beside = FIGURES[figure.beside]
            reply = ask_words(
                screen,
                say("and-the-figure-beside", figure=beside.title, example=beside.shown(consultation.shop.temperature)),
                {},
            )
            figures |= {beside.id: beside.read(reply.words)}
    except Unclear as unclear:
        screen.line(f"{unclear}.")
        return None
    return Measured(figures, check.id)


def _in_words(figure: Figure, words: str) -> dict[str, float]:
    """The figure as it may be typed, or within other words: "it says 371F". Raises Unclear."""
    try:
        return typed(figure, words)
    except Unclear:
        told = figures_told(words)
        if any(letter.isdigit() for letter in without_figures(words, told)):
            raise  # a figure among them was not taken
        found = {each.name: each.value for each in told}
        alike = [name for name in found if FIGURES[name].read is figure.read]
        if figure.id not in found and len(alike) == 1 and alike[0] == USUAL.get(figure.id):
            found = {figure.id: found[alike[0]]}
        if figure.id not in found:
            raise
        return {name: value for name, value in found.items() if name in (figure.id, figure.beside)}


USUAL = {
    "probe": "set",
    "strip": "set",
    "watch": "dwell",
}  # what a figure is taken for where no word says of what it is


def _told(consultation: Consultation) -> set[str]:
    return {name for _, figures in consultation.session.figures for name in figures}
