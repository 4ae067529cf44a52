"""What a job gets in the press, on the screen and as plain JSON values."""

from collections.abc import Iterator
from typing import Any

from diagnose.cli.lookup import cards
from diagnose.cli.shop.shelf import Shelf
from diagnose.cli.terminal.plot import PlotLine, plot
from diagnose.cli.terminal.screen import Screen
from diagnose.foresight.heating import STEADY, Heating, Other
from diagnose.knowledge.cautions import at_a_press
from diagnose.speech.amounts import degrees, seconds, shown_in, step
from diagnose.speech.saying import say


def page(screen: Screen, shelf: Shelf, heating: Heating) -> None:
    """All of it, the cautions before anything that tells a person what to do."""
    unit = shelf.shop.temperature
    screen.line(cards.titled(heating.item), "title")
    cards.cautions(screen, shelf.knowledge, at_a_press(shelf.knowledge.cautions, heating.item))
    screen.line(say("what-was-set", settings=set_words(heating, unit)))
    if heating.too_hot:
        screen.line(say("too-hot", unit=unit), "caution")
    screen.line()
    plot(screen, _lines(heating, unit), f"°{unit}")
    screen.line()
    screen.line(say("what-it-got"), "title")
    for text in got(heating, unit):
        screen.hang("-", text)
    screen.line()
    screen.line(say("what-to-set"), "title")
    for text in to_set(heating, unit):
        screen.hang("-", text)
    screen.line(say("basis-of-heat"), "dim")


def set_words(heating: Heating, unit: str) -> str:
    """The settings in a line."""
    given = heating.settings
    sheets = f"{given.cover_sheets} cover sheet{'' if given.cover_sheets == 1 else 's'}"
    way = "through its back" if heating.body.through_back else "through the sheet"
    parts = [degrees(given.temperature, unit), seconds(given.dwell), f"{given.pressure:.0f} kPa over the item", sheets]
    parts += [f"pre-pressed {given.pre_press:.0f} s"] if given.pre_press else []
    return f"{', '.join(parts)}; heated {way if heating.body.under else 'all round'}"


def got(heating: Heating, unit: str) -> Iterator[str]:
    """What the dye got, in sentences."""
    given = heating.settings
    if given.offset:
        side = "under" if given.offset < 0 else "over"
        yield say("platen-off-its-display", side=side, step=step(given.offset, unit))
    if heating.sheets_leave is not None:
        more = given.cover_sheets - heating.usual.cover_sheets
        leave = f"{heating.sheets_leave:.2g}"
        yield say("sheets-more", more=more, leave=leave) if more > 0 else say("sheets-fewer", fewer=-more, leave=leave)
    yield (
        say(
            "hottest-at-the-dye",
            peak=degrees(heating.result.peak, unit),
            within=step(STEADY, unit),
            after=seconds(heating.steady),
        )
    )
    yield from _colour(heating, unit)


def _colour(heating: Heating, unit: str) -> Iterator[str]:
    """What the heat made of the dye."""
    result = heating.result
    yield (
        say(
            "dose-as-much",
            dose=result.dose,
            temperature=degrees(heating.body.reference.temperature, unit),
            over=_over(result.over),
        )
    )
    low, high = result.share_band
    yield say("colour-about-so-full", share=_share(result.share), low=_share(low), high=_share(high))
    polyester = heating.item.facts.get("item.polyester")
    if isinstance(polyester, int | float) and polyester < 100:
        yield say("full-is-what-it-can-show", other_fibre=100 - polyester)
    if heating.wanders:
        yield say("loose-dye-wanders")
    elif heating.softens:
        yield say("edges-begin-to-soften")


def to_set(heating: Heating, unit: str) -> Iterator[str]:
    """What to set, in sentences."""
    if heating.as_wanted:
        yield say("stay-with-it")
    yield from _ways(heating, unit)
    if heating.instead is not None:
        yield from _instead(heating.instead, heating, unit)


def _ways(heating: Heating, unit: str) -> Iterator[str]:
    given = heating.settings
    if heating.dwell is None:
        yield say("no-dwell-within-an-hour", temperature=degrees(given.temperature, unit))
    else:
        yield say("dwell-is-just-right", temperature=degrees(given.temperature, unit), dwell=seconds(heating.dwell))
    if heating.temperature is not None:
        yield say("heat-within-the-dwell", dwell=seconds(given.dwell), temperature=degrees(heating.temperature, unit))
    else:
        yield say("no-safe-heat", dwell=seconds(given.dwell))


def _instead(other: Other, heating: Heating, unit: str) -> Iterator[str]:
    at = degrees(other.temperature, unit)
    if other.same is None:
        yield say("instead-not-within-an-hour", temperature=at)
        return
    yield say("instead-for-the-same", temperature=at, dwell=seconds(other.same))
    if not heating.as_wanted and other.wanted is not None:
        yield say("instead-for-what-it-wants", temperature=at, dwell=seconds(other.wanted))


def _over(over: float) -> str:
    if over < 0.01:
        return "nothing"
    return "just" if 0.95 <= over <= 1.05 else f"{over:.2g}"


def to_plain(shelf: Shelf, heating: Heating) -> dict[str, Any]:
    """The same values, in °C and seconds."""
    given, result, other = heating.settings, heating.result, heating.instead
    return {
        "item": {"id": heating.item.id, "title": heating.item.title, "origin": heating.item.origin},
        "settings": {
            "temperature_c": round(given.temperature, 2),
            "dwell_s": given.dwell,
            "pressure_kpa": given.pressure,
            "platen_offset_k": round(given.offset, 2),
            "cover_sheets": given.cover_sheets,
            "pre_press_s": given.pre_press,
            "through_back": heating.body.through_back,
        },
        "result": {
            "peak_c": round(result.peak, 1),
            "steady_s": round(heating.steady, 1),
            "dose_s": round(result.dose, 2),
            "reference_c": heating.body.reference.temperature,
            "over": round(result.over, 4),
            "share": round(result.share, 4),
            "share_band": [round(each, 4) for each in result.share_band],
            "edges_soften": heating.softens,
            "dye_wanders": heating.wanders,
            "too_hot": heating.too_hot,
            "sheets_leave": _rounded(heating.sheets_leave, 3),
        },
        "to_set": {"dwell_s": _rounded(heating.dwell), "temperature_c": _rounded(heating.temperature)},
        "instead": other
        and {
            "temperature_c": round(other.temperature, 2),
            "same_dwell_s": _rounded(other.same),
            "wanted_dwell_s": _rounded(other.wanted),
        },
        "track": [
            {"s": round(time, 2), "dye_c": round(dye, 1), "platen_c": round(platen, 1)}
            for time, dye, platen in heating.track
        ],
        "cautions": list(at_a_press(shelf.knowledge.cautions, heating.item)),
    }


def _lines(heating: Heating, unit: str) -> list[PlotLine]:
    dye = [(time, shown_in(unit, celsius)) for time, celsius, _ in heating.track]
    platen = [(time, shown_in(unit, celsius)) for time, _, celsius in heating.track]
    return [PlotLine("*", "at the dye", dye), PlotLine(".", "platen", platen)]


def _rounded(value: float | None, places: int = 1) -> float | None:
    return None if value is None else round(value, places)


def _share(value: float) -> str:
    return f"{min(99, round(100 * value))} %"
