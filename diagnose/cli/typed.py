"""Typed quantities as click types: what cannot be taken is refused like any other wrong option."""

from collections.abc import Callable
from typing import Any

import click

from diagnose.press import quantities


class Quantity(click.ParamType[Any]):
    """A value with its unit, read by one of ``diagnose.press.quantities``."""

    def __init__(self, name: str, read: Callable[[str], Any]) -> None:
        self.name = name
        self.read = read

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        if not isinstance(value, str):
            return value
        try:
            return self.read(value)
        except quantities.Unclear as unclear:
            self.fail(str(unclear), param, ctx)


TEMPERATURE = Quantity("temperature", quantities.temperature)
STEP = Quantity("degrees", quantities.temperature_step)
DWELL = Quantity("time", quantities.dwell)
PRESSURE = Quantity("pressure", quantities.pressure)
LENGTH = Quantity("length", quantities.length)
AREA = Quantity("size", quantities.area)
SHARE = Quantity("share", quantities.share)
