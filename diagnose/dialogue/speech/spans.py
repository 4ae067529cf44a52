"""Windows of temperature and time as they are said: the shop's own unit first, with the other beside it."""

from diagnose.dialogue.speech.chances import temperatures
from diagnose.knowledge.shop import Shop


def temperature(window: tuple[float, float], shop: Shop) -> str:
    """A window in °C as ``193–200 °C (379–392 °F)``, or the other way round."""
    return temperatures(*window, shop.temperature)


def seconds(window: tuple[float, float]) -> str:
    """A window of seconds, with minutes beside it where they say more."""
    said = _span(*window, "s")
    if window[0] < 120:
        return said
    return f"{said} ({_span(round(window[0] / 60, 1), round(window[1] / 60, 1), 'min')})"


def _span(least: float, most: float, unit: str) -> str:
    return f"{least:g} {unit}" if least == most else f"{least:g}–{most:g} {unit}"
