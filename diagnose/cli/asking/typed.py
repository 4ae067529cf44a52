"""Typed quantities as click types: what cannot be taken is refused like any other wrong option."""

import sys
from collections.abc import Callable
from typing import Any

import click

from diagnose.cli.terminal.screen import screen_for
from diagnose.press import quantities
from diagnose.speech.saying import say


class Quantity(click.ParamType[Any]):
    """A value with its unit, read by one of ``diagnose.press.quantities``. Of a bare number whose unit was guessed, by
    its ``kind``, it is said on standard error what it was taken for."""

    def __init__(self, name: str, read: Callable[[str], Any], kind: quantities.QuantityKind | None = None) -> None:
        self.name = name
        self.read = read
        self.kind = kind

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        if not isinstance(value, str):
            return value
        try:
            taken = self.read(value)
        except quantities.Unclear as unclear:
            self.fail(str(unclear), param, ctx)
        if self.kind and (unit := quantities.assumed(value, self.kind)):
            screen_for(sys.stderr).line(
                say("taken-in-the-unit", typed=value, unit=unit.replace("of 1", "of-one")), "dim"
            )
        return taken


TEMPERATURE = Quantity("temperature", quantities.temperature, quantities.TEMPERATURE)
DWELL = Quantity("time", quantities.dwell, quantities.DWELL)
PRESSURE = Quantity("pressure", quantities.pressure)
LENGTH = Quantity("length", quantities.length)
AREA = Quantity("size", quantities.area)
SHARE = Quantity("share", quantities.share, quantities.SHARE)


def _colour(text: str) -> Any:
    """A colour as L,a,b or as a screen's #rrggbb."""
    from diagnose.press.colour.conversion import from_hex
    from diagnose.press.colour.lab import lab

    return from_hex(text) if text.lstrip().startswith("#") else lab(text)


class TypedColour(Quantity):
    """A colour as L,a,b or #rrggbb, or by one of these words."""

    def __init__(self, words: str) -> None:
        super().__init__("colour", self._read)
        self.words = words

    def _read(self, text: str) -> Any:
        from diagnose.press.colour import named

        known = getattr(named, self.words)
        if found := known.get(" ".join(text.lower().split())):
            return found
        if any(sign.isdigit() for sign in text) or text.lstrip().startswith("#"):
            return _colour(text)
        raise quantities.Unclear(f"no colour goes by '{text}': write L,a,b, #rrggbb or one of {', '.join(known)}")


COLOUR = TypedColour("ALL")
